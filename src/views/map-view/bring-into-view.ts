/** Moves the map so that a place on it can be seen. */
import type { Map } from 'maplibre-gl'

/** A place nearer to the map's edge than this is not seen well, CSS px. */
const EDGE = 28

/**
 * Brings a place to the middle where it stands at the edge, outside, or under what lies over the
 * map's right; else leaves the map alone.
 *
 * @param at degrees
 * @param covered width of what lies over the map's right, CSS px
 */
export function bringIntoView(map: Map, at: readonly [number, number], covered: number): void {
  map.resize()
  const { clientWidth, clientHeight } = map.getContainer()
  const { x, y } = map.project([at[0], at[1]])
  const seen =
    x > EDGE && x < clientWidth - covered - EDGE && y > EDGE && y < clientHeight - 2 * EDGE
  if (seen) return
  map.easeTo({ center: [at[0], at[1]], offset: [-covered / 2, 0], duration: 300 })
}
