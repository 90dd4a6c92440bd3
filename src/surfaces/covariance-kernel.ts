/** Covariances of many steps at once, for the inner loops. */
import type { Structure, Variogram } from './model'
import { DEFAULT_SMOOTHNESS, maternCorrelation, maternReach, totalSill } from './variogram-models'

/** Turns squared distances of the isotropic plane into covariances. */
export interface CovarianceKernel {
  /** Covariance at no distance, nugget included. */
  readonly sill: number
  /**
   * Covariances of `count` squared distances; the nugget is added only where one is exactly 0.
   * `squared` and `out` must not be the same array.
   */
  readonly fill: (squared: Float64Array, out: Float64Array, count: number) => void
}

type Adder = (squared: Float64Array, out: Float64Array, count: number) => void

/** The kernel of a variogram. Distances must come from its isotropic plane. */
export function kernelOf(variogram: Variogram): CovarianceKernel {
  const sill = totalSill(variogram)
  const structures = variogram.structures.filter((s) => s.sill > 0)
  if (structures.length === 1 && structures[0].model === 'spherical')
    return { sill, fill: sphericalFill(sill, structures[0].sill, structures[0].range) }
  const adders = structures.map(adderOf)
  return {
    sill,
    fill(squared, out, count) {
      out.fill(0, 0, count)
      for (const add of adders) add(squared, out, count)
      for (let i = 0; i < count; i++) if (squared[i] === 0) out[i] = sill
    },
  }
}

/** The commonest model in one pass. */
function sphericalFill(total: number, sill: number, range: number): Adder {
  const limit = range * range
  const linear = (1.5 * sill) / range
  const cubic = (0.5 * sill) / (range * limit)
  return (squared, out, count) => {
    for (let i = 0; i < count; i++) {
      const h2 = squared[i]
      if (h2 >= limit) out[i] = 0
      else out[i] = h2 === 0 ? total : sill - Math.sqrt(h2) * (linear - cubic * h2)
    }
  }
}

function adderOf(structure: Structure): Adder {
  switch (structure.model) {
    case 'spherical':
      return sphericalAdder(structure.sill, structure.range)
    case 'exponential':
      return exponentialAdder(structure.sill, structure.range)
    case 'gaussian':
      return gaussianAdder(structure.sill, structure.range)
    case 'matern':
      return maternAdder(structure)
  }
}

function sphericalAdder(sill: number, range: number): Adder {
  const limit = range * range
  const linear = (1.5 * sill) / range
  const cubic = (0.5 * sill) / (range * limit)
  return (squared, out, count) => {
    for (let i = 0; i < count; i++) {
      const h2 = squared[i]
      if (h2 < limit) out[i] += sill - Math.sqrt(h2) * (linear - cubic * h2)
    }
  }
}

function exponentialAdder(sill: number, range: number): Adder {
  const rate = -3 / range
  return (squared, out, count) => {
    for (let i = 0; i < count; i++) out[i] += sill * Math.exp(rate * Math.sqrt(squared[i]))
  }
}

function gaussianAdder(sill: number, range: number): Adder {
  const rate = -3 / (range * range)
  return (squared, out, count) => {
    for (let i = 0; i < count; i++) out[i] += sill * Math.exp(rate * squared[i])
  }
}

function maternAdder(structure: Structure): Adder {
  const smoothness = structure.smoothness ?? DEFAULT_SMOOTHNESS
  const rate = maternReach(smoothness) / structure.range
  const { sill } = structure
  return (squared, out, count) => {
    for (let i = 0; i < count; i++)
      out[i] += sill * maternCorrelation(smoothness, rate * Math.sqrt(squared[i]))
  }
}
