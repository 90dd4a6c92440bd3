/**
 * Experimental variograms: Matheron 1963, and the robust one of Cressie and Hawkins 1980.
 *
 * Lags are gstat's: pairs no farther apart than the cutoff; lag k holds (k·width, (k+1)·width],
 * so that a pair exactly on a limit belongs to the nearer lag.
 */
import type { Lag, Points } from './model'
import type { PairFilter } from './parted-pairs'
import { boundsOf } from './points'

export interface Lags {
  /** Pairs farther apart are not used, working units. */
  readonly cutoff: number
  readonly width: number
}

export interface VariogramOptions {
  readonly estimator?: 'matheron' | 'cressie-hawkins'
  /** Degrees clockwise from north; absent for all directions together. */
  readonly azimuth?: number
  /** Half the opening to each side of the azimuth, degrees; 22.5 where absent. */
  readonly tolerance?: number
  /** Pairs that may be used; all where null or absent. */
  readonly pairs?: PairFilter | null
}

/** gstat's default lags: a third of the bounding box's diagonal in fifteen. */
export function defaultLags(points: Pick<Points, 'x' | 'y'>): Lags {
  const [west, south, east, north] = boundsOf(points)
  const cutoff = Math.hypot(east - west, north - south) / 3
  return { cutoff, width: cutoff / 15 }
}

/** Least pairs that a suggested lag should hold (Journel and Huijbregts 1978 ask for 30 to 50). */
const WANTED_PAIRS = 30

/**
 * Lags suggested for points: out to a third of the diagonal, at most fifteen, fewer where
 * stations are few, so that lags hold thirty pairs on average.
 */
export function suggestLags(points: Pick<Points, 'x' | 'y'>): Lags {
  const { cutoff } = defaultLags(points)
  const n = points.x.length
  // About a quarter of all pairs lie within a third of the diagonal.
  const pairs = (n * (n - 1)) / 8
  const lags = Math.min(15, Math.max(5, Math.floor(pairs / WANTED_PAIRS)))
  return { cutoff, width: cutoff / lags }
}

/**
 * The experimental variogram; lags without pairs are left out. Pairs on the same spot are not
 * used (duplicates are one station, see `mergeDuplicates`).
 *
 * @throws Error where the lags are not above 0
 */
export function experimentalVariogram(
  points: Points,
  lags: Lags,
  options: VariogramOptions = {},
): Lag[] {
  const { cutoff, width } = lags
  if (!(cutoff > 0 && width > 0) || cutoff / width > 1000)
    throw new Error(`Variogram lags need a cutoff and a width above 0: ${cutoff} by ${width}.`)
  const sums = new LagSums(Math.floor(cutoff / width) + 1, options.estimator === 'cressie-hawkins')
  const direction = options.azimuth === undefined ? null : coneOf(options)
  const { x, y, value } = points
  for (let i = 1; i < x.length; i++) {
    for (let j = 0; j < i; j++) {
      const dx = x[i] - x[j]
      const dy = y[i] - y[j]
      const squared = dx * dx + dy * dy
      if (squared === 0 || squared > cutoff * cutoff) continue
      const distance = Math.sqrt(squared)
      if (direction && !direction(dx, dy, distance)) continue
      if (options.pairs && !options.pairs(i, j)) continue
      sums.add(lagOf(distance, width), distance, value[i] - value[j])
    }
  }
  return sums.lags()
}

/** The lag of a distance: half-open below, closed above. */
function lagOf(distance: number, width: number): number {
  const part = distance / width
  const lag = Math.floor(part)
  return lag === part ? lag - 1 : lag
}

/** Whether a step lies within the tolerance of a direction, either way along it. */
function coneOf(options: VariogramOptions): (dx: number, dy: number, h: number) => boolean {
  const azimuth = ((options.azimuth ?? 0) * Math.PI) / 180
  const tolerance = ((options.tolerance ?? 22.5) * Math.PI) / 180
  const east = Math.sin(azimuth)
  const north = Math.cos(azimuth)
  return (dx, dy, h) => Math.acos(Math.min(1, Math.abs(dx * east + dy * north) / h)) <= tolerance
}

class LagSums {
  private readonly pairs: Float64Array
  private readonly distances: Float64Array
  private readonly sums: Float64Array

  constructor(
    private readonly count: number,
    private readonly robust: boolean,
  ) {
    this.pairs = new Float64Array(count)
    this.distances = new Float64Array(count)
    this.sums = new Float64Array(count)
  }

  add(lag: number, distance: number, difference: number): void {
    this.pairs[lag]++
    this.distances[lag] += distance
    this.sums[lag] += this.robust ? Math.sqrt(Math.abs(difference)) : difference * difference
  }

  lags(): Lag[] {
    const found: Lag[] = []
    for (let lag = 0; lag < this.count; lag++) {
      const pairs = this.pairs[lag]
      if (pairs === 0) continue
      const mean = this.sums[lag] / pairs
      const gamma = this.robust ? (0.5 * mean ** 4) / (0.457 + 0.494 / pairs) : 0.5 * mean
      found.push({ pairs, distance: this.distances[lag] / pairs, gamma })
    }
    return found
  }
}
