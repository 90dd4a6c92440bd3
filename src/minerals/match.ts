/** How alike a scan and each reference are. */
import { isCommon } from './groups'
import type { PreparedReference, PreparedShape } from './prepare'
import { GRID } from './work-grid'

/** A scan's shape at the scale that its noise asks for. */
export interface ScanShape extends PreparedShape {
  readonly scale: number
  /** 1 where the scan has values. */
  readonly known: Uint8Array
  /** Whether it has values everywhere. */
  readonly whole: boolean
}

/** A reference beside a scan. */
export interface Match {
  readonly reference: PreparedReference
  /** Cosine of the compressed shapes less what too strong an absorption costs, at most 1. */
  readonly score: number
  /** How many times the reference's absorption the scan shows (least squares). */
  readonly amount: number
  /** Products of the reference's linear shape with the scan's and with itself. */
  readonly product: number
  readonly energy: number
}

/** Ranges that a user narrowed or widened, by mineral, nm. */
export type UserRanges = ReadonlyMap<string, readonly (readonly [from: number, to: number])[]>

/** A pure mineral shows up to about this many times a reference's absorption. */
const STRONGEST = 2
/** What each factor e beyond that costs. */
const TOO_STRONG = 0.1
/** What a mineral that is rare in altered rock must match better by. */
const RARE = 0.02

/** Every reference's match with the scan, the best first. */
export function matchAll(
  scan: ScanShape,
  references: readonly PreparedReference[],
  ranges: UserRanges,
): Match[] {
  const matches = references.map((reference) => {
    const own = ranges.get(reference.mineral)
    return match(scan, reference, own ? nodesWithin(own) : null)
  })
  return matches.sort((a, b) => b.score - a.score)
}

function match(scan: ScanShape, reference: PreparedReference, only: Uint8Array | null): Match {
  const shape = reference.shapes[scan.scale]
  const { known } = reference
  let product = 0
  let ours = 0
  let theirs = 0
  let linear = 0
  let energy = 0
  for (let node = 0; node < GRID.length; node++) {
    if (!scan.known[node] || !known[node] || (only && !only[node])) continue
    const a = scan.compressed[node]
    const b = shape.compressed[node]
    product += a * b
    ours += a * a
    theirs += b * b
    const r = shape.linear[node]
    linear += scan.linear[node] * r
    energy += r * r
  }
  const cosine = product / Math.sqrt(ours * theirs + 1e-20)
  const amount = linear / (energy + 1e-20)
  const excess = amount > STRONGEST ? Math.log(amount / STRONGEST) : 0
  const odds = reference.silent || isCommon(reference.group) ? 0 : RARE
  return { reference, score: cosine - TOO_STRONG * excess - odds, amount, product: linear, energy }
}

/** 1 for the grid's nodes inside any of the ranges. */
export function nodesWithin(ranges: readonly (readonly [from: number, to: number])[]): Uint8Array {
  return Uint8Array.from(GRID, (nm) => (ranges.some(([a, b]) => nm >= a && nm <= b) ? 1 : 0))
}

/** The best match of each mineral, in order. */
export function bestOfEach(matches: readonly Match[]): Match[] {
  const seen = new Set<string>()
  return matches.filter(({ reference }) => {
    if (seen.has(reference.mineral)) return false
    seen.add(reference.mineral)
    return true
  })
}
