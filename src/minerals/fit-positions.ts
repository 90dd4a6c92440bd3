/**
 * The last stage of a fit: bands are moved a little so that the minima of diagnostic absorptions
 * lie where the record's lie, as the program measures them.
 *
 * A position answers to the channels about the minimum and to the hull's corners
 * (`throughHull`); with the model's gradient by its parameters that makes one more row of the
 * least-squares system for each absorption, whose weight grows from round to round. Where the
 * model is lowest in another place than the record, a second row asks for the record's
 * difference in level between the two.
 */
import { measureFeature, type WavelengthRange } from '../spectra/feature'
import { removeContinuum, type ContinuumRemoved } from '../spectra/hull'
import { refineMinimum } from '../spectra/minimum'
import { throughHull } from '../spectra/propagation'
import { channelRange, type Spectrum } from '../spectra/spectrum'
import { evaluate, improve, rootMeanSquare, type BandData, type Target } from './band-system'

/** A diagnostic absorption of a record, to be kept where it is. */
export interface KeptMinimum {
  /** nm; search and hull alike. */
  readonly hull: WavelengthRange
  /** nm, as measured on the record. */
  readonly position: number
}

/** Rounds with growing weight, and the weight of 1 nm in the first beside the other residuals. */
const ROUNDS = 14
const FIRST_WEIGHT = 1e-3
const GROWTH = 1.8
/** Weight of a level against that of a position, nm a unit of continuum-removed reflectance. */
const LEVEL_WEIGHT = 3000
/** A position is asked to move no further at once, nm. */
const FURTHEST = 4
/** Good enough, nm. */
const SETTLED = 0.1
/** A minimum as near as this may be lowest in another channel than the record's, nm. */
const NEAR = 0.3
/** Positions within this stand for all that is nearer when fits are compared, nm. */
const WITHIN = 0.8

/**
 * The parameters with the minima moved to where the record has them.
 *
 * @param allowed largest root-mean-square error in reflectance that positions may cost
 * @returns the best of the rounds; the same parameters where none is better
 */
export function settlePositions(
  data: BandData,
  start: Float64Array,
  minima: readonly KeptMinimum[],
  allowed: number,
): Float64Array {
  let best = start
  let least = worthOf(data, start, minima, allowed)
  let parameters = start
  let weight = FIRST_WEIGHT
  for (let round = 0; round < ROUNDS && least > SETTLED * minima.length; round++) {
    const model = evaluate(data, parameters)
    const targets = minima.flatMap((minimum) => targetsOf(data, model, minimum, weight))
    parameters = improve({ ...data, targets }, parameters, 6)
    const worth = worthOf(data, parameters, minima, allowed)
    if (worth < least) {
      best = parameters
      least = worth
    }
    weight *= GROWTH
  }
  return best
}

/** How far off a fit is: what lies beyond 0.8 nm counts most, an error that is not allowed more. */
function worthOf(
  data: BandData,
  parameters: Float64Array,
  minima: readonly KeptMinimum[],
  allowed: number,
): number {
  const model = evaluate(data, parameters)
  const offs = minima.map((minimum) => Math.abs(offsetOf(data, model, minimum)))
  const beyond = offs.filter((off) => off > WITHIN).length
  const sum = offs.reduce((total, off) => total + Math.min(off, 50), 0)
  const error = rootMeanSquare(data, model)
  return sum + 100 * beyond + (error > allowed ? 1e5 * error : 0)
}

function offsetOf(data: BandData, model: Float64Array, { hull, position }: KeptMinimum): number {
  const found = measureFeature({ wavelengths: data.wavelengths, reflectance: model }, hull)
  return 'missing' in found ? Infinity : found.position - position
}

/** The rows that one minimum adds to the system, worked out about the present model. */
function targetsOf(
  data: BandData,
  model: Float64Array,
  { hull, position }: KeptMinimum,
  weight: number,
): Target[] {
  const { wavelengths, reflectance } = data
  const part = removed({ wavelengths, reflectance: model }, hull)
  const own = removed({ wavelengths, reflectance }, hull)
  if (part === null || own === null) return []
  const [start] = channelRange(wavelengths, ...hull)
  const target = (gradient: Float64Array, change: number, by: number): Target => {
    const throughAll = throughHull(part, gradient)
    let value = change
    for (let i = 0; i < throughAll.length; i++) value += throughAll[i] * model[start + i]
    return { start, gradient: throughAll, value, weight: by }
  }
  const targets: Target[] = []
  const there = lowestOf(own.removed)
  const minimum = refineMinimum(part.wavelengths, part.removed, there, false)
  if (minimum !== null) {
    const gradient = new Float64Array(part.removed.length)
    gradient.set(minimum.positionGradient(), minimum.positionStart)
    const change = Math.min(FURTHEST, Math.max(-FURTHEST, position - minimum.position))
    targets.push(target(gradient, change, weight))
  }
  const here = lowestOf(part.removed)
  const off = offsetOf(data, model, { hull, position })
  if (here !== there && Math.abs(off) > NEAR) {
    const gradient = new Float64Array(part.removed.length)
    gradient[here] = 1
    gradient[there] = -1
    const asked = own.removed[here] - own.removed[there]
    const change = asked - (part.removed[here] - part.removed[there])
    targets.push(target(gradient, change, LEVEL_WEIGHT * weight))
  }
  return targets
}

function removed(spectrum: Spectrum, hull: WavelengthRange): ContinuumRemoved | null {
  return removeContinuum(spectrum, ...hull)
}

/** The lowest channel that has neighbours on both sides. */
function lowestOf(values: Float64Array): number {
  let lowest = 1
  for (let i = 2; i < values.length - 1; i++) if (values[i] < values[lowest]) lowest = i
  return lowest
}
