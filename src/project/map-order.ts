/** The order in which layers lie on the map. */

/** Layers that can be ordered, as they lie unless told otherwise, the uppermost first. */
export const MAP_LAYERS = [
  'stations',
  'walk',
  'structures',
  'contours',
  'outlines',
  'surface',
  'hillshade',
] as const
export type MapLayer = (typeof MAP_LAYERS)[number]

/**
 * All layers, the uppermost first: those that are named in their order, and what an older project
 * does not name directly under what lies above it otherwise.
 */
export function wholeOrder(named: readonly MapLayer[]): readonly MapLayer[] {
  const order = MAP_LAYERS.filter((layer) => !named.includes(layer)).reduce<MapLayer[]>(
    (found, layer) => {
      const above = MAP_LAYERS.slice(0, MAP_LAYERS.indexOf(layer)).findLast((other) =>
        found.includes(other),
      )
      found.splice(above === undefined ? 0 : found.indexOf(above) + 1, 0, layer)
      return found
    },
    named.filter((layer, i) => MAP_LAYERS.includes(layer) && named.indexOf(layer) === i),
  )
  return order
}

/**
 * The order with one layer moved past the next one that is there.
 *
 * @param by -1 up, 1 down
 * @param there the layers that can be seen to move; the others do not count as a place
 */
export function moved(
  order: readonly MapLayer[],
  layer: MapLayer,
  by: -1 | 1,
  there: ReadonlySet<MapLayer>,
): readonly MapLayer[] {
  const from = order.indexOf(layer)
  let to = from + by
  while (to >= 0 && to < order.length && !there.has(order[to])) to += by
  if (from < 0 || to < 0 || to >= order.length) return order
  const next = order.filter((other) => other !== layer)
  next.splice(to, 0, layer)
  return next
}
