/** Puts the slots of the map, each with all that lies in it, into an order. */
import type { Map } from 'maplibre-gl'
import { SLOTS, topOf, type Slot } from './open-map'

/**
 * Moves whole slots; layers within one keep their order, and what is added later finds its slot
 * where it then stands. Words stay on top of everything.
 *
 * @param order the uppermost first; slots that it does not name stay under those that it does
 */
export function orderSlots(map: Map, order: readonly Exclude<Slot, 'labels'>[]): void {
  const slots = layersBySlot(map.getLayersOrder())
  const wanted = [...order].reverse()
  const lowest = slots.get('labels')?.[0]
  for (const slot of wanted) {
    for (const id of slots.get(slot) ?? []) map.moveLayer(id, lowest)
  }
}

/** Ids of each slot's layers, the slot's own mark last. */
function layersBySlot(ids: readonly string[]): globalThis.Map<Slot, string[]> {
  const marks = new globalThis.Map(SLOTS.map((slot) => [topOf(slot), slot]))
  const found = new globalThis.Map<Slot, string[]>()
  let waiting: string[] = []
  for (const id of ids) {
    // The paper lies under everything.
    if (id === 'paper') continue
    waiting.push(id)
    const slot = marks.get(id)
    if (slot === undefined) continue
    found.set(slot, waiting)
    waiting = []
  }
  return found
}
