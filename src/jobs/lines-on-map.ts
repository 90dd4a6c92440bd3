/** Contours in degrees for the map, thinned to what can be seen, made where it holds nobody up. */
import type { Contour } from '../surfaces/contours'
import { thinLine } from '../surfaces/thin-line'
import { mapFrame } from './map-frame'

export interface LinesInput {
  readonly contours: readonly Contour[]
  /** Farthest that a thinned line may leave its course, working units. */
  readonly tolerance: number
  readonly crs: string
  /** Of what is drawn, working units; matters for local grids alone. */
  readonly centre: readonly [x: number, y: number]
}

export interface LinesOnMap {
  /** Longitude and latitude in turn, line after line. */
  readonly degrees: Float64Array
  /** Number of places of each line. */
  readonly lengths: Int32Array
  readonly levels: Float64Array
}

/** Contours in degrees; places off the map are left out, and lines of fewer than two. */
export function linesOnMap({ contours, tolerance, crs, centre }: LinesInput): LinesOnMap {
  const { toDegrees } = mapFrame(crs, centre)
  const degrees: number[] = []
  const lengths: number[] = []
  const levels: number[] = []
  for (const { level, x, y } of contours) {
    const start = degrees.length
    for (const i of thinLine(x, y, tolerance)) {
      const place = toDegrees(x[i], y[i])
      if (place) degrees.push(place[0], place[1])
    }
    const places = (degrees.length - start) / 2
    if (places < 2) {
      degrees.length = start
      continue
    }
    lengths.push(places)
    levels.push(level)
  }
  return {
    degrees: Float64Array.from(degrees),
    lengths: Int32Array.from(lengths),
    levels: Float64Array.from(levels),
  }
}
