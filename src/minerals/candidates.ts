/**
 * Candidates for a scan side by side: in each diagnostic range the scan and each candidate's
 * reference over their own continua, the reference scaled and offset by least squares as in
 * `feature-fit.ts` (Clark et al. 1990, J. Geophys. Res. 95, 12653), on the scan's own channels.
 */
import { upperHull } from '../spectra/hull'
import { channelRange, type Spectrum } from '../spectra/spectrum'

/** A hull range, nm. */
export type DiagnosticRange = readonly [from: number, to: number]

/** A mineral that a scan may hold. */
export interface Candidate {
  readonly mineral: string
  /** Where its own diagnostic absorptions lie; none where it is silent. */
  readonly ranges: readonly DiagnosticRange[]
  /** The reference at the scan's wavelengths, fractions; NaN where it is not known. */
  readonly reflectance: Float64Array
}

/** Where a candidate's scaled reference and the scan lie farthest apart. */
export interface Difference {
  /** nm */
  readonly at: number
  /** Scan less reference, continuum-removed, mean over the window; negative: the scan is deeper. */
  readonly by: number
}

/** One candidate in one range. */
export interface CandidateFit {
  /** The hull range that it is compared over, nm. */
  readonly range: DiagnosticRange
  /** Whether the range is one of the candidate's own diagnostic ones. */
  readonly own: boolean
  /** nm; the channels at which both have a value. */
  readonly wavelengths: Float64Array
  /** Continuum-removed reflectance of the scan. */
  readonly scan: Float64Array
  /** The reference's, scaled and offset to the scan's; as it is where `fit` is 0. */
  readonly reference: Float64Array
  /** Squared correlation, 0 to 1; 0 where `against` says why there is none. */
  readonly fit: number
  /** Amount of the reference's absorption that comes nearest to the scan's; 0 where none does. */
  readonly scale: number
  readonly most: Difference
  /** Why nothing fits: the scan has no absorption here, or goes the other way; null where it fits. */
  readonly against: 'no absorption' | 'opposite' | null
}

/** A range in which candidates are compared. */
export interface ComparedRange {
  /** nm; holds every candidate's own range here. */
  readonly from: number
  readonly to: number
  /** One a candidate, in their order; null where scan or reference has too few channels here. */
  readonly fits: readonly (CandidateFit | null)[]
}

/** Ranges are one where they share this part of what they cover together. */
const SHARED = 0.4
/** A difference is a mean over this width, nm, so that one noisy channel does not decide. */
const WINDOW = 12
/** A scan shallower than this has no absorption in a range, whatever its noise. */
const SHALLOWEST = 0.004
/** Nor one that is shallower than this many times its noise. */
const OVER_NOISE = 2
/** Fewer channels than this tell no shape. */
const LEAST_CHANNELS = 5

/**
 * Compares candidates over all their diagnostic ranges. A candidate that has no diagnostic
 * absorption in a range is compared there as well: what it lacks speaks too.
 *
 * @param candidates each at the scan's wavelengths, the most likely first
 * @param noise one standard deviation of reflectance a channel; 0 where it is not known
 * @returns by wavelength; ranges in which nothing can be compared are left out
 */
export function compareCandidates(
  scan: Spectrum,
  candidates: readonly Candidate[],
  noise = 0,
): ComparedRange[] {
  return rangesOf(candidates)
    .map(({ from, to, members }) => ({
      from,
      to,
      fits: candidates.map((candidate) => {
        const own = members.find((member) => member.candidate === candidate)
        return fitIn(scan, candidate, own?.range ?? members[0].range, own !== undefined, noise)
      }),
    }))
    .filter(({ fits }) => fits.some((fit) => fit !== null))
}

interface RangeGroup {
  from: number
  to: number
  readonly members: { readonly candidate: Candidate; readonly range: DiagnosticRange }[]
}

/** Ranges of all candidates, those that are nearly the same put together, by wavelength. */
function rangesOf(candidates: readonly Candidate[]): RangeGroup[] {
  const groups: RangeGroup[] = []
  for (const candidate of candidates) {
    for (const range of candidate.ranges) {
      const same = groups.find(
        ({ members }) =>
          sharedPart(members[0].range, range) >= SHARED &&
          members.every((member) => member.candidate !== candidate),
      )
      if (same) {
        same.members.push({ candidate, range })
        same.from = Math.min(same.from, range[0])
        same.to = Math.max(same.to, range[1])
      } else groups.push({ from: range[0], to: range[1], members: [{ candidate, range }] })
    }
  }
  return groups.sort((a, b) => a.from - b.from || a.to - b.to)
}

/** What two ranges have in common over what they cover together. */
function sharedPart(a: DiagnosticRange, b: DiagnosticRange): number {
  const common = Math.min(a[1], b[1]) - Math.max(a[0], b[0])
  return Math.max(0, common) / (Math.max(a[1], b[1]) - Math.min(a[0], b[0]))
}

function fitIn(
  { wavelengths, reflectance }: Spectrum,
  candidate: Candidate,
  range: DiagnosticRange,
  own: boolean,
  noise: number,
): CandidateFit | null {
  const [start, end] = channelRange(wavelengths, range[0], range[1])
  const channels = Array.from({ length: end - start }, (_, i) => start + i).filter(
    (channel) => reflectance[channel] > 0 && candidate.reflectance[channel] > 0,
  )
  if (channels.length < Math.max(LEAST_CHANNELS, (end - start) / 2)) return null
  const nm = Float64Array.from(channels, (channel) => wavelengths[channel])
  const scan = overHull(nm, channels, reflectance)
  const theirs = overHull(nm, channels, candidate.reflectance)
  const level = channels.reduce((sum, channel) => sum + reflectance[channel], 0) / channels.length
  const flat = depthOf(nm, scan) < Math.max(SHALLOWEST, (OVER_NOISE * noise) / level)
  const { scale, offset, fit } = flat ? UNFITTED : scaledTo(scan, theirs)
  const reference = fit > 0 ? theirs.map((value) => offset + scale * value) : theirs
  const most = differsMost(nm, scan, reference)
  const against = flat ? 'no absorption' : fit > 0 ? null : 'opposite'
  return { range, own, wavelengths: nm, scan, reference, fit, scale, most, against }
}

function overHull(
  nm: Float64Array,
  channels: readonly number[],
  reflectance: ArrayLike<number>,
): Float64Array {
  const values = Float64Array.from(channels, (channel) => reflectance[channel])
  const hull = upperHull(nm, values)
  return values.map((value, i) => value / hull[i])
}

const UNFITTED = { scale: 0, offset: 0, fit: 0 }

/** The least-squares scale and offset of a reference to a scan, and the squared correlation. */
function scaledTo(scan: Float64Array, reference: Float64Array) {
  const n = scan.length
  const meanOf = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0) / n
  const [a, b] = [meanOf(scan), meanOf(reference)]
  let ab = 0
  let aa = 0
  let bb = 0
  for (let i = 0; i < n; i++) {
    ab += (scan[i] - a) * (reference[i] - b)
    aa += (scan[i] - a) ** 2
    bb += (reference[i] - b) ** 2
  }
  if (!(ab > 0)) return UNFITTED
  return { scale: ab / bb, offset: a - (ab / bb) * b, fit: (ab * ab) / (aa * bb) }
}

function differsMost(nm: Float64Array, scan: Float64Array, reference: Float64Array): Difference {
  const apart = windowMeans(
    nm,
    scan.map((value, i) => value - reference[i]),
  )
  let most = 0
  for (let i = 1; i < nm.length; i++) if (Math.abs(apart[i]) > Math.abs(apart[most])) most = i
  return { at: nm[most], by: apart[most] }
}

/** How deep an absorption is, noise averaged out. */
function depthOf(nm: Float64Array, removed: Float64Array): number {
  return 1 - windowMeans(nm, removed).reduce((least, value) => Math.min(least, value), 1)
}

/** Means over a window about each channel. */
function windowMeans(nm: Float64Array, values: Float64Array): Float64Array {
  return nm.map((at) => {
    const [start, end] = channelRange(nm, at - WINDOW / 2, at + WINDOW / 2)
    let sum = 0
    for (let k = start; k < end; k++) sum += values[k]
    return sum / (end - start)
  })
}
