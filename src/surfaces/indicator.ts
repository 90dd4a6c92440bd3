/**
 * Class probability by indicator kriging (Journel 1983), order relations corrected.
 *
 * An indicator is 1 where a station is of the class and 0 where it is not; where the
 * identification is in doubt it is soft, anything between.
 */
import type { Points } from './model'
import { checkPoints, checkSpread } from './points'

/** Under this many stations a probability would be a pretence. */
export const LEAST_STATIONS = 20

/**
 * Refuses indicators that no probability can be drawn from.
 *
 * @throws Error in words: too few stations, a value outside 0…1, or all the same
 */
export function checkIndicators(points: Points, what = 'this class'): void {
  checkPoints(points, 1, what)
  if (points.value.length < LEAST_STATIONS)
    throw new Error(
      `A probability of ${what} needs at least ${LEAST_STATIONS} stations and has ` +
        `${points.value.length}; show the stations themselves instead.`,
    )
  for (const value of points.value)
    if (value < 0 || value > 1)
      throw new Error(`An indicator of ${what} must lie between 0 and 1; one is ${value}.`)
  checkSpread(points, what)
}

/** Probabilities from kriged indicators: those outside are brought to 0 or 1. NaN stays. */
export function clippedProbabilities(kriged: Float64Array): Float64Array {
  return kriged.map((value) => Math.min(1, Math.max(0, value)))
}

/** Probabilities of several classes and of none of them; they sum to 1 at every node. */
export interface JointProbabilities {
  readonly classes: readonly Float64Array[]
  readonly none: Float64Array
}

/**
 * Kriged indicators of classes that exclude each other made consistent: each is clipped to 0…1,
 * a sum above 1 is scaled down to 1, and what is left is "none of these".
 *
 * @param kriged one array a class, of equal lengths; a node is NaN where any of them is
 */
export function jointProbabilities(kriged: readonly Float64Array[]): JointProbabilities {
  const count = kriged[0]?.length ?? 0
  const classes = kriged.map(clippedProbabilities)
  const none = new Float64Array(count)
  for (let node = 0; node < count; node++) {
    let sum = 0
    for (const probability of classes) sum += probability[node]
    none[node] = Math.max(0, 1 - sum)
    if (Number.isNaN(sum)) for (const probability of classes) probability[node] = NaN
    else if (sum > 1) for (const probability of classes) probability[node] /= sum
  }
  return { classes, none }
}

/** The likeliest class at every node and how much remains for all others. */
export interface Likeliest {
  /** Number of the class, −1 for "none of these", −2 where nothing is known. */
  readonly label: Int16Array
  /** 1 minus the likeliest one's probability; NaN where nothing is known. */
  readonly doubt: Float64Array
}

/** The likeliest class and its doubt; on equal probabilities the class that stands first. */
export function likeliestClass(joint: JointProbabilities): Likeliest {
  const label = new Int16Array(joint.none.length)
  const doubt = new Float64Array(joint.none.length)
  for (let node = 0; node < label.length; node++) {
    if (Number.isNaN(joint.none[node])) {
      label[node] = -2
      doubt[node] = NaN
      continue
    }
    let best = -1
    let most = joint.none[node]
    joint.classes.forEach((probability, k) => {
      if (probability[node] > most || (best === -1 && probability[node] === most)) {
        most = probability[node]
        best = k
      }
    })
    label[node] = best
    doubt[node] = 1 - most
  }
  return { label, doubt }
}
