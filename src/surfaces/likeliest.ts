/**
 * Classes that exclude each other, mapped together: chances that sum to 1, the likeliest class and
 * how doubtful it is.
 *
 * Everywhere an outcome is a number: 0 is "none of these", 1 and up are the classes.
 */
import type { Testing } from './model'

export const NONE_OF_THESE = 'none of these'

/**
 * Kriged indicators made consistent, as is customary for categories (Deutsch and Journel 1998,
 * §IV.1): each is brought to 0…1 and all are divided by their sum. Where none is above 0 the
 * outcome is "none of these".
 *
 * @param kriged one array an outcome, of equal lengths; the first may be null where every station
 *   is of a class, and stays at 0. A node is NaN in all where it is in any
 */
export function consistentChances(
  kriged: readonly [Float64Array | null, ...Float64Array[]],
): Float64Array[] {
  const count = kriged[1]?.length ?? 0
  const chances = kriged.map((each) =>
    each ? each.map((value) => Math.min(1, Math.max(0, value))) : new Float64Array(count),
  )
  for (let node = 0; node < count; node++) {
    let sum = 0
    for (const chance of chances) sum += chance[node]
    if (sum === 0) chances[0][node] = 1
    else for (const chance of chances) chance[node] /= sum
  }
  return chances
}

/** One entry a node in each; NaN where nothing is known. */
export interface Likeliest {
  /** Number of the likeliest outcome. */
  readonly code: Float64Array
  /** Its chance. */
  readonly probability: Float64Array
  /** Number of the second likeliest; NaN also where there is one outcome alone. */
  readonly second: Float64Array
  /**
   * 1 minus its lead over the second: 0 where it is certain, 1 where another is as likely. So a
   * boundary is 1 however many classes there are, which 1 minus the chance, or entropy, is not.
   */
  readonly doubt: Float64Array
}

/** The likeliest outcome at every node; of equal ones the class that stands first, "none" last. */
export function likeliestOf(chances: readonly Float64Array[]): Likeliest {
  const count = chances[0].length
  const [code, probability, second, doubt] = [0, 0, 0, 0].map(() =>
    new Float64Array(count).fill(NaN),
  )
  for (let node = 0; node < count; node++) {
    if (Number.isNaN(chances[0][node])) continue
    let [best, next] = [-1, -1]
    for (let k = 1; k <= chances.length; k++) {
      const outcome = k % chances.length
      const chance = chances[outcome][node]
      if (best < 0 || chance > chances[best][node]) [best, next] = [outcome, best]
      else if (next < 0 || chance > chances[next][node]) next = outcome
    }
    code[node] = best
    probability[node] = chances[best][node]
    if (next >= 0) second[node] = next
    doubt[node] = 1 - probability[node] + (next < 0 ? 0 : chances[next][node])
  }
  return { code, probability, second, doubt }
}

/** What leaving stations out says of the likeliest class. */
export interface LikeliestTesting {
  /** Part of the stations whose likeliest outcome is theirs. */
  readonly right: number
  /** Part of the stations that are of the commonest outcome: what always saying it would give. */
  readonly commonest: number
  /** The stations whose doubt is within a limit: their number, and the part of them that is right. */
  readonly sure: { readonly count: number; readonly right: number } | null
  /** Number of that outcome. */
  readonly commonestOutcome: number
  /**
   * As one figure beside other surfaces': RMSE is the root of half the mean of Brier's score
   * (1950, Mon. Weather Rev. 78, 1), 0 for certain and right, 1 for certain and wrong; that of
   * the mean is for telling the stations' proportions everywhere.
   */
  readonly testing: Testing
}

/**
 * Compares chances at stations with what they are.
 *
 * @param observed an array an outcome: each station's indicators, which sum to 1
 * @param predicted their chances with the station left out; NaN where there is none, which is not
 *   counted
 * @param doubtAtMost the limit of `sure`; null for none
 * @returns null where fewer than 3 have a prediction
 */
export function testLikeliest(
  observed: readonly Float64Array[],
  predicted: readonly Float64Array[],
  doubtAtMost: number | null = null,
): LikeliestTesting | null {
  const known = Array.from(predicted[0], (_, i) => i).filter((i) => !Number.isNaN(predicted[0][i]))
  if (known.length < 3) return null
  const { code: told, doubt } = likeliestOf(predicted)
  const truth = likeliestOf(observed).code
  const shares = observed.map((each) => known.reduce((sum, i) => sum + each[i], 0) / known.length)
  const counts = observed.map((_, k) => known.filter((i) => truth[i] === k).length)
  const commonestOutcome = counts.indexOf(Math.max(...counts))
  let right = 0
  let brier = 0
  let ofShares = 0
  for (const i of known) {
    if (told[i] === truth[i]) right++
    observed.forEach((each, k) => {
      brier += (predicted[k][i] - each[i]) ** 2
      ofShares += (shares[k] - each[i]) ** 2
    })
  }
  const count = known.length
  const within = doubtAtMost === null ? [] : known.filter((i) => doubt[i] <= doubtAtMost)
  const rightWithin = within.filter((i) => told[i] === truth[i]).length
  return {
    right: right / count,
    commonest: counts[commonestOutcome] / count,
    sure: within.length === 0 ? null : { count: within.length, right: rightWithin / within.length },
    commonestOutcome,
    testing: {
      count,
      meanError: 0,
      rmse: Math.sqrt(brier / count / 2),
      meanSquaredStandardised: null,
      meanRmse: Math.sqrt(ofShares / count / 2),
      coverage90: null,
    },
  }
}

/** A plain sentence on how far the likeliest outcome can be believed, the blocked figure first. */
export function likeliestSentence(
  single: LikeliestTesting,
  blocked: LikeliestTesting | null,
  commonestName: string,
  outcome: 'class' | 'group' = 'class',
): string {
  const percent = (part: number) => `${Math.round(100 * part)} %`
  const first = blocked ?? single
  const how = blocked
    ? `Away from stations (whole blocks left out) the likeliest ${outcome} is right at ${percent(blocked.right)} of them, beside them at ${percent(single.right)}`
    : `With each station left out the likeliest ${outcome} is right at ${percent(single.right)} of them`
  const against = `always saying ‘${commonestName}’ would be right at ${percent(first.commonest)}`
  const verdict =
    first.right - first.commonest < 0.02
      ? ': no better than that, so trust the stations and not the surface.'
      : '.'
  const { sure } = first
  const within = sure
    ? ` Where its doubt was within the limit it was right at ${percent(sure.right)} of ${sure.count} stations.`
    : ''
  return `${how}; ${against}${verdict}${within}`
}
