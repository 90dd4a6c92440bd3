/**
 * A scan as a mixture of few references: their shapes, which add up as ln reflectance does,
 * under non-negativity (Lawson and Hanson 1974). A mixture is grown one mineral at a time from
 * each of the best single matches, its members are exchanged, and the one with the best worth
 * is taken: how near the modelled shape comes to the scan's, less a price for each mineral.
 */
import { isCommon } from './groups'
import { gramRow } from './gram'
import { dot, sumOf } from './likeness'
import type { Match, ScanShape } from './match'
import { nonNegativeFromGram } from './nnls'
import { compressedShape, type PreparedSet } from './prepare'
import { GRID } from './work-grid'

/** One reference's part in a mixture. */
export interface Part {
  readonly match: Match
  /** The part of the explained absorption that it brings, 0 to 1. */
  readonly share: number
}

/** A scan explained. */
export interface Mixture {
  /** The largest share first. */
  readonly parts: readonly Part[]
  /** Cosine of the compressed shapes of model and scan. */
  readonly score: number
}

/** Most minerals that one scan is taken for. */
const MOST = 4
/**
 * The price of a further mineral: the part of the misfit (1 − score) that it must take away,
 * larger for one that is rare in altered rock, for it needs better evidence.
 */
const PRICE = -Math.log(1 - 0.18)
const PRICE_RARE = -Math.log(1 - 0.45)
/** The misfit that is left to a perfect explanation, and below which none is sought. */
const LEAST_MISFIT = 0.01
const SETTLED = 0.004
/** References whose shapes have a larger cosine cannot be told apart in a mixture. */
const ALIKE = 0.85
/** A smaller share is left out. */
const LEAST_SHARE = 0.06
/** The group with the largest share must match the scan alone no worse than the best by this, */
const MAIN_BELOW = 0.15
/** A rare mineral beside others may not take a larger share, nor the largest. */
const MOST_RARE = 0.4
/**
 * unless the mixture leaves less than this part of what the match alone leaves; silence is
 * overruled by a mixture on the same evidence.
 */
export const OVERRULED = 0.2
/** Single matches that a mixture is grown from, and how far below the best they may score. */
const SEEDS = 3
const SEED_BELOW = 0.1
/** What a mixture grown from another match than the best must be worth more. */
const SEED_MARGIN = 0.2
/** References tried exactly at each step, those that promise most. */
const TRIED = 10

/** A modelled shape under way; kept, for some twenty mixtures are tried on a scan. */
const modelled = {
  linear: new Float64Array(GRID.length),
  compressed: new Float64Array(GRID.length),
}

/** A set of references with its best amounts. */
interface Trial {
  readonly chosen: readonly number[]
  readonly amounts: Float64Array
  readonly score: number
  readonly worth: number
}

/**
 * The sparse mixture that explains the scan.
 *
 * @param matches every reference's match, in the set's order
 * @param ranked the best match of each mineral, the best first
 */
export function unmix(
  scan: ScanShape,
  set: PreparedSet,
  matches: readonly Match[],
  ranked: readonly Match[],
): Mixture {
  let best: Trial | null = null
  let shares: readonly number[] = []
  for (const seed of seedsOf(ranked)) {
    const search = new Search(scan, set, matches, ranked, seed)
    const grown = search.grow()
    if (best && grown.worth <= best.worth + SEED_MARGIN) continue
    best = grown
    shares = search.sharesOf(grown)
  }
  if (!best) return { parts: [], score: 0 }
  const parts = best.chosen
    .map((i, k) => ({ match: matches[i], share: shares[k] }))
    .filter(({ share }) => share > 0)
    .sort((a, b) => b.share - a.share)
  return { parts, score: best.score }
}

/** The best reference of each of the best groups. */
function seedsOf(ranked: readonly Match[]): number[] {
  const seeds: number[] = []
  const groups = new Set<string>()
  for (const { reference, score, index } of ranked) {
    if (seeds.length === SEEDS || score < ranked[0].score - SEED_BELOW) break
    if (reference.silent || groups.has(reference.group)) continue
    groups.add(reference.group)
    seeds.push(index)
  }
  return seeds
}

/** The search for one scan, with the products of shapes that it has met. */
class Search {
  private readonly rows = new Map<number, Float64Array>()
  /** The match that the mixture is grown from, alone. */
  readonly alone: Trial

  constructor(
    private readonly scan: ScanShape,
    private readonly set: PreparedSet,
    private readonly matches: readonly Match[],
    private readonly ranked: readonly Match[],
    private readonly seed: number,
  ) {
    this.alone = this.tried([seed])
  }

  /** Adds and exchanges members while the worth grows. */
  grow(): Trial {
    let current = this.alone
    while (current.chosen.length < MOST && 1 - current.score > SETTLED) {
      const next = this.bestAddition(current)
      if (!next || next.worth <= current.worth) break
      current = this.exchanged(next)
    }
    return current
  }

  /** Each member in turn replaced by whatever is worth more. */
  private exchanged(trial: Trial): Trial {
    let current = trial
    for (const member of trial.chosen) {
      const rest = current.chosen.filter((i) => i !== member)
      if (rest.length === current.chosen.length || rest.length === 0) continue
      const other = this.bestAddition(this.tried(rest))
      if (other && other.worth > current.worth) current = other
    }
    return current
  }

  /** The addition of another group that is worth most. */
  private bestAddition(current: Trial): Trial | null {
    let best: Trial | null = null
    for (const candidate of this.promising(current)) {
      const trial = this.tried([...current.chosen, candidate])
      if ((!best || trial.worth > best.worth) && this.sensible(trial)) best = trial
    }
    return best
  }

  /** The references that would explain most of what the trial leaves, by least squares. */
  private promising({ chosen, amounts }: Trial): number[] {
    const rows = chosen.map((i) => this.gramRow(i))
    const groups = new Set(chosen.map((i) => this.matches[i].reference.group))
    const gains: { index: number; gain: number }[] = []
    for (let j = 0; j < this.matches.length; j++) {
      const { reference, product, energy } = this.matches[j]
      if (reference.silent || groups.has(reference.group)) continue
      let left = product
      let alike = false
      for (let k = 0; k < rows.length; k++) {
        left -= amounts[k] * rows[k][j]
        if (rows[k][j] > ALIKE * Math.sqrt(energy * rows[k][chosen[k]])) alike = true
      }
      if (left > 0 && !alike) gains.push({ index: j, gain: (left * left) / (energy + 1e-12) })
    }
    gains.sort((a, b) => b.gain - a.gain)
    const taken = new Map<string, number>()
    const promising: number[] = []
    for (const { index } of gains) {
      const { mineral } = this.matches[index].reference
      const count = taken.get(mineral) ?? 0
      if (count >= 2) continue
      taken.set(mineral, count + 1)
      promising.push(index)
      if (promising.length === TRIED) break
    }
    return promising
  }

  /** A set's best amounts and how near its modelled shape comes to the scan's. */
  private tried(chosen: readonly number[]): Trial {
    const n = chosen.length
    const rows = chosen.map((i) => this.gramRow(i))
    const gram = new Float64Array(n * n)
    for (let r = 0; r < n; r++) for (let c = 0; c < n; c++) gram[r * n + c] = rows[r][chosen[c]]
    const amounts = nonNegativeFromGram(
      gram,
      Float64Array.from(chosen, (i) => this.matches[i].product),
    )
    const model = modelled.linear.fill(0)
    for (let k = 0; k < n; k++) {
      if (amounts[k] === 0) continue
      const linear = this.linearOf(chosen[k])
      for (let i = 0; i < model.length; i++) model[i] += amounts[k] * linear[i]
    }
    const score = compressedCosine(this.scan, model)
    const prices = chosen.map((i) =>
      isCommon(this.matches[i].reference.group) ? PRICE : PRICE_RARE,
    )
    const price = prices.reduce((sum, value) => sum + value, 0)
    return { chosen, amounts, score, worth: -Math.log(1 - score + LEAST_MISFIT) - price }
  }

  /** Whether every part has a share worth naming, and no rare mineral a large one. */
  private sensible(trial: Trial): boolean {
    const shares = this.sharesOf(trial)
    const largest = shares.indexOf(Math.max(...shares))
    if (!this.leads(this.matches[trial.chosen[largest]].reference.group, trial)) return false
    return shares.every((share, k) => {
      const rare = !isCommon(this.matches[trial.chosen[k]].reference.group)
      const held = !rare || trial.chosen[k] === this.seed || (share <= MOST_RARE && k !== largest)
      return share >= LEAST_SHARE && held
    })
  }

  /** Whether a group alone is like enough to the scan to be a mixture's main one. */
  private leads(group: string, { score }: Trial): boolean {
    const best = this.ranked.find(({ reference }) => !reference.silent)
    const own = this.ranked.find(({ reference }) => reference.group === group)
    if (!own || !best || own.isOverruled) return false
    const isEvident = 1 - score < OVERRULED * (1 - this.alone.score)
    return isEvident || own.score >= best.score - MAIN_BELOW
  }

  /** Each part's length in the model over the sum of all lengths. */
  sharesOf({ chosen, amounts }: Trial): number[] {
    const weights = chosen.map((i, k) => amounts[k] * Math.sqrt(this.gramRow(i)[i]))
    const total = weights.reduce((sum, weight) => sum + weight, 0)
    return weights.map((weight, k) => (total > 0 ? weight / total : k === 0 ? 1 : 0))
  }

  private linearOf(index: number): Float64Array {
    return this.set.references[index].shapeAt(this.scan.scale).linear
  }

  /** Products of one reference's shape with all others'. */
  private gramRow(index: number): Float64Array {
    let row = this.rows.get(index)
    if (!row) {
      row = gramRow(this.set, this.scan, index)
      this.rows.set(index, row)
    }
    return row
  }
}

/** Cosine between the scan's and a model's compressed shapes. */
export function compressedCosine(scan: ScanShape, model: Float64Array): number {
  const shape = compressedShape(model, modelled.compressed)
  const energy = sumOf(scan.compressedEnergy) * dot(shape, shape)
  return dot(scan.compressed, shape) / Math.sqrt(energy + 1e-20)
}
