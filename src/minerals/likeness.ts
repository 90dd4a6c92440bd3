/**
 * How alike two shapes are: the cosine over the whole range, which keeps how strong the parts
 * of the range are beside one another, and the mean of the cosines of its parts, which forgives
 * where water or iron changes that. Fine and coarse shapes count alike: the fine tell close
 * bands apart, the coarse hold where samples of one mineral differ in detail.
 */
import type { PreparedShape } from './prepare'
import { PARTS } from './shape'

/** What of a shape is compared. */
export type Compared = Pick<
  PreparedShape,
  'compressed' | 'coarse' | 'compressedEnergy' | 'coarseEnergy'
>

/** The likeness of two shapes, each at most 1. */
export interface Likeness {
  readonly whole: number
  /** Over the last part alone, beyond 2080 nm. */
  readonly telling: number
  /** Over the parts in which liquid water absorbs little. */
  readonly dry: number
}

/** Which parts of the range hold the strong bands of liquid water. */
const WATERY = [false, true, false, true, false]

const TINY = 1e-12

/** A shape's products with itself. */
export interface Energy {
  /** Over each part of the range. */
  readonly parts: Float64Array
  /** Of all parts, and a little so that it is not 0. */
  readonly whole: number
  /** What each part is of the whole. */
  readonly portions: Float64Array
}

/** A shape's energy from its products with itself, by part; they are kept in it. */
export function energyOf(parts: Float64Array): Energy {
  const whole = sumOf(parts) + TINY
  return { parts, whole, portions: parts.map((part) => part / whole) }
}

/**
 * The likeness of a scan and a reference.
 *
 * @param known 1 at the nodes that count; null where all do
 */
export function likenessOf(scan: Compared, other: Compared, known: Uint8Array | null): Likeness {
  const ofScan = known ? energyWithin(scan.compressed, known) : scan.compressedEnergy
  const ofOther = known ? energyWithin(other.compressed, known) : other.compressedEnergy
  alike(productsOf(scan.compressed, other.compressed, known, both), ofScan, ofOther, fine)
  const broadOfScan = known ? energyWithin(scan.coarse, known) : scan.coarseEnergy
  const broadOfOther = known ? energyWithin(other.coarse, known) : other.coarseEnergy
  alike(productsOf(scan.coarse, other.coarse, known, both), broadOfScan, broadOfOther, coarse)
  return {
    whole: (fine[0] + coarse[0]) / 2,
    telling: (fine[1] + coarse[1]) / 2,
    dry: (fine[2] + coarse[2]) / 2,
  }
}

/** Under way, and kept, so that hundreds of comparisons a scan leave no garbage behind. */
const both = new Float64Array(PARTS.length)
const [fine, coarse] = [new Float64Array(3), new Float64Array(3)]

function energyWithin(shape: Float64Array, known: Uint8Array): Energy {
  return energyOf(productsOf(shape, shape, known))
}

/**
 * Likeness from products with one another, by part, and with themselves.
 *
 * @param out takes what `Likeness` names, in its order
 */
function alike(products: Float64Array, own: Energy, its: Energy, out: Float64Array): void {
  let cosines = 0
  let weights = 0
  let cosine = 0
  let dryCosines = 0
  let dryWeights = 0
  for (let part = 0; part < products.length; part++) {
    cosine = products[part] / Math.sqrt(own.parts[part] * its.parts[part] + TINY)
    const weight = Math.sqrt(own.portions[part] + its.portions[part])
    cosines += weight * cosine
    weights += weight
    if (WATERY[part]) continue
    dryCosines += weight * cosine
    dryWeights += weight
  }
  const overall = sumOf(products) / Math.sqrt(own.whole * its.whole)
  out[0] = (overall + cosines / (weights + TINY)) / 2
  out[1] = cosine
  out[2] = dryCosines / (dryWeights + TINY)
}

/** Where parts begin and end: pairs would be taken apart hundreds of times a scan. */
const STARTS = Int32Array.from(PARTS, ([start]) => start)
const ENDS = Int32Array.from(PARTS, ([, end]) => end)

/** The product of two arrays over each part of the range; written into `products` where given. */
export function productsOf(
  a: Float64Array,
  b: Float64Array,
  known: Uint8Array | null,
  products = new Float64Array(PARTS.length),
): Float64Array {
  for (let part = 0; part < PARTS.length; part++) {
    const start = STARTS[part]
    const end = ENDS[part]
    products[part] = known ? knownDot(a, b, known, start, end) : dot(a, b, start, end)
  }
  return products
}

/**
 * The sum of products of two arrays over [start, end). Four sums run side by side: one alone
 * would wait for each addition before the next.
 */
export function dot(a: Float64Array, b: Float64Array, start = 0, end = a.length): number {
  let s0 = 0
  let s1 = 0
  let s2 = 0
  let s3 = 0
  let i = start
  for (; i + 3 < end; i += 4) {
    s0 += a[i] * b[i]
    s1 += a[i + 1] * b[i + 1]
    s2 += a[i + 2] * b[i + 2]
    s3 += a[i + 3] * b[i + 3]
  }
  for (; i < end; i++) s0 += a[i] * b[i]
  return s0 + s1 + (s2 + s3)
}

function knownDot(
  a: Float64Array,
  b: Float64Array,
  known: Uint8Array,
  start: number,
  end: number,
): number {
  let sum = 0
  for (let node = start; node < end; node++) if (known[node]) sum += a[node] * b[node]
  return sum
}

/** The sum of an array. */
export function sumOf(values: Float64Array): number {
  let sum = 0
  for (let i = 0; i < values.length; i++) sum += values[i]
  return sum
}
