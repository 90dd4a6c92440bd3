/**
 * A scan as a mixture of few references: their shapes, which add up as ln reflectance does,
 * under non-negativity (Lawson and Hanson 1974). A mixture is grown one mineral at a time from
 * each of the best single matches, its members are exchanged, and the one with the best worth
 * is taken: how near the modelled shape comes to the scan's, less a price for each mineral.
 */
import { isCommon } from './groups'
import type { Match, ScanShape } from './match'
import type { PreparedSet } from './prepare'
import { Trials, type Trial } from './trials'

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
/** The misfit below which no further mineral is sought. */
const SETTLED = 0.004
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
  const trials = new Trials(scan, set, matches)
  let best: Trial | null = null
  for (const seed of seedsOf(ranked)) {
    const grown = new Search(trials, matches, ranked, seed).grow()
    if (!best || grown.worth > best.worth + SEED_MARGIN) best = grown
  }
  if (!best) return { parts: [], score: 0 }
  const { shares } = best
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

/** The search that starts from one match. */
class Search {
  /** That match alone. */
  private readonly alone: Trial
  private readonly best: Match | undefined

  constructor(
    private readonly trials: Trials,
    private readonly matches: readonly Match[],
    private readonly ranked: readonly Match[],
    private readonly seed: number,
  ) {
    this.alone = trials.of([seed])
    this.best = ranked.find(({ reference }) => !reference.silent)
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
      const other = this.bestAddition(this.trials.of(rest))
      if (other && other.worth > current.worth) current = other
    }
    return current
  }

  /** The addition of another group that is worth most. */
  private bestAddition(current: Trial): Trial | null {
    let best: Trial | null = null
    for (const candidate of this.trials.promising(current)) {
      const trial = this.trials.of([...current.chosen, candidate])
      // Most that is not sensible is told by its shares, before its shape is modelled.
      if (this.isSensible(trial) && (!best || trial.worth > best.worth)) best = trial
    }
    return best
  }

  /** Whether every part has a share worth naming, and no rare mineral a large one. */
  private isSensible(trial: Trial): boolean {
    const { chosen, shares } = trial
    const largest = shares.indexOf(Math.max(...shares))
    const isHeld = (share: number, k: number): boolean => {
      if (chosen[k] === this.seed || isCommon(this.matches[chosen[k]].reference.group)) return true
      return share <= MOST_RARE && k !== largest
    }
    return (
      shares.every((share, k) => share >= LEAST_SHARE && isHeld(share, k)) &&
      this.leads(this.matches[chosen[largest]].reference.group, trial)
    )
  }

  /** Whether a group alone is like enough to the scan to be a mixture's main one. */
  private leads(group: string, trial: Trial): boolean {
    const own = this.ranked.find(({ reference }) => reference.group === group)
    if (!own || !this.best || own.isOverruled) return false
    if (own.score >= this.best.score - MAIN_BELOW) return true
    return 1 - trial.score < OVERRULED * (1 - this.alone.score)
  }
}
