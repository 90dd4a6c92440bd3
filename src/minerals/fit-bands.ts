/**
 * Fits a measured spectrum by Gaussian absorption bands on a logarithmic continuum: bands are
 * added where they explain most of what is left (matching pursuit), and all parameters are
 * improved together by Levenberg–Marquardt after each addition.
 */
import { upperHull } from '../spectra/hull'
import type { Spectrum } from '../spectra/spectrum'
import { channelAt, cost, evaluate, improve, type BandData } from './band-system'
import { FOUR_LN_2, modelReflectance, splineBasis } from './model'
import { settlePositions, type KeptMinimum } from './fit-positions'
import type { Band, Reference } from './reference'

/** How a record is fitted. */
export interface FitOptions {
  /** Hull ranges whose shape matters most, nm. */
  readonly diagnostic?: readonly (readonly [from: number, to: number])[]
  /** Diagnostic minima, whose positions matter most. */
  readonly minima?: readonly KeptMinimum[]
  /** Root-mean-square error, reflectance, up to which positions may be bought; 0.0038 unless told. */
  readonly allowedError?: number
  /** How far the extra weights go, 0 (all channels alike) to 1; 1 unless told. */
  readonly emphasis?: number
  /** Most bands; 40 unless told. */
  readonly maxBands?: number
  /** Fitted range, nm; 350–2500 unless told. */
  readonly range?: readonly [from: number, to: number]
}

/** A fitted table and how well it reproduces the record. */
export interface BandFit {
  readonly continuum: Reference['continuum']
  readonly bands: readonly Band[]
  /** Root-mean-square error over all fitted channels, reflectance. */
  readonly fitError: number
  readonly range: readonly [from: number, to: number]
}

/** Knots stand closer in the visible, where iron's charge transfer bends the continuum. */
const KNOTS = [350, 480, 650, 900, 1250, 1650, 2080, 2500]
/** Widths tried for a new band, nm. */
const TRIAL_WIDTHS = [12, 18, 27, 40, 60, 90, 140, 220, 350]
/** A band that absorbs less than this anywhere is dropped. */
const FAINTEST = 2e-4
/** Fitting stops when the weighted error falls below this part of the spectrum's level. */
const ENOUGH = 6e-4
/** How much more a channel counts in a diagnostic range, and about the lowest point in one. */
const DIAGNOSTIC_WEIGHT = 5
const FOCUS_WEIGHT = 25
/** Half the stretch about a minimum that settles its position, nm. */
const FOCUS = 22
/** Root-mean-square error up to which a position may be bought elsewhere, reflectance. */
export const ALLOWED_ERROR = 0.0038

/**
 * Fits a band table to a measured spectrum. Gaps are skipped.
 *
 * @throws when fewer than 30 channels with positive reflectance lie in the range
 */
export function fitBands(spectrum: Spectrum, options: FitOptions = {}): BandFit {
  const [from, to] = options.range ?? [350, 2500]
  const full = bandData(spectrum, from, to, options, 1)
  const coarse = bandData(spectrum, from, to, options, 2)
  const knots = knotPositions(full.wavelengths)
  let parameters = startContinuum(coarse, knots)
  const most = knots.length + 3 * (options.maxBands ?? 40)
  while (parameters.length < most && cost(coarse, evaluate(coarse, parameters)) > ENOUGH ** 2) {
    const grown = addBands(coarse, parameters, Math.min(3, (most - parameters.length) / 3))
    if (grown.length === parameters.length) break
    parameters = improve(coarse, grown, 6, 1e-3)
    if (parameters.length >= most) parameters = withoutFaint(parameters, knots.length)
  }
  parameters = improve(full, withoutFaint(parameters, knots.length), 40)
  if (options.minima) {
    const allowed = options.allowedError ?? ALLOWED_ERROR
    parameters = settlePositions(full, parameters, options.minima, allowed)
  }
  return rounded(full, knots, parameters, [from, to])
}

/** Usable channels with weights; of long records only each `stride`-th outside diagnostic ranges. */
function bandData(
  spectrum: Spectrum,
  from: number,
  to: number,
  options: FitOptions,
  stride: number,
): BandData {
  const usable: number[] = []
  const { wavelengths: nm, reflectance } = spectrum
  for (let i = 0; i < nm.length; i++)
    if (nm[i] >= from - 0.5 && nm[i] <= to + 0.5 && reflectance[i] > 1e-4) usable.push(i)
  if (usable.length < 30)
    throw new Error(
      `Only ${usable.length} channels with positive reflectance between ${from} and ${to} nm; at least 30 are needed to fit bands.`,
    )
  const thin = usable.length > 1000 ? stride : 1
  const kept = usable.filter((i) => i % thin === 0)
  const wavelengths = Float64Array.from(kept, (i) => nm[i])
  const values = Float64Array.from(kept, (i) => reflectance[i])
  let level = 0
  for (const value of values) level += value / values.length
  // Half absolute, half relative: a dark absorption keeps its shape, a bright shoulder its level.
  const weights = Float64Array.from(
    values,
    (value, i) => (weightAt(wavelengths[i], options) * 2) / (value + level),
  )
  const norm = Math.sqrt(values.length)
  for (let i = 0; i < weights.length; i++) weights[i] /= norm
  const narrowest = Float64Array.from(wavelengths, (at, i) => {
    const after = wavelengths[Math.min(i + 1, wavelengths.length - 1)]
    const before = wavelengths[Math.max(i - 1, 0)]
    return Math.max(at < 1000 ? 6 : 9, Math.min(after - before, 24))
  })
  const basis = splineBasis(knotPositions(wavelengths), wavelengths)
  return { wavelengths, reflectance: values, weights, basis, narrowest, widest: 900 }
}

/** How much a channel counts. */
function weightAt(nm: number, { diagnostic = [], minima = [], emphasis = 1 }: FitOptions): number {
  const isFocus = minima.some(({ position }) => Math.abs(nm - position) <= FOCUS)
  const isWithin = diagnostic.some(([from, to]) => nm >= from && nm <= to)
  const most = isFocus ? FOCUS_WEIGHT : isWithin ? DIAGNOSTIC_WEIGHT : 1
  return most ** emphasis
}

/** The knots that lie among the channels, the outer ones moved to the first and last channel. */
function knotPositions(wavelengths: Float64Array): Float64Array {
  const first = Math.round(wavelengths[0])
  const last = Math.round(wavelengths[wavelengths.length - 1])
  const inner = KNOTS.filter((nm) => nm > first + 60 && nm < last - 100)
  return Float64Array.from([first, ...inner, last])
}

/** Knot values on the upper hull of reflectance. */
function startContinuum(data: BandData, knots: Float64Array): Float64Array {
  const hull = upperHull(data.wavelengths, data.reflectance)
  return Float64Array.from(knots, (nm) => Math.log(hull[channelAt(data.wavelengths, nm)]))
}

interface Candidate {
  readonly position: number
  readonly width: number
  readonly strength: number
  readonly gain: number
}

/** The parameters with up to `count` more bands where most is left unexplained. */
function addBands(data: BandData, parameters: Float64Array, count: number): Float64Array {
  const model = evaluate(data, parameters)
  const left = Float64Array.from(model, (value, i) => Math.log(value / data.reflectance[i]))
  const weight = Float64Array.from(model, (value, i) => (value * data.weights[i]) ** 2)
  const candidates = trialBands(data, left, weight).sort((a, b) => b.gain - a.gain)
  const taken: Candidate[] = []
  for (const candidate of candidates) {
    if (taken.length === count) break
    const apart = taken.every(
      (other) =>
        Math.abs(other.position - candidate.position) > 1.2 * (other.width + candidate.width),
    )
    if (apart) taken.push(candidate)
  }
  const grown = new Float64Array(parameters.length + 3 * taken.length)
  grown.set(parameters)
  taken.forEach(({ position, width, strength }, k) => {
    grown.set([position, Math.log(width), Math.log(strength)], parameters.length + 3 * k)
  })
  return grown
}

/** Every trial band that would absorb something of what is left, with its gain. */
function trialBands(data: BandData, left: Float64Array, weight: Float64Array): Candidate[] {
  const { wavelengths, narrowest } = data
  const candidates: Candidate[] = []
  for (const width of TRIAL_WIDTHS) {
    const stride = width / 4
    let next = wavelengths[0]
    for (let i = 0; i < wavelengths.length; i++) {
      const position = wavelengths[i]
      if (position < next || width < narrowest[i]) continue
      next = position + stride
      let dot = 0
      let norm = 0
      const end = channelAt(wavelengths, position + width)
      for (let c = channelAt(wavelengths, position - width); c <= end; c++) {
        const t = (wavelengths[c] - position) / width
        const g = Math.exp(-FOUR_LN_2 * t * t)
        dot += g * left[c] * weight[c]
        norm += g * g * weight[c]
      }
      const strength = dot / norm
      if (norm > 0 && strength > FAINTEST)
        candidates.push({ position, width, strength, gain: strength * dot })
    }
  }
  return candidates
}

/** The parameters without bands too faint to matter. */
function withoutFaint(parameters: Float64Array, knots: number): Float64Array {
  const kept = Array.from(parameters.subarray(0, knots))
  for (let b = knots; b < parameters.length; b += 3)
    if (parameters[b + 2] > Math.log(FAINTEST)) kept.push(...parameters.subarray(b, b + 3))
  return Float64Array.from(kept)
}

/** The table as it is kept, rounded, with the error that the rounded table has. */
function rounded(
  data: BandData,
  knots: Float64Array,
  parameters: Float64Array,
  range: readonly [number, number],
): BandFit {
  const continuum = Array.from(knots, (nm, k) => [nm, round(parameters[k], 5)] as const)
  const bands: Band[] = []
  for (let b = knots.length; b < parameters.length; b += 3) {
    bands.push({
      position: round(parameters[b], 2),
      width: round(Math.exp(parameters[b + 1]), 2),
      strength: round(Math.exp(parameters[b + 2]), 5),
    })
  }
  bands.sort((a, b) => a.position - b.position)
  const model = modelReflectance({ continuum, bands }, data.wavelengths)
  let sum = 0
  for (let i = 0; i < model.length; i++) sum += (model[i] - data.reflectance[i]) ** 2
  const fitError = round(Math.sqrt(sum / model.length), 6)
  return {
    continuum,
    bands,
    fitError,
    range: [
      Math.max(range[0], Math.round(data.wavelengths[0])),
      Math.min(range[1], Math.round(data.wavelengths[data.wavelengths.length - 1])),
    ],
  }
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits))
}
