/**
 * Variogram models and their covariances.
 *
 * `range` is where a spherical model reaches its sill and where the others reach 95 % of it:
 * the exponential is 1 − exp(−3h/range), the gaussian 1 − exp(−3(h/range)²) (both are
 * 95.02 % there, the customary 3 and √3), and the Matérn's scale is solved so that it is 95 %.
 */
import { gamma, scaledBesselK } from './bessel'
import type { Structure, Variogram } from './model'

export const MODELS = ['spherical', 'exponential', 'gaussian', 'matern'] as const

/** Matérn's ν where none is given. */
export const DEFAULT_SMOOTHNESS = 1.5

/**
 * The Matérn correlation 2^(1−ν)/Γ(ν) · x^ν K_ν(x) (Matérn 1960; Stein 1999).
 *
 * @param smoothness ν, 0.1 to 10; 0.5, 1.5 and 2.5 by their closed forms
 * @param x distance over scale, ≥ 0
 */
export function maternCorrelation(smoothness: number, x: number): number {
  if (x <= 0) return 1
  if (smoothness === 0.5) return Math.exp(-x)
  if (smoothness === 1.5) return (1 + x) * Math.exp(-x)
  if (smoothness === 2.5) return (1 + x + (x * x) / 3) * Math.exp(-x)
  if (x > 700) return 0
  const scale = 2 ** (1 - smoothness) / gamma(smoothness)
  return Math.min(1, scale * x ** smoothness * scaledBesselK(smoothness, x) * Math.exp(-x))
}

const maternReaches = new Map<number, number>()

/** The argument at which the Matérn correlation has fallen to 0.05, by bisection. */
export function maternReach(smoothness: number): number {
  const known = maternReaches.get(smoothness)
  if (known !== undefined) return known
  let low = 0
  let high = 64
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2
    if (maternCorrelation(smoothness, middle) > 0.05) low = middle
    else high = middle
  }
  maternReaches.set(smoothness, high)
  return high
}

/** Correlation of one structure at the distance h ≥ 0 along its major direction. */
export function correlation(structure: Structure, h: number): number {
  const s = h / structure.range
  switch (structure.model) {
    case 'spherical':
      return s >= 1 ? 0 : 1 - s * (1.5 - 0.5 * s * s)
    case 'exponential':
      return Math.exp(-3 * s)
    case 'gaussian':
      return Math.exp(-3 * s * s)
    case 'matern': {
      const smoothness = structure.smoothness ?? DEFAULT_SMOOTHNESS
      return maternCorrelation(smoothness, s * maternReach(smoothness))
    }
  }
}

/** Nugget plus partial sills: the variance that the model stands for. */
export function totalSill(variogram: Variogram): number {
  return variogram.structures.reduce((sum, structure) => sum + structure.sill, variogram.nugget)
}

/**
 * Covariance of two values a step apart, the nugget included only where the step is nothing.
 *
 * @param dx east, working units
 * @param dy north, working units
 */
export function covariance(variogram: Variogram, dx: number, dy: number): number {
  const plane = planeOf(variogram)
  const h = Math.hypot(plane.uu * dx + plane.uv * dy, plane.vu * dx + plane.vv * dy)
  if (h === 0) return totalSill(variogram)
  return variogram.structures.reduce(
    (sum, structure) => sum + structure.sill * correlation(structure, h),
    0,
  )
}

/** The variogram γ at a step: half the expected squared difference; 0 where the step is nothing. */
export function gammaAt(variogram: Variogram, dx: number, dy: number): number {
  return totalSill(variogram) - covariance(variogram, dx, dy)
}

/** A linear map of steps into a plane where the variogram is isotropic. */
export interface IsotropicPlane {
  /** Along the major direction: u = uu·dx + uv·dy. */
  readonly uu: number
  readonly uv: number
  /** Across it, stretched by 1/ratio: v = vu·dx + vv·dy. */
  readonly vu: number
  readonly vv: number
}

/** The plane in which a variogram's geometric anisotropy is undone (Isaaks and Srivastava 1989, ch. 16). */
export function planeOf(variogram: Variogram): IsotropicPlane {
  const ratio = variogram.ratio ?? 1
  if (ratio === 1) return { uu: 1, uv: 0, vu: 0, vv: 1 }
  const azimuth = ((variogram.azimuth ?? 0) * Math.PI) / 180
  const sin = Math.sin(azimuth)
  const cos = Math.cos(azimuth)
  return { uu: sin, uv: cos, vu: cos / ratio, vv: -sin / ratio }
}

/**
 * Refuses a variogram that is none.
 *
 * @throws Error with what is wrong and what to do
 */
export function checkVariogram(variogram: Variogram): void {
  const { nugget, structures, ratio, azimuth } = variogram
  if (!(nugget >= 0) || nugget === Infinity)
    throw new Error(`A variogram's nugget must be 0 or more; it is ${nugget}.`)
  for (const { model, sill, range, smoothness } of structures) {
    if (!MODELS.includes(model))
      throw new Error(`No variogram model is called "${model}"; use one of ${MODELS.join(', ')}.`)
    if (!(sill >= 0) || sill === Infinity)
      throw new Error(`The ${model} structure's sill must be 0 or more; it is ${sill}.`)
    if (!(range > 0) || range === Infinity)
      throw new Error(`The ${model} structure's range must be above 0; it is ${range}.`)
    if (smoothness !== undefined && !(smoothness >= 0.1 && smoothness <= 10))
      throw new Error(`A Matérn smoothness must lie between 0.1 and 10; it is ${smoothness}.`)
  }
  if (!(totalSill(variogram) > 0))
    throw new Error('A variogram needs a nugget or a sill above 0; this one has neither.')
  if (ratio !== undefined && !(ratio > 0 && ratio <= 1))
    throw new Error(
      `A variogram's ratio (minor over major) must be above 0 and at most 1: ${ratio}.`,
    )
  if (azimuth !== undefined && !Number.isFinite(azimuth))
    throw new Error(`A variogram's azimuth must be a number of degrees; it is ${azimuth}.`)
}
