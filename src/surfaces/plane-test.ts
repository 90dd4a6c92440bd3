/** Whether values rise across the ground: a plane through them, and what it is worth. */
import type { Points } from './model'
import { spreadOf } from './points'
import { spatialBlocks, suggestBlockSide } from './testing'
import { detrended } from './trend'

/** A plane of least squares through values. */
export interface PlaneTest {
  /** Rise along its steepest direction, value's unit per working unit. */
  readonly slope: number
  /** That direction, degrees clockwise from north, 0 to 360. */
  readonly azimuth: number
  /** The part of the values' variance that it takes, 0 to 1. */
  readonly rSquared: number
  /**
   * The chance of so good a plane were there none, if stations were independent of one another.
   * They are not, near each other, so it is far too small for values that hang together.
   */
  readonly pIfIndependent: number
  /**
   * By how much it predicts whole blocks of stations better than their mean does, a part of 1;
   * below 0 where it is worse. Null where stations lie in one block, or too few in the others.
   */
  readonly blockedGain: number | null
}

/** Blocks that are left out need this many other stations to fit a plane to. */
const LEAST_OTHERS = 6

/**
 * Fits a plane and tests it. F of a plane against a mean has 2 and n − 3 degrees of freedom,
 * whose upper tail is (1 − R²)^((n − 3)/2).
 *
 * @returns null under six stations, or where they lie on one line or have no spread
 */
export function planeTest(points: Points): PlaneTest | null {
  const count = points.x.length
  const { variance } = spreadOf(points.value)
  if (count < LEAST_OTHERS || !(variance > 0)) return null
  const plane = planeOf(points, null)
  if (!plane) return null
  const rest = detrended(points, 1).value
  let left = 0
  for (const value of rest) left += value * value
  const rSquared = Math.min(1, Math.max(0, 1 - left / (variance * (count - 1))))
  const azimuth = (Math.atan2(plane.east, plane.north) * 180) / Math.PI
  return {
    slope: Math.hypot(plane.east, plane.north),
    azimuth: (azimuth + 360) % 360,
    rSquared,
    pIfIndependent: (1 - rSquared) ** ((count - 3) / 2),
    blockedGain: blockedGain(points),
  }
}

interface Plane {
  readonly east: number
  readonly north: number
  at(x: number, y: number): number
}

/** Least squares over the stations outside a block; null where they do not span a plane. */
function planeOf({ x, y, value }: Points, without: ((i: number) => boolean) | null): Plane | null {
  let n = 0
  let mx = 0
  let my = 0
  let mz = 0
  for (let i = 0; i < x.length; i++) {
    if (without?.(i)) continue
    n++
    mx += x[i]
    my += y[i]
    mz += value[i]
  }
  if (n < 3) return null
  mx /= n
  my /= n
  mz /= n
  let [xx, xy, yy, xz, yz] = [0, 0, 0, 0, 0]
  for (let i = 0; i < x.length; i++) {
    if (without?.(i)) continue
    const [dx, dy, dz] = [x[i] - mx, y[i] - my, value[i] - mz]
    xx += dx * dx
    xy += dx * dy
    yy += dy * dy
    xz += dx * dz
    yz += dy * dz
  }
  const determinant = xx * yy - xy * xy
  if (!(determinant > 1e-9 * (xx + yy) ** 2)) return null
  const east = (yy * xz - xy * yz) / determinant
  const north = (xx * yz - xy * xz) / determinant
  return { east, north, at: (px, py) => mz + east * (px - mx) + north * (py - my) }
}

function blockedGain(points: Points): number | null {
  const { x, y, value } = points
  const blocks = spatialBlocks(points, suggestBlockSide(points, null))
  const names = new Set(blocks)
  if (names.size < 2) return null
  let byPlane = 0
  let byMean = 0
  for (const block of names) {
    const inside = (i: number) => blocks[i] === block
    const others = value.filter((_, i) => !inside(i))
    const plane = others.length >= LEAST_OTHERS ? planeOf(points, inside) : null
    if (!plane) return null
    const { mean } = spreadOf(others)
    for (let i = 0; i < x.length; i++) {
      if (!inside(i)) continue
      byPlane += (value[i] - plane.at(x[i], y[i])) ** 2
      byMean += (value[i] - mean) ** 2
    }
  }
  return 1 - Math.sqrt(byPlane / byMean)
}
