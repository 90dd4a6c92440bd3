/** How alike a scan and each reference are. */
import { isCommon } from './groups'
import { dot, likenessOf, productsOf, sumOf } from './likeness'
import type { PreparedReference, PreparedSet, PreparedShape } from './prepare'
import { GRID } from './work-grid'

/** A scan's shape at the scale that its noise asks for. */
export interface ScanShape extends PreparedShape {
  readonly scale: number
  /** The weighted coarse shape before it is compressed. */
  readonly coarseLinear: Float64Array
  /** 1 where the scan has values; elsewhere its shape is 0. */
  readonly known: Uint8Array
  /** The cosine, at most, that noise leaves between its telling stretch and a perfect match. */
  readonly clarity: number
  /** The energy that noise alone gives such a shape, on average. */
  readonly noiseEnergy: number
}

/** A reference beside a scan. */
export interface Match {
  readonly reference: PreparedReference
  /** Its place in the set. */
  readonly index: number
  /** Likeness of the compressed shapes less what speaks against the reference; at most 1. */
  readonly score: number
  /** What of that was lost to telling absorptions that are not the scan's. */
  readonly missed: number
  /** Likeness apart from the stretches in which water absorbs. */
  readonly dry: number
  /** Whether a neighbour's telling band speaks against its group: it may not lead a mixture. */
  readonly isOverruled?: boolean
  /** Product of the reference's linear shape with the scan's. */
  readonly product: number
  /** Product of the reference's linear shape with itself. */
  readonly energy: number
}

/** Ranges that a user narrowed or widened, by mineral, nm. */
export type UserRanges = ReadonlyMap<string, readonly (readonly [from: number, to: number])[]>

/** A pure mineral shows up to about this many times a reference's absorption. */
const STRONGEST = 2
/**
 * What a silent mineral's records show are traces of others: a scan that shows clearly more than
 * they do holds more than traces.
 */
const STRONGEST_TRACE = 1.5
/** What each factor e beyond that costs. */
const TOO_STRONG = 0.2
/**
 * Beyond 2080 nm hydroxyl, carbonate and sulfate overtones tell minerals apart: one that has
 * its diagnostic absorptions there must match there, whatever its water or iron bands do.
 * Likeness there from which a match is good, and what each step below it costs.
 */
const TELLING = 0.95
const MISSED = 0.2
/** What a name must match better by than silence. */
const SPEAKING = 0.02
/** and a mineral that is rare in altered rock better still. */
const RARE = 0.03

/**
 * Every reference's match with the scan, in the set's order.
 *
 * @param set as the scan sees it (`setAsSeen`)
 */
export function matchAll(scan: ScanShape, set: PreparedSet, ranges: UserRanges): Match[] {
  return set.references.map((reference, index) =>
    matchOne(scan, reference, index, ranges.get(reference.mineral)),
  )
}

/** One reference's match with the scan. */
export function matchOne(
  scan: ScanShape,
  reference: PreparedReference,
  index: number,
  user: readonly (readonly [from: number, to: number])[] | undefined,
): Match {
  const shape = reference.shapeAt(scan.scale)
  const asked = user ? nodesWithin(user) : null
  const { whole, telling, dry } = likenessOf(scan, shape, asked)
  const hasTelling = reference.telling && !user
  const missed = hasTelling ? MISSED * Math.max(0, TELLING * scan.clarity - telling) : 0
  // Shapes are 0 where they are not known: one without the telling bands explains nothing there
  // and must not win by their absence.
  const product = asked
    ? sumOf(productsOf(scan.linear, shape.linear, asked))
    : dot(scan.linear, shape.linear)
  const energy = asked ? sumOf(productsOf(shape.linear, shape.linear, asked)) : shape.linearEnergy
  const score = whole - excessOf(product, energy, reference.silent) - oddsOf(reference) - missed
  return { reference, index, score, missed, dry, product, energy }
}

/** What a reference loses of which the scan would need more than its mineral shows. */
function excessOf(product: number, energy: number, silent: boolean): number {
  const amount = product / (energy + 1e-20)
  const strongest = silent ? STRONGEST_TRACE : STRONGEST
  return amount > strongest ? TOO_STRONG * Math.log(amount / strongest) : 0
}

function oddsOf({ silent, group }: PreparedReference): number {
  if (silent) return 0
  return isCommon(group) ? SPEAKING : SPEAKING + RARE
}

/** 1 for the grid's nodes inside any of the ranges. */
function nodesWithin(ranges: readonly (readonly [from: number, to: number])[]): Uint8Array {
  return Uint8Array.from(GRID, (nm) => (ranges.some(([a, b]) => nm >= a && nm <= b) ? 1 : 0))
}

/** The best match of each mineral, the best first; of equals the one that comes first. */
export function rankedMinerals(matches: readonly Match[]): Match[] {
  const best = new Map<string, Match>()
  for (const match of matches) {
    const before = best.get(match.reference.mineral)
    if (!before || match.score > before.score) best.set(match.reference.mineral, match)
  }
  return [...best.values()].sort((a, b) => b.score - a.score || a.index - b.index)
}
