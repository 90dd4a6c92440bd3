/**
 * Neighbours that one band tells apart whatever the rest of the shape says. A petrologist looks
 * for the 2250 nm band of chlorite's hydroxide sheet, which micas hardly have, before likeness
 * of the whole. Where the band lies between neighbours is read off the references at hand, not
 * set: each group's references span a range of band strengths.
 */
import { upperHull } from '../spectra/hull'
import type { Match } from './match'
import type { PreparedSet } from './prepare'
import { GRID, nodesBetween, type OnGrid } from './work-grid'

/** Two groups and the strengths, one over the other, that tell them apart. */
interface Neighbours {
  readonly groups: readonly [string, string]
  /** The hull under which both bands are measured, nm. */
  readonly hull: readonly [from: number, to: number]
  /** The telling band and the one that it is measured against, nm. */
  readonly band: readonly [from: number, to: number]
  readonly against: readonly [from: number, to: number]
}

/**
 * The (Mg,Fe,Al)–OH band of chlorite's hydroxide sheet against the Mg–OH bands that chlorite
 * and trioctahedral micas share (general knowledge, written down from memory).
 */
const NEIGHBOURS: readonly Neighbours[] = [
  {
    groups: ['chlorite', 'biotite–phlogopite'],
    hull: [2200, 2440],
    band: [2240, 2262],
    against: [2300, 2370],
  },
]

/** A mean absorption below this (ln units) is not measured, and added so that none is 0. */
const FAINT = 0.003
/** Noise must be this many times below the absorption that is measured against. */
const ABOVE_NOISE = 5
/** ln units: a group is told apart where the scan lies this much further out of its range. */
const CLEARLY = 0.3
/** The better match of the two may lie this far ahead and yet be overruled. */
const AHEAD = 0.3
/** What the overruled group falls by at least: more than lets it lead a mixture. */
const LEAST_FALL = 0.16

/** The span of a group's ln ratios over a set. */
type Span = readonly [least: number, most: number]

const kept = new WeakMap<PreparedSet, readonly (readonly [Span | null, Span | null])[]>()

/**
 * Matches with the neighbours settled: where the best one's group has a neighbour that the
 * telling band speaks for, the neighbour rises to its score and it falls by as much.
 *
 * @param noise one standard deviation of reflectance a channel
 */
export function settled(
  matches: readonly Match[],
  onGrid: OnGrid,
  noise: number,
  set: PreparedSet,
): readonly Match[] {
  const best = bestWhere(matches, () => true)
  if (!best) return matches
  for (const [i, pair] of NEIGHBOURS.entries()) {
    const side = pair.groups.indexOf(best.reference.group)
    if (side < 0) continue
    const other = pair.groups[1 - side]
    const rival = bestWhere(matches, (group) => group === other)
    if (!rival || rival.score < best.score - AHEAD) continue
    const ratio = ratioOf(onGrid.log, pair)
    const spans = spansOf(set)[i]
    if (ratio === null || isNoisy(onGrid, noise, pair)) continue
    const outside = spans.map((span) => (span ? beyond(ratio, span) : 0))
    if (outside[side] - outside[1 - side] < CLEARLY) continue
    const step = best.score - rival.score
    const fall = Math.max(step, LEAST_FALL)
    return matches.map((match) => {
      const { group } = match.reference
      if (group === other) return { ...match, score: match.score + step }
      if (group !== best.reference.group) return match
      return { ...match, score: match.score - fall, isOverruled: true }
    })
  }
  return matches
}

function bestWhere(matches: readonly Match[], fits: (group: string) => boolean): Match | null {
  let best: Match | null = null
  for (const match of matches) {
    if (fits(match.reference.group) && (!best || match.score > best.score)) best = match
  }
  return best
}

/** Each pair's spans over a set, worked out once. */
function spansOf(set: PreparedSet): readonly (readonly [Span | null, Span | null])[] {
  let spans = kept.get(set)
  if (!spans) {
    spans = NEIGHBOURS.map((pair) => [
      spanOf(set, pair, pair.groups[0]),
      spanOf(set, pair, pair.groups[1]),
    ])
    kept.set(set, spans)
  }
  return spans
}

function spanOf({ references }: PreparedSet, pair: Neighbours, group: string): Span | null {
  const ratios = references
    .filter((reference) => reference.group === group)
    .map(({ log }) => ratioOf(log, pair))
    .filter((ratio) => ratio !== null)
  return ratios.length > 0 ? [Math.min(...ratios), Math.max(...ratios)] : null
}

/** How far a value lies outside a span. */
function beyond(value: number, [least, most]: Span): number {
  return Math.max(0, least - value, value - most)
}

/** ln of the telling band's mean absorption over the other's; null where that is faint. */
function ratioOf(log: Float64Array, { hull, band, against }: Neighbours): number | null {
  const [start, end] = nodesBetween(...hull)
  const values = log.slice(start, end)
  const upper = upperHull(GRID.subarray(start, end), values)
  const mean = ([from, to]: Neighbours['band']): number => {
    const [first, last] = nodesBetween(from, to)
    let sum = 0
    for (let node = first; node < last; node++) sum += upper[node - start] - values[node - start]
    return sum / (last - first)
  }
  const depth = mean(against)
  return depth < 5 * FAINT ? null : Math.log((mean(band) + FAINT) / (depth + FAINT))
}

/** Whether noise could have made the telling band. */
function isNoisy({ variance, log }: OnGrid, noise: number, { hull, against }: Neighbours): boolean {
  const [start, end] = nodesBetween(...against)
  const [first, last] = nodesBetween(...hull)
  const upper = upperHull(GRID.subarray(first, last), log.slice(first, last))
  let depth = 0
  let squares = 0
  for (let node = start; node < end; node++) {
    depth += upper[node - first] - log[node]
    squares += variance[node]
  }
  const count = end - start
  return depth / count < ABOVE_NOISE * noise * Math.sqrt(squares / count)
}
