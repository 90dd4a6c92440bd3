/** Stations by two of their values. */
import type { Measured } from '../../indices/rule'

export interface ScatterPoint {
  readonly station: number
  readonly x: number
  readonly y: number
}

/** The stations that have both values. */
export function scatterPoints(xs: readonly Measured[], ys: readonly Measured[]): ScatterPoint[] {
  return xs.flatMap(({ value: x }, station) => {
    const y = ys[station]?.value ?? null
    return x === null || y === null ? [] : [{ station, x, y }]
  })
}

export interface Box {
  readonly left: number
  readonly right: number
  readonly low: number
  readonly high: number
}

/** Stations whose values lie in a box, both ends included. */
export function stationsIn(points: readonly ScatterPoint[], box: Box): number[] {
  return points
    .filter(({ x, y }) => x >= box.left && x <= box.right && y >= box.low && y <= box.high)
    .map(({ station }) => station)
}
