/** Steps where one detector ends and the next begins: looked for, not assumed. */
import { estimateNoise } from '../spectra/noise'
import { takeOff } from '../spectra/polynomial'
import { channelRange, type Spectrum } from '../spectra/spectrum'
import { stretchAbout, STRETCHES, type Stretch } from './step-stretches'

/** Where joins are looked for, nm: silicon to the first, and the first to the second infrared array. */
const JOIN_RANGES = [
  [960, 1040],
  [1760, 1860],
] as const

/** Tried on every suspect; all stretches are tried on the surest and on the usual joins. */
const QUICK_STRETCHES = [1, 4]
const ALL_STRETCHES = [...STRETCHES.keys()]
/** A step makes this part of its size within them; the flank of an absorption does not. */
const SUDDEN_PART = 0.6

/**
 * The last wavelength of one detector where field instruments usually change to the next, nm
 * (common practice): looked into even where noise hides the change.
 */
const USUAL_JOINS = [1000, 1800, 1830] as const
/** How near to a usual join that is, nm. */
const AT_JOIN = 3
/**
 * How much more a change at a usual join counts against changes elsewhere, of which noise has
 * many in a range (the part was set on library records).
 */
const USUAL_COUNTS = 1.6
/** Other places in a range that are looked into. */
const SUSPECTS = 5
/** Channels on either side that tell the course of the curve about a suspect. */
const WIDE = 8

/** A step that was found. */
export interface DetectorStep {
  /** Wavelength between the two channels on either side of it, nm. */
  readonly position: number
  /** Reflectance just above over just below, less 1. */
  readonly size: number
  /** One standard error of `size`, from what the fit leaves over. */
  readonly error: number
}

/**
 * The steps near the usual joins, one a range, in order: the most certain sudden change there
 * against the rock's own course on either side, null where the record is too coarse, dark or full of
 * gaps to tell. A size within twice its error is no step; no limit is applied here.
 */
export function measureSteps(spectrum: Spectrum): (DetectorStep | null)[] {
  return JOIN_RANGES.map(([from, to]) => surestStep(spectrum, from, to))
}

function surestStep(spectrum: Spectrum, from: number, to: number): DetectorStep | null {
  const noise = estimateNoise(spectrum, (from + to) / 2) ?? 0
  const usual = usualChannels(spectrum, from, to)
  const others = suspects(spectrum, from, to).filter((channel) => !usual.includes(channel))
  const quick = surestOf(others, (channel) => stepAfter(spectrum, channel, noise, QUICK_STRETCHES))
  const looked = quick === null ? usual : [...usual, quick]
  const channel = surestOf(looked, (at) => stepAfter(spectrum, at, noise, ALL_STRETCHES))
  return channel === null ? null : stepAfter(spectrum, channel, noise, ALL_STRETCHES)
}

/** Of some channels the one after which the step is most certain; the first of equals. */
function surestOf(
  channels: readonly number[],
  stepAt: (channel: number) => DetectorStep | null,
): number | null {
  let surest: number | null = null
  let most = -1
  for (const channel of channels) {
    const step = stepAt(channel)
    if (step === null || certaintyOf(step) <= most) continue
    surest = channel
    most = certaintyOf(step)
  }
  return surest
}

/**
 * Where steps may be, nm, one list a range: where the surest change was found, and the usual joins,
 * each between two channels. Empty where the record is too coarse, dark or full of gaps to tell.
 */
export function stepPlaces(spectrum: Spectrum): number[][] {
  const { wavelengths: x } = spectrum
  return measureSteps(spectrum).map((step, range) => {
    if (step === null) return []
    const [from, to] = JOIN_RANGES[range]
    const usual = usualChannels(spectrum, from, to).filter(
      (channel) => channel >= 0 && channel + 1 < x.length,
    )
    return [...new Set([step.position, ...usual.map((i) => (x[i] + x[i + 1]) / 2)])]
  })
}

/** Whether a step lies where field instruments usually change detectors. */
export function isAtUsualJoin({ position }: { readonly position: number }): boolean {
  return USUAL_JOINS.some((join) => Math.abs(position - join) <= AT_JOIN)
}

/** Size over error, more at a usual join: what tells which change in a range is the step. */
function certaintyOf(step: DetectorStep): number {
  return (Math.abs(step.size) / step.error) * (isAtUsualJoin(step) ? USUAL_COUNTS : 1)
}

/** The channels after which reflectance changes most against its course. */
function suspects(
  { wavelengths: x, reflectance: y }: Spectrum,
  from: number,
  to: number,
): number[] {
  const [start, end] = channelRange(x, from, to)
  const worst: Suspect[] = []
  for (let i = Math.max(start, WIDE); i < Math.min(end, x.length - WIDE - 1); i++) {
    const course = (y[i + 1 + WIDE] - y[i - WIDE]) / (x[i + 1 + WIDE] - x[i - WIDE])
    const change = Math.abs(y[i + 2] - y[i - 1] - course * (x[i + 2] - x[i - 1]))
    if (!Number.isNaN(change)) keepLargest(worst, change, i)
  }
  return worst.map(({ channel }) => channel)
}

/** The last channels of detectors that end where they usually do. */
function usualChannels({ wavelengths: x }: Spectrum, from: number, to: number): number[] {
  return USUAL_JOINS.filter((nm) => nm >= from && nm <= to).map(
    (nm) => channelRange(x, -Infinity, nm)[1] - 1,
  )
}

interface Suspect {
  readonly change: number
  readonly channel: number
}

/** Puts a change in its place among the surest so far; of equal ones the earlier stands first. */
function keepLargest(worst: Suspect[], change: number, channel: number): void {
  if (worst.length === SUSPECTS && !(change > worst[SUSPECTS - 1].change)) return
  let at = worst.length
  while (at > 0 && change > worst[at - 1].change) at--
  worst.splice(at, 0, { change, channel })
  if (worst.length > SUSPECTS) worst.pop()
}

/** The step between a channel and the next, over the stretch that tells it best. */
function stepAfter(
  spectrum: Spectrum,
  channel: number,
  noise: number,
  stretches: readonly number[],
): DetectorStep | null {
  let best: DetectorStep | null = null
  for (const i of stretches) {
    const stretch = stretchAbout(spectrum.wavelengths, channel, i)
    const step = stretch === null ? null : stepOver(spectrum, stretch, noise)
    if (step !== null && (best === null || step.error < best.error)) best = step
  }
  return best
}

/** What a polynomial leaves of a stretch; kept, so that a scan leaves no garbage behind. */
let rest = new Float64Array(256)

/**
 * The step over one stretch. What the polynomial cannot take of a unit step is what the data are
 * compared with (Frisch and Waugh 1933), so that level, slope and curvature of the rock do not
 * pass for a step.
 */
function stepOver({ reflectance }: Spectrum, stretch: Stretch, noise: number): DetectorStep | null {
  const { start, channel, position, polynomials, unit, weight, noisePart } = stretch
  const count = unit.length
  if (rest.length < count) rest = new Float64Array(2 * count)
  let sum = 0
  for (let i = 0; i < count; i++) sum += rest[i] = reflectance[start + i]
  const level = sum / count
  if (!(level > 0.005)) return null
  for (const polynomial of polynomials) takeOff(rest, polynomial)
  let size = 0
  for (let i = 0; i < count; i++) size += unit[i] * rest[i]
  size /= weight
  let squares = 0
  for (let i = 0; i < count; i++) squares += (rest[i] - size * unit[i]) ** 2
  const scatter = Math.sqrt(squares / (count - polynomials.length - 1))
  const sudden = suddenChange(reflectance, stretch)
  const isSudden = sudden * size > 0 && Math.abs(sudden) > SUDDEN_PART * Math.abs(size)
  const near = (reflectance[channel] + reflectance[channel + 1]) / 2
  // Neighbouring channels are not independent: the plain standard error, doubled.
  const error = (2 * Math.max(scatter, noisePart * noise)) / Math.sqrt(weight) / level
  return { position, size: isSudden ? size / Math.max(near, 0.005) : 0, error }
}

/** The change over a few channels, less the lines through more of them on both sides. */
function suddenChange(
  reflectance: Float32Array | Float64Array,
  { suddenStart, sudden }: Stretch,
): number {
  let change = 0
  for (let i = 0; i < sudden.length; i++) change += sudden[i] * reflectance[suddenStart + i]
  return change
}
