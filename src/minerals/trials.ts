/**
 * Mixtures tried on one scan. The searches that start from different matches meet the same sets of
 * references again and again: each is worked out once.
 */
import { isCommon } from './groups'
import { gramRow } from './gram'
import type { Match, ScanShape } from './match'
import { nonNegativeFromGram } from './nnls'
import { compressedShape, type PreparedSet } from './prepare'
import { dot, sumOf } from './likeness'
import { GRID } from './work-grid'

/** A set of references with its best amounts. */
export class Trial {
  #score: number | null = null

  constructor(
    readonly chosen: readonly number[],
    readonly amounts: Float64Array,
    /** Each part's length in the model over the sum of all lengths. */
    readonly shares: readonly number[],
    private readonly price: number,
    private readonly cosine: (trial: Trial) => number,
  ) {}

  /** Cosine of the compressed shapes of model and scan; worked out when first asked for. */
  get score(): number {
    return (this.#score ??= this.cosine(this))
  }

  /** How near the model comes, less the price of its minerals. */
  get worth(): number {
    return -Math.log(1 - this.score + LEAST_MISFIT) - this.price
  }
}

/**
 * The price of a further mineral: the part of the misfit (1 − score) that it must take away,
 * larger for one that is rare in altered rock, for it needs better evidence.
 */
const PRICE = -Math.log(1 - 0.18)
const PRICE_RARE = -Math.log(1 - 0.45)
/** The misfit that is left to a perfect explanation. */
const LEAST_MISFIT = 0.01
/** References whose shapes have a larger cosine cannot be told apart in a mixture. */
const ALIKE = 0.85
/** References tried exactly at each step, those that promise most. */
const TRIED = 10
/** Of one mineral. */
const TRIED_EACH = 2

/** A modelled shape under way; kept, for some fifty mixtures are tried on a scan. */
const modelled = {
  linear: new Float64Array(GRID.length),
  compressed: new Float64Array(GRID.length),
}

/** All that is tried on one scan. */
export class Trials {
  private readonly tried = new Map<string, Trial>()
  private readonly promises = new Map<Trial, readonly number[]>()

  constructor(
    private readonly scan: ScanShape,
    private readonly set: PreparedSet,
    private readonly matches: readonly Match[],
  ) {}

  /** A set's best amounts and how near its modelled shape comes to the scan's. */
  of(chosen: readonly number[]): Trial {
    const key = chosen.length > 1 ? chosen.toSorted((a, b) => a - b).join() : String(chosen[0])
    let trial = this.tried.get(key)
    if (!trial) {
      trial = this.fitted(chosen)
      this.tried.set(key, trial)
    }
    return trial
  }

  /** The references that would explain most of what a trial leaves, by least squares. */
  promising(trial: Trial): readonly number[] {
    let found = this.promises.get(trial)
    if (!found) {
      found = this.firstOf(this.gainsBeside(trial))
      this.promises.set(trial, found)
    }
    return found
  }

  private fitted(chosen: readonly number[]): Trial {
    const n = chosen.length
    const gram = new Float64Array(n * n)
    const products = new Float64Array(n)
    let price = 0
    for (let r = 0; r < n; r++) {
      const row = this.gramRow(chosen[r])
      for (let c = 0; c < n; c++) gram[r * n + c] = row[chosen[c]]
      const { product, reference } = this.matches[chosen[r]]
      products[r] = product
      price += isCommon(reference.group) ? PRICE : PRICE_RARE
    }
    const amounts = nonNegativeFromGram(gram, products)
    return new Trial(chosen, amounts, sharesOf(amounts, gram), price, this.cosineOf)
  }

  private readonly cosineOf = (trial: Trial): number =>
    compressedCosine(this.scan, this.modelOf(trial))

  /** The shapes of a set, each times its amount; overwritten by the next. */
  private modelOf({ chosen, amounts }: Trial): Float64Array {
    const model = modelled.linear.fill(0)
    for (let k = 0; k < chosen.length; k++) {
      const amount = amounts[k]
      if (amount === 0) continue
      const { linear } = this.set.references[chosen[k]].shapeAt(this.scan.scale)
      for (let i = 0; i < model.length; i++) model[i] += amount * linear[i]
    }
    return model
  }

  /** What each reference that may join would take away of the misfit; 0 for the others. */
  private gainsBeside({ chosen, amounts }: Trial): Float64Array {
    const rows = chosen.map((i) => this.gramRow(i))
    const limits = chosen.map((i, k) => ALIKE * Math.sqrt(rows[k][i]))
    const groups = chosen.map((i) => this.matches[i].reference.group)
    const gains = new Float64Array(this.matches.length)
    for (let j = 0; j < gains.length; j++) {
      const { reference, product, energy } = this.matches[j]
      let left = product
      for (let k = 0; k < rows.length; k++) left -= amounts[k] * rows[k][j]
      if (!(left > 0) || reference.silent || groups.includes(reference.group)) continue
      if (!isAlike(rows, limits, j, Math.sqrt(energy))) gains[j] = (left * left) / (energy + 1e-12)
    }
    return gains
  }

  /** Those with the largest gains, the largest first, few of each mineral; `gains` are used up. */
  private firstOf(gains: Float64Array): number[] {
    const taken = new Map<string, number>()
    const first: number[] = []
    const able = indicesAbove(gains, 0)
    while (first.length < TRIED) {
      let index = -1
      let most = 0
      for (let i = 0; i < able.length; i++) {
        if (!(gains[able[i]] > most)) continue
        index = able[i]
        most = gains[index]
      }
      if (index < 0) break
      gains[index] = 0
      const { mineral } = this.matches[index].reference
      const count = taken.get(mineral) ?? 0
      if (count >= TRIED_EACH) continue
      taken.set(mineral, count + 1)
      first.push(index)
    }
    return first
  }

  /** Products of one reference's shape with all others'. */
  private gramRow(index: number): Float64Array {
    return gramRow(this.set, this.scan, index)
  }
}

/** Whether a reference, by its place and its shape's length, is too like one of some to join them. */
function isAlike(
  rows: readonly Float64Array[],
  limits: readonly number[],
  index: number,
  length: number,
): boolean {
  for (let k = 0; k < rows.length; k++) if (rows[k][index] > limits[k] * length) return true
  return false
}

/** Where values are larger than a limit. */
function indicesAbove(values: Float64Array, limit: number): Int32Array {
  const indices = new Int32Array(values.length)
  let count = 0
  for (let i = 0; i < values.length; i++) if (values[i] > limit) indices[count++] = i
  return indices.subarray(0, count)
}

/** Lengths are the roots of the diagonal of the shapes' products, times the amounts. */
function sharesOf(amounts: Float64Array, gram: Float64Array): number[] {
  const n = amounts.length
  const lengths: number[] = []
  let total = 0
  for (let k = 0; k < n; k++) {
    lengths.push(amounts[k] * Math.sqrt(gram[k * n + k]))
    total += lengths[k]
  }
  return lengths.map((length, k) => (total > 0 ? length / total : k === 0 ? 1 : 0))
}

/** Cosine between the scan's and a model's compressed shapes. */
export function compressedCosine(scan: ScanShape, model: Float64Array): number {
  const shape = compressedShape(model, modelled.compressed)
  const energy = sumOf(scan.compressedEnergy.parts) * dot(shape, shape)
  return dot(scan.compressed, shape) / Math.sqrt(energy + 1e-20)
}
