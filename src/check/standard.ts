/** The wavelength scale, judged on a known standard that was scanned that day. */
import { measureFeature, type WavelengthRange } from '../spectra/feature'
import { estimateNoise } from '../spectra/noise'
import { cropTo, resample } from '../spectra/resample'
import { channelRange, type Spectrum } from '../spectra/spectrum'
import type { CheckLimits } from './limits'
import type { Reason } from './verdict'

/** A standard with sharp absorptions, such as a doped plastic, mica or kaolinite. */
export interface Standard {
  readonly name: string
  /** A record of it on a scale that is trusted. */
  readonly record: Spectrum
  /** Stretches with a sharp absorption, shoulders included, nm. */
  readonly bands: readonly WavelengthRange[]
}

/** How far a scan of a standard lies off it. */
export interface WavelengthShift {
  /** nm; positive where the scan reads too long. */
  readonly shift: number
  /** One standard error, nm, from noise and from how the bands disagree. */
  readonly error: number
  /** Bands that were compared. */
  readonly bands: number
}

/** Shifts that are looked for, nm either way, and in which steps. */
const FURTHEST = 6
const STEP = 0.25
/** No band's shift is known better than this, nm (common practice). */
const LEAST_ERROR = 0.05
/** Channels of field instruments count as this many fewer; see docs/methods/spectra.md. */
const CORRELATED = 2.5

/**
 * The shift of a scan of the standard. Over each band the scan is fitted by a line and the
 * shifted record (least squares), so that brightness and slope play no part; the shift that
 * leaves least over counts, and bands are weighed by their errors.
 *
 * @returns null where no band has values on both records, or none is an absorption
 */
export function measureShift(spectrum: Spectrum, standard: Standard): WavelengthShift | null {
  return together(
    standard.bands.flatMap((band) => shiftOver(spectrum, standard.record, band) ?? []),
  )
}

/** How far about a stated position its minimum is sought, and its shoulders, nm. */
const SOUGHT = 10
const SHOULDERS = 30

/**
 * The shift of a scan of a standard whose absorptions are only known by position: each is
 * measured on the hull of the 30 nm on either side of where it should be.
 *
 * @param positions nm, on a scale that is trusted
 * @returns null where none of them is found within 10 nm
 */
export function measureShiftOfPositions(
  spectrum: Spectrum,
  positions: readonly number[],
): WavelengthShift | null {
  return together(
    positions.flatMap((at) => {
      const noise = estimateNoise(spectrum, at) ?? 0
      const feature = measureFeature(
        spectrum,
        [at - SOUGHT, at + SOUGHT],
        [at - SHOULDERS, at + SHOULDERS],
        noise,
      )
      if ('missing' in feature) return []
      const error = Math.max(LEAST_ERROR, feature.positionError ?? 0)
      return [{ shift: feature.position - at, error }]
    }),
  )
}

/** The shifts of bands as one, weighed by their errors. */
function together(
  bands: readonly { readonly shift: number; readonly error: number }[],
): WavelengthShift | null {
  if (bands.length === 0) return null
  const found = bands.map(({ shift, error }) => ({ shift, weight: 1 / error ** 2 }))
  const weights = found.reduce((sum, { weight }) => sum + weight, 0)
  const shift = found.reduce((sum, band) => sum + band.weight * band.shift, 0) / weights
  const scatter = found.reduce((sum, band) => sum + band.weight * (band.shift - shift) ** 2, 0)
  const disagreement = found.length > 1 ? scatter / (found.length - 1) : 1
  return { shift, error: Math.sqrt(Math.max(1, disagreement) / weights), bands: found.length }
}

/** The reason that a shift gives, if it lies beyond the limit by more than twice its error. */
export function shiftReason(
  { shift, error, bands }: WavelengthShift,
  standard: Pick<Standard, 'name'>,
  limits: CheckLimits,
): Reason | null {
  if (Math.abs(shift) - 2 * error < limits.wavelengthShift) return null
  const words = `${standard.name} reads ${shift.toFixed(2)} ± ${error.toFixed(2)} nm off over ${bands} bands: positions of this day carry that shift; have the wavelengths calibrated, and compare positions within the day only.`
  return {
    reason: 'wavelength shift',
    measure: shift,
    limit: limits.wavelengthShift,
    unit: 'nm',
    words,
  }
}

function shiftOver(
  spectrum: Spectrum,
  record: Spectrum,
  [from, to]: WavelengthRange,
): { shift: number; error: number } | null {
  const scan = cropTo(spectrum, from, to)
  const steps = Math.round(FURTHEST / STEP)
  const rests = Array.from({ length: 2 * steps + 1 }, (_, i) =>
    restAfter(scan, record, (i - steps) * STEP),
  )
  let best = -1
  rests.forEach((rest, i) => {
    if (rest !== null && (best < 0 || rest < (rests[best] ?? Infinity))) best = i
  })
  const [before, least, after] = [-1, 0, 1].map((side) => rests[best + side] ?? NaN)
  const curvature = before - 2 * least + after
  if (!(curvature > 0)) return null
  const shift = (best - steps + (0.5 * (before - after)) / curvature) * STEP
  // Least squares: the variance of the shift is 2 σ² over the second derivative of the rest.
  const noise = estimateNoise(spectrum, (from + to) / 2) ?? 0
  const fromNoise = noise * STEP * Math.sqrt((2 * CORRELATED) / curvature)
  return { shift, error: Math.max(LEAST_ERROR, fromNoise) }
}

/** Sum of squares that a line and the shifted record leave of the scan; null without either. */
function restAfter(scan: Spectrum, record: Spectrum, shift: number): number | null {
  const x = scan.wavelengths
  const near = channelRange(record.wavelengths, x[0] - 2 * FURTHEST, x[x.length - 1] + 2 * FURTHEST)
  const { reflectance: model } = resample(
    {
      wavelengths: record.wavelengths.slice(...near).map((nm) => nm + shift),
      reflectance: record.reflectance.slice(...near),
    },
    x,
  )
  const used = Array.from(x.keys()).filter(
    (i) => !Number.isNaN(model[i]) && !Number.isNaN(scan.reflectance[i]),
  )
  if (used.length < 8 || used.length < 0.9 * x.length) return null
  const at = used.map((i) => x[i])
  const target = withoutLine(
    at,
    used.map((i) => scan.reflectance[i]),
  )
  const shape = withoutLine(
    at,
    used.map((i) => model[i]),
  )
  const own = dot(shape, shape)
  const scale = dot(shape, target) / own
  // An upside-down match is none.
  if (!(scale > 0)) return null
  return dot(target, target) - scale * scale * own
}

/** What the least-squares line leaves of a curve. */
function withoutLine(x: readonly number[], y: readonly number[]): number[] {
  const meanX = x.reduce((sum, value) => sum + value, 0) / x.length
  const meanY = y.reduce((sum, value) => sum + value, 0) / y.length
  const dx = x.map((value) => value - meanX)
  const slope = dot(dx, y) / dot(dx, dx)
  return y.map((value, i) => value - meanY - slope * dx[i])
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + value * b[i], 0)
}
