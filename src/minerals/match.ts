/** How alike a scan and each reference are. */
import { isCommon } from './groups'
import type { PreparedReference, PreparedSet, PreparedShape } from './prepare'
import { GRID, nodesBetween } from './work-grid'

/** A scan's shape at the scale that its noise asks for. */
export interface ScanShape extends PreparedShape {
  readonly scale: number
  /** 1 where the scan has values. */
  readonly known: Uint8Array
  /** Whether it has values everywhere. */
  readonly whole: boolean
  /** The cosine, at most, that noise leaves between its telling stretch and a perfect match. */
  readonly clarity: number
}

/** A reference beside a scan. */
export interface Match {
  readonly reference: PreparedReference
  /** Its place in the set. */
  readonly index: number
  /** Cosine of the compressed shapes less what speaks against the reference; at most 1. */
  readonly score: number
  /** What of that was lost to telling absorptions that are not the scan's. */
  readonly missed: number
  /** Product of the reference's linear shape with the scan's. */
  readonly product: number
  /** Product of the reference's linear shape with itself, where the scan has values. */
  readonly energy: number
}

/** Ranges that a user narrowed or widened, by mineral, nm. */
export type UserRanges = ReadonlyMap<string, readonly (readonly [from: number, to: number])[]>

/** A pure mineral shows up to about this many times a reference's absorption. */
const STRONGEST = 2
/** What each factor e beyond that costs. */
const TOO_STRONG = 0.2
/**
 * Beyond 2080 nm hydroxyl, carbonate and sulfate overtones tell minerals apart: one that has
 * its diagnostic absorptions there must match there, whatever its water or iron bands do.
 */
const [TELLING_START, TELLING_END] = nodesBetween(2080, 2500)
/** Cosine over that stretch from which a match is good, and what each step below it costs. */
const TELLING = 0.75
const MISSED = 0.3
/** What a mineral that is rare in altered rock must match better by. */
const RARE = 0.02

/** Every reference's match with the scan, in the set's order. */
export function matchAll(scan: ScanShape, set: PreparedSet, ranges: UserRanges): Match[] {
  const own = sums(scan, scan, null, null)
  return set.references.map((reference, index) => {
    const shape = reference.shapeAt(scan.scale)
    const user = ranges.get(reference.mineral)
    if (scan.whole && reference.whole && !user) {
      const product = dot(scan.linear, shape.linear)
      const compressed = dot(scan.compressed, shape.compressed)
      const cosine = compressed / Math.sqrt(own.ours * shape.compressedEnergy + 1e-20)
      const missed = missedBy(scan, reference, shape)
      return asMatch(reference, index, cosine, missed, product, shape.linearEnergy)
    }
    const part = sums(scan, shape, reference.known, user ? nodesWithin(user) : null)
    const cosine = part.compressed / Math.sqrt(part.ours * part.theirs + 1e-20)
    const missed = user ? 0 : missedBy(scan, reference, shape)
    return asMatch(reference, index, cosine, missed, part.linear, part.energy)
  })
}

/** What a reference loses whose telling absorptions are not the scan's. */
function missedBy(scan: ScanShape, reference: PreparedReference, shape: PreparedShape): number {
  if (!reference.telling) return 0
  let product = 0
  let ours = 0
  let theirs = 0
  for (let node = TELLING_START; node < TELLING_END; node++) {
    if (!scan.known[node] || !reference.known[node]) continue
    const a = scan.compressed[node]
    const b = shape.compressed[node]
    product += a * b
    ours += a * a
    theirs += b * b
  }
  if (ours === 0 || theirs === 0) return 0
  const cosine = product / Math.sqrt(ours * theirs)
  return MISSED * Math.max(0, TELLING * scan.clarity - cosine)
}

function asMatch(
  reference: PreparedReference,
  index: number,
  cosine: number,
  missed: number,
  product: number,
  energy: number,
): Match {
  const amount = product / (energy + 1e-20)
  const excess = amount > STRONGEST ? TOO_STRONG * Math.log(amount / STRONGEST) : 0
  const odds = reference.silent || isCommon(reference.group) ? 0 : RARE
  const score = cosine - excess - odds - missed
  return { reference, index, score, missed, product, energy }
}

interface Sums {
  compressed: number
  ours: number
  theirs: number
  linear: number
  energy: number
}

/** Products of scan and reference over the nodes that both know (and the user asks for). */
function sums(
  scan: ScanShape,
  shape: PreparedShape,
  known: Uint8Array | null,
  only: Uint8Array | null,
): Sums {
  const total = { compressed: 0, ours: 0, theirs: 0, linear: 0, energy: 0 }
  for (let node = 0; node < GRID.length; node++) {
    if (!scan.known[node] || (known && !known[node]) || (only && !only[node])) continue
    const a = scan.compressed[node]
    const b = shape.compressed[node]
    const r = shape.linear[node]
    total.compressed += a * b
    total.ours += a * a
    total.theirs += b * b
    total.linear += scan.linear[node] * r
    total.energy += r * r
  }
  return total
}

/** 1 for the grid's nodes inside any of the ranges. */
function nodesWithin(ranges: readonly (readonly [from: number, to: number])[]): Uint8Array {
  return Uint8Array.from(GRID, (nm) => (ranges.some(([a, b]) => nm >= a && nm <= b) ? 1 : 0))
}

/** The best match of each mineral, in the given order. */
export function bestOfEach(ranked: readonly Match[]): Match[] {
  const seen = new Set<string>()
  return ranked.filter(({ reference }) => {
    if (seen.has(reference.mineral)) return false
    seen.add(reference.mineral)
    return true
  })
}

/** The sum of products of two arrays of one length. */
export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i]
  return sum
}
