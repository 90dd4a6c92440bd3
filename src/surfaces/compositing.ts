/**
 * Compositing: samples along a hole joined to lengths that are alike, so that a long interval
 * counts for no less than several short ones (common practice before anything is mapped).
 */

/** A sample's place along a hole; depths in one unit. */
export interface HoleInterval {
  /** Samples of different keys are never joined. */
  readonly key: string
  readonly from: number
  /** Equal to `from` for a sample at one depth. */
  readonly to: number
}

/** A composite: which samples, and how much each counts. */
export interface Composite {
  readonly members: readonly number[]
  /** One a member; they sum to 1. */
  readonly weights: readonly number[]
}

/** Of a composite's length that intervals have to cover; common practice, from memory. */
export const LEAST_COVER = 0.5

/** More parts of samples than all holes of a district give, cut by the metre. */
const MOST_BINS = 2e6

/** Depths that differ by less than this part of a composite are the same. */
const TOLERANCE = 1e-9

/**
 * Composites of a fixed length, counted from depth 0, so that a longer log moves none.
 *
 * Within a composite an interval weighs as much as it covers. Samples at one depth have no length:
 * they count, equally, only in a composite that no interval touches. A composite that intervals
 * cover by less than half is left out. Samples that lie on the ground (null) stay as they are.
 *
 * @returns in the order in which their first sample stands, and how many were left out
 * @throws Error where the length is not above 0, or so short that there would be millions of parts
 */
export function composites(
  samples: readonly (HoleInterval | null)[],
  length: number,
): { composites: Composite[]; leftOut: number } {
  if (!(length > 0) || !Number.isFinite(length))
    throw new Error(`A composite must be longer than 0; it is ${length}.`)
  const count = samples.reduce((sum, sample) => sum + (sample ? binsOf(sample, length) : 1), 0)
  if (!(count <= MOST_BINS))
    throw new Error(
      `Composites of ${length} would cut the samples into more than ${MOST_BINS / 1e6} million ` +
        'parts; choose longer ones, or look for a depth that is wrong.',
    )
  const bins = new Map<string, { member: number; cover: number }[]>()
  samples.forEach((sample, member) => {
    const parts = sample ? partsOf(sample, length) : [[`${member}`, 1] as const]
    for (const [bin, cover] of parts) {
      const key = sample ? `${sample.key}\n${bin}` : `\n${bin}`
      const known = bins.get(key)
      if (known) known.push({ member, cover })
      else bins.set(key, [{ member, cover }])
    }
  })
  const found: Composite[] = []
  let leftOut = 0
  for (const parts of bins.values()) {
    const covered = parts.reduce((sum, { cover }) => sum + cover, 0)
    if (covered > 0 && covered < LEAST_COVER - TOLERANCE) {
      leftOut++
      continue
    }
    const counting = covered > 0 ? parts.filter(({ cover }) => cover > 0) : parts
    found.push({
      members: counting.map(({ member }) => member),
      weights: counting.map(({ cover }) => (covered > 0 ? cover / covered : 1 / counting.length)),
    })
  }
  return { composites: found, leftOut }
}

/** About how many bins a sample lies in. */
function binsOf({ from, to }: HoleInterval, length: number): number {
  return 1 + Math.max(0, to - from) / length
}

/** The bins that a sample lies in, and which part of each it covers. */
function partsOf({ from, to }: HoleInterval, length: number): [bin: number, cover: number][] {
  const [top, bottom] = [from / length, to / length]
  const first = Math.floor(top + TOLERANCE)
  if (!(bottom - top > TOLERANCE)) return [[first, 0]]
  const parts: [number, number][] = []
  for (let bin = first; bin < bottom - TOLERANCE; bin++)
    parts.push([bin, Math.min(bin + 1, bottom) - Math.max(bin, top)])
  return parts
}

/** The mean of a composite's members. */
export function compositeMean({ members, weights }: Composite, values: ArrayLike<number>): number {
  return members.reduce((sum, member, i) => sum + weights[i] * values[member], 0)
}

/** One standard error of that mean, members' errors being independent; NaN where one has none. */
export function compositeError({ members, weights }: Composite, errors: ArrayLike<number>): number {
  return Math.sqrt(members.reduce((sum, member, i) => sum + (weights[i] * errors[member]) ** 2, 0))
}
