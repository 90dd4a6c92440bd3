/**
 * Bursts: scans that follow one another so closely that they were taken on one spot. Replicates come
 * with short gaps, and with a longer pause before the next spot.
 */
import { spread, type Grouping } from './grouping'

/** A scan of one instrument in the course of its day. */
export interface Shot {
  /** By the instrument's clock. */
  readonly seconds: number
  /** Metres in the plane; null where the scan has no place of its own, and only its time counts. */
  readonly at: { readonly east: number; readonly north: number } | null
  /** One standard error of the place, metres; null where nothing states it. */
  readonly error: number | null
}

/** A run of shots: the first, and the one after the last. */
export interface Burst {
  readonly from: number
  readonly to: number
  /** The largest distance between two of its shots, metres. */
  readonly width: number
}

export interface Bursts {
  /** In order of time; they share no shot, and each has two shots or more. */
  readonly bursts: readonly Burst[]
  /** Shots in a row of four or more that follow each other closely and make no burst: a walk. */
  readonly even: readonly boolean[]
}

/** More scans than this are no replicates but continuous work (common practice: three to ten). */
const MOST = 30
/** A pause is more than this many times as long as the longest gap before it. */
const PAUSE = 2
/** Nobody lifts the probe, goes to another spot and scans there sooner, seconds (common practice). */
const MOVE = 20
/** A row of fewer scans is no walk. */
const LEAST_WALK = 4

/**
 * The bursts among shots in order of time: the largest runs of 2 to 30 shots
 * - in which no gap is longer than `gap_s`;
 * - before and after which the pause is more than twice as long as their longest gap;
 * - that are no wider than fixes on one spot may lie apart (`spread`);
 * - and that are not two bursts of their own, more than `near_m` from each other.
 *
 * Two such runs never overlap unless one holds the other, so there is one answer whatever the order
 * in which they are looked at.
 */
export function findBursts(shots: readonly Shot[], grouping: Grouping): Bursts {
  const bursts: Burst[] = []
  const even = shots.map(() => false)
  const gaps = shots.map((shot, i) => (i === 0 ? Infinity : shot.seconds - shots[i - 1].seconds))
  gaps.push(Infinity)
  let from = 0
  for (let to = 1; to <= shots.length; to++) {
    if (gaps[to] <= grouping.gap_s) continue
    const found = inRow(shots, gaps, from, to, grouping)
    bursts.push(...found)
    if (to - from >= LEAST_WALK) {
      even.fill(true, from, to)
      for (const burst of found) even.fill(false, burst.from, burst.to)
    }
    from = to
  }
  return { bursts, even }
}

/** The bursts of a row without a long gap: it is cut at its longest gaps until its parts are some. */
function inRow(
  shots: readonly Shot[],
  gaps: readonly number[],
  from: number,
  to: number,
  grouping: Grouping,
): Burst[] {
  const found: Burst[] = []
  const waiting = [[from, to]]
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const [from, to] = next
    if (to - from < 2) continue
    const cut = longestGap(gaps, from, to)
    if (to - from <= MOST && isParted(gaps, from, to, gaps[cut])) {
      const width = widthOf(shots, from, to)
      const limit = spread(worstError(shots, from, to), grouping)
      if (width <= limit && !isSeveral(shots, gaps, from, to, grouping.near_m)) {
        found.push({ from, to, width })
        continue
      }
    }
    // The later part waits beneath the earlier one, so that bursts are found in order of time.
    waiting.push([cut, to], [from, cut])
  }
  return found
}

/** Whether the pauses around a run are more than twice as long as its longest gap. */
function isParted(gaps: readonly number[], from: number, to: number, longest: number): boolean {
  return Math.min(gaps[from], gaps[to]) > PAUSE * longest
}

/** Where a run's longest gap ends; of equal ones the nearest to its middle, which keeps cutting short. */
function longestGap(gaps: readonly number[], from: number, to: number): number {
  const middle = (from + to) / 2
  let best = from + 1
  for (let i = from + 2; i < to; i++) {
    const isNearer = Math.abs(i - middle) < Math.abs(best - middle)
    if (gaps[i] > gaps[best] || (gaps[i] === gaps[best] && isNearer)) best = i
  }
  return best
}

function widthOf(shots: readonly Shot[], from: number, to: number): number {
  let width = 0
  for (let i = from; i < to; i++) {
    for (let j = i + 1; j < to; j++) width = Math.max(width, apart(shots[i].at, shots[j].at))
  }
  return width
}

function worstError(shots: readonly Shot[], from: number, to: number): number | null {
  let worst: number | null = null
  for (let i = from; i < to; i++) {
    const { error } = shots[i]
    if (error !== null && (worst === null || error > worst)) worst = error
  }
  return worst
}

/**
 * Whether a run is several bursts, apart: cut at every gap longer than half its longest, it falls
 * into two parts or more of at least two shots, each parted from the next by a pause in which one
 * can move, and their middles lie more than `near` from each other, metres.
 */
function isSeveral(
  shots: readonly Shot[],
  gaps: readonly number[],
  from: number,
  to: number,
  near: number,
): boolean {
  const longest = gaps[longestGap(gaps, from, to)]
  if (longest <= MOVE) return false
  const middles: { east: number; north: number }[] = []
  let start = from
  let [shortestCut, longestInside] = [Infinity, 0]
  for (let i = from + 1; i <= to; i++) {
    if (i < to && gaps[i] <= longest / 2) {
      longestInside = Math.max(longestInside, gaps[i])
      continue
    }
    if (i < to) shortestCut = Math.min(shortestCut, gaps[i])
    const middle = i - start >= 2 ? middleOf(shots, start, i) : null
    if (middle) middles.push(middle)
    start = i
  }
  if (shortestCut <= PAUSE * longestInside) return false
  return middles.some((a, i) => middles.slice(i + 1).some((b) => apart(a, b) > near))
}

function middleOf(shots: readonly Shot[], from: number, to: number): Shot['at'] {
  const places = shots.slice(from, to).flatMap(({ at }) => (at === null ? [] : [at]))
  if (places.length === 0) return null
  const mean = (axis: 'east' | 'north') =>
    places.reduce((sum, at) => sum + at[axis], 0) / places.length
  return { east: mean('east'), north: mean('north') }
}

function apart(a: Shot['at'], b: Shot['at']): number {
  return a === null || b === null ? 0 : Math.hypot(a.east - b.east, a.north - b.north)
}
