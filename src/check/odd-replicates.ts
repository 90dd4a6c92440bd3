/**
 * Of several scans of one station and target, the one that is unlike the others: it is pointed
 * out, for it may be the vein, and never dropped.
 */
import type { CheckLimits } from './limits'
import type { Reason } from './verdict'

/** A scan that counts for a station, with what it was taken for. */
export interface StationScan {
  /** Scans are compared within one set only: a station, a target and an axis. */
  readonly set: string
  /** Values at channels spread over the record (`Likeness.sketch`); gaps are NaN. */
  readonly sketch: readonly number[]
  /** One standard deviation of reflectance noise; null where it cannot be told. */
  readonly noise: number | null
  /** The groups named in it, the largest share first; empty for nothing diagnostic. */
  readonly groups: readonly string[]
}

/** The reason that marks an odd scan. */
export const ODD_REPLICATE = 'unlike its replicates'

/** Fewer scans than this cannot say which of them is the odd one. */
const LEAST_SCANS = 3
/** Departures in shape below this, of reflectance, are how rock differs from spot to spot. */
const LEAST_DEPARTURE = 0.03
/** A departure is also this many times what noise gives. */
const OVER_NOISE = 4

/**
 * For each scan the reason why it is the odd one of its set, or null. A scan is odd where the
 * others agree on a mineral group that it does not hold, or where its shape departs from their
 * mean by many times what each of them departs from the rest. Brightness plays no part.
 *
 * @param scans null for one that counts for no station
 */
export function oddReasons(
  scans: readonly (StationScan | null)[],
  limits: CheckLimits,
): (Reason | null)[] {
  const sets = new Map<string, number[]>()
  scans.forEach((scan, i) => {
    if (scan === null) return
    const known = sets.get(scan.set)
    if (known) known.push(i)
    else sets.set(scan.set, [i])
  })
  const reasons = scans.map((): Reason | null => null)
  for (const members of sets.values()) {
    if (members.length < LEAST_SCANS) continue
    const own = members.flatMap((i) => scans[i] ?? [])
    oddOf(own, limits).forEach((reason, k) => (reasons[members[k]] = reason))
  }
  return reasons
}

function oddOf(scans: readonly StationScan[], limits: CheckLimits): (Reason | null)[] {
  const shapes = scans.map(({ sketch }) => shapeOf(sketch))
  const sums = sumsOf(shapes)
  const spreads = scans.map((scan, i) => spreadBeside(scan, shapes, sums, i))
  const isOddShape = spreads.map(({ times }) => times >= limits.oddReplicate)
  // Where two or more stand out, no one scan is the odd one.
  const onlyShape = isOddShape.filter(Boolean).length === 1
  return scans.map((_, i) => {
    const mineral = otherMineral(scans, i)
    if (mineral !== null) return mineralReason(mineral, scans.length - 1)
    return onlyShape && isOddShape[i] ? shapeReason(spreads[i], scans.length - 1, limits) : null
  })
}

interface Departure {
  /** Root-mean-square departure from the others' mean shape. */
  readonly departure: number
  /** The same over how far the others depart from one another. */
  readonly times: number
}

function spreadBeside(
  scan: StationScan,
  shapes: readonly (readonly number[])[],
  sums: Sums,
  i: number,
): Departure {
  const departure = distance(shapes[i], meanWithout(sums, [shapes[i]]))
  const level = meanLevel(scan.sketch)
  const least = Math.max(LEAST_DEPARTURE, (OVER_NOISE * (scan.noise ?? 0)) / level)
  if (!(departure > least)) return { departure, times: 0 }
  let usual = 1e-6
  shapes.forEach((shape, k) => {
    if (k === i) return
    usual = Math.max(usual, distance(shape, meanWithout(sums, [shapes[i], shape])))
  })
  return { departure, times: departure / usual }
}

/** What the others agree on and the scan lacks, and what it has instead; null where it fits. */
function otherMineral(
  scans: readonly StationScan[],
  i: number,
): { readonly own: string; readonly theirs: string } | null {
  const others = scans.filter((_, k) => k !== i)
  const [theirs] = others[0].groups
  const [own] = scans[i].groups
  if (theirs === undefined || own === undefined) return null
  const isAgreed = others.every(({ groups }) => groups[0] === theirs)
  const isShared = scans[i].groups.includes(theirs) || others.some((o) => o.groups.includes(own))
  return isAgreed && !isShared ? { own, theirs } : null
}

const WHAT_TO_DO =
  'it may be the vein, a coating or another spot: look at it, say what the probe touched, or overrule it. It still counts.'

function mineralReason(
  { own, theirs }: { readonly own: string; readonly theirs: string },
  others: number,
): Reason {
  const words = `Holds ${own} where the ${others} other scans of this station and target hold ${theirs}: ${WHAT_TO_DO}`
  return {
    reason: ODD_REPLICATE,
    measure: others,
    limit: LEAST_SCANS - 1,
    unit: 'scans that agree',
    words,
  }
}

function shapeReason({ departure, times }: Departure, others: number, limits: CheckLimits): Reason {
  const words = `Differs in shape by ${(100 * departure).toFixed(0)} % from the ${others} other scans of this station and target, ${times.toFixed(0)} times as much as they do among themselves: ${WHAT_TO_DO}`
  return {
    reason: ODD_REPLICATE,
    measure: times,
    limit: limits.oddReplicate,
    unit: 'times their spread',
    words,
  }
}

/** ln reflectance less its mean, so that brightness drops out. */
function shapeOf(sketch: readonly number[]): number[] {
  const logs = sketch.map((value) => (value > 0 ? Math.log(value) : NaN))
  const known = logs.filter((value) => !Number.isNaN(value))
  const mean = known.reduce((sum, value) => sum + value, 0) / known.length
  return logs.map((value) => value - mean)
}

/** All shapes of a set added up, so that a mean without some of them need not add again. */
interface Sums {
  readonly count: number
  /** By channel: the sum of the known values, and how many are gaps. */
  readonly known: readonly number[]
  readonly gaps: readonly number[]
}

function sumsOf(shapes: readonly (readonly number[])[]): Sums {
  const known = shapes[0].map(() => 0)
  const gaps = shapes[0].map(() => 0)
  for (const shape of shapes)
    shape.forEach((value, c) => {
      if (Number.isNaN(value)) gaps[c]++
      else known[c] += value
    })
  return { count: shapes.length, known, gaps }
}

/** The mean of all but some shapes; a gap where one of those that count has one. */
function meanWithout(
  { count, known, gaps }: Sums,
  without: readonly (readonly number[])[],
): number[] {
  return known.map((sum, c) => {
    let rest = sum
    let missing = gaps[c]
    for (const shape of without)
      if (Number.isNaN(shape[c])) missing--
      else rest -= shape[c]
    return missing > 0 ? NaN : rest / (count - without.length)
  })
}

/** Root-mean-square difference over the channels that both have. */
function distance(a: readonly number[], b: readonly number[]): number {
  let sum = 0
  let count = 0
  for (let c = 0; c < a.length; c++) {
    const difference = a[c] - b[c]
    if (Number.isNaN(difference)) continue
    sum += difference * difference
    count++
  }
  return count === 0 ? 0 : Math.sqrt(sum / count)
}

function meanLevel(sketch: readonly number[]): number {
  const known = sketch.filter((value) => value > 0)
  return known.length === 0 ? 1 : known.reduce((sum, value) => sum + value, 0) / known.length
}
