/**
 * An absorption feature: position, depth, width, area and asymmetry, each with its error.
 *
 * Depth after Clark and Roush 1984 (J. Geophys. Res. 89, 6329); the rest general practice.
 */
import { removeContinuum, type ContinuumRemoved } from './hull'
import { CUBIC_REACH, refineMinimum, type Minimum } from './minimum'
import { standardError, throughHull } from './propagation'
import { halfDepthWidth, lobeAreas, lobeGradients, type Lobes, type Width } from './shape'
import { channelRange, type Spectrum } from './spectrum'

/** Why a feature could not be measured. */
export type FeatureMissing = 'minimum at edge' | 'gap in channels' | 'no mathematical answer'

/** A range of wavelengths, both ends included, nm. */
export type WavelengthRange = readonly [from: number, to: number]

/** A measured absorption. Errors are one standard error, null where the noise is not known. */
export interface Feature {
  /** Where continuum-removed reflectance is lowest, nm. */
  readonly position: number
  readonly positionError: number | null
  /** 1 - R / continuum at the position. */
  readonly depth: number
  readonly depthError: number | null
  /** Full width at half depth, nm. */
  readonly width: number
  readonly widthError: number | null
  /** Area between the curve and 1 over the whole hull range, nm. */
  readonly area: number
  readonly areaError: number | null
  /** Area right of the position over area left of it. */
  readonly asymmetry: number
  readonly asymmetryError: number | null
  /** How the position was refined. */
  readonly method: 'cubic' | 'parabola'
}

/** A feature, or the reason why there is none. `'missing' in result` tells them apart. */
export type FeatureResult = Feature | { readonly missing: FeatureMissing }

/** A stretch without a value longer than this may hide a minimum or a shoulder, nm. */
const LONGEST_GAP = 12

/**
 * How far noise is correlated along a record's channels, nm: records on 1 nm channels are
 * interpolated from detector elements about 2 nm apart behind optics of 3–10 nm.
 * With it 25 channels of 1 nm count as ten measurements. See docs/methods/spectra.md.
 */
export const NOISE_LENGTH = 2.5

/**
 * Measures the absorption that is deepest inside `search`, on the continuum over `hull`.
 *
 * @param search where the minimum may lie, nm
 * @param hull where the continuum is taken; its ends are the feature's shoulders, nm
 * @param noise one standard deviation of reflectance noise (fraction), or null for no errors
 * @param noiseLength how far noise is correlated along the wavelengths, nm; 0 for independent
 *   channels
 * @returns `minimum at edge` where the curve falls on beyond `search`;
 *   `gap in channels` where over 12 nm of either range is missing (and over one channel's
 *   spacing); `no mathematical answer` where nothing is absorbed or the hull is not positive
 */
export function measureFeature(
  spectrum: Spectrum,
  search: WavelengthRange,
  hull: WavelengthRange = search,
  noise: number | null = null,
  noiseLength = NOISE_LENGTH,
): FeatureResult {
  if (hasGap(spectrum, hull[0], hull[1])) return { missing: 'gap in channels' }
  const part = removeContinuum(spectrum, hull[0], hull[1])
  if (part === null) return { missing: 'no mathematical answer' }
  const lowest = lowestChannel(part, search)
  if (typeof lowest !== 'number') return lowest
  const minimum = refineMinimum(part.wavelengths, part.removed, lowest, noise !== null)
  if (minimum === null) return { missing: 'no mathematical answer' }
  if (minimum.position < search[0] || minimum.position > search[1]) {
    return { missing: 'minimum at edge' }
  }
  const width = halfDepthWidth(part, minimum)
  const lobes = lobeAreas(part, minimum.position)
  if (width === null || !(lobes.left > 0)) return { missing: 'no mathematical answer' }
  return describe(part, minimum, width, lobes, noise, noiseLength)
}

/** The lowest channel of the search range, or why there is none to use. */
function lowestChannel(
  part: ContinuumRemoved,
  search: WavelengthRange,
): number | { missing: FeatureMissing } {
  const [start, end] = channelRange(part.wavelengths, search[0], search[1])
  if (end - start < 3) return { missing: 'gap in channels' }
  let lowest = start
  for (let i = start + 1; i < end; i++) if (part.removed[i] < part.removed[lowest]) lowest = i
  if (!(part.removed[lowest] < 1)) return { missing: 'no mathematical answer' }
  if (lowest === 0 || lowest === part.removed.length - 1) return { missing: 'minimum at edge' }
  const outer = Math.min(part.removed[lowest - 1], part.removed[lowest + 1])
  if (outer < part.removed[lowest]) return { missing: 'minimum at edge' }
  return lowest
}

function describe(
  part: ContinuumRemoved,
  minimum: Minimum,
  width: Width,
  lobes: Lobes,
  noise: number | null,
  noiseLength: number,
): Feature {
  const asymmetry = lobes.right / lobes.left
  const errors =
    noise === null ? NO_ERRORS : errorsOf(part, minimum, width, lobes, noise, noiseLength)
  return {
    position: minimum.position,
    depth: 1 - minimum.level,
    width: width.width,
    area: lobes.left + lobes.right,
    asymmetry,
    ...errors,
    method: minimum.method,
  }
}

type Errors = Pick<
  Feature,
  'positionError' | 'depthError' | 'widthError' | 'areaError' | 'asymmetryError'
>

const NO_ERRORS: Errors = {
  positionError: null,
  depthError: null,
  widthError: null,
  areaError: null,
  asymmetryError: null,
}

function errorsOf(
  part: ContinuumRemoved,
  minimum: Minimum,
  width: Width,
  { left, right }: Lobes,
  noise: number,
  noiseLength: number,
): Errors {
  const errorOf = (gradient: Float64Array): number =>
    standardError(part.wavelengths, throughHull(part, gradient), noise, noiseLength)
  const lobes = lobeGradients(part, minimum.position)
  const asymmetry = right / left
  return {
    positionError: positionError(part, minimum, noise, noiseLength),
    depthError: errorOf(
      spread(minimum.levelGradient(), minimum.levelStart, part.wavelengths.length),
    ),
    widthError: errorOf(width.gradient()),
    areaError: errorOf(lobes.left.map((value, i) => value + lobes.right[i])),
    asymmetryError: errorOf(
      lobes.left.map((value, i) => (lobes.right[i] - asymmetry * value) / left),
    ),
  }
}

/**
 * The noise that goes through the fit, and the noise that moves the fit's window: any channel
 * that stands less than two standard deviations over the floor may be the lowest, all about as
 * likely, and even without noise it is up to half a channel off. What noise adds to the
 * window's pull itself is taken off again.
 */
function positionError(
  part: ContinuumRemoved,
  { position, positionGradient, positionStart, curvature, windowPull }: Minimum,
  noise: number,
  noiseLength: number,
): number {
  const size = part.wavelengths.length
  const errorOf = (gradient: Float64Array, start: number): number =>
    standardError(
      part.wavelengths,
      throughHull(part, spread(gradient, start, size)),
      noise,
      noiseLength,
    )
  const fit = errorOf(positionGradient(), positionStart)
  if (windowPull === null) return fit
  const at = part.wavelengths.findIndex((nm) => nm >= position)
  const reach = Math.min(CUBIC_REACH, Math.sqrt((4 * noise) / (part.hull[at] * curvature)))
  const spacing = part.wavelengths[at] - part.wavelengths[at - 1]
  const windowError = Math.hypot(reach / Math.sqrt(3), spacing / Math.sqrt(12))
  const pullNoise = errorOf(windowPull.gradient, windowPull.start)
  const pull = Math.sqrt(Math.max(0, windowPull.pull ** 2 - pullNoise ** 2))
  return Math.hypot(fit, pull * windowError)
}

/** A short gradient set into one over all channels. */
function spread(gradient: Float64Array, start: number, size: number): Float64Array {
  const out = new Float64Array(size)
  out.set(gradient, start)
  return out
}

/** Whether a stretch of the range long enough to hide a minimum or a shoulder has no value. */
function hasGap({ wavelengths, reflectance }: Spectrum, from: number, to: number): boolean {
  const [start, end] = channelRange(wavelengths, from, to)
  if (end - start < 3) return true
  const longest = Math.max(
    LONGEST_GAP,
    (2 * (wavelengths[end - 1] - wavelengths[start])) / (end - start - 1),
  )
  let last = from
  for (let channel = start; channel < end; channel++) {
    if (Number.isNaN(reflectance[channel])) continue
    if (wavelengths[channel] - last > longest) return true
    last = wavelengths[channel]
  }
  return to - last > longest
}
