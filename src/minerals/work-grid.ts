/**
 * The grid on which scans and references are compared: fine where hydroxyl and carbonate
 * absorb, coarser elsewhere. A scan of any axis is averaged onto it once.
 */
import { channelRange, type Spectrum } from '../spectra/spectrum'

/** Stretches of the grid: from, to (not included) and step, nm. */
const STRETCHES = [
  [400, 1000, 15],
  [1000, 1340, 20],
  [1340, 1560, 5],
  [1560, 1860, 10],
  [1860, 2080, 8],
  [2080, 2466, 5],
] as const

/** The grid's wavelengths, nm. */
export const GRID: Float64Array = Float64Array.from(
  STRETCHES.flatMap(([from, to, step]) =>
    Array.from({ length: Math.ceil((to - from) / step) }, (_, i) => from + i * step),
  ),
)

/** Half the way to the node before plus half the way to the node after, nm. */
export const SPACING: Float64Array = GRID.map((_, i) => {
  const after = GRID[Math.min(i + 1, GRID.length - 1)]
  const before = GRID[Math.max(i - 1, 0)]
  return (after - before) / (i === 0 || i === GRID.length - 1 ? 1 : 2)
})

/** The nodes with `from <= λ <= to`, nm: [start, end). */
export function nodesBetween(from: number, to: number): [start: number, end: number] {
  return channelRange(GRID, from, to)
}

/** Reflectance below this is taken for this: its logarithm would be noise. */
const DARKEST = 1e-3

/** 1 at every node. */
export const EVERYWHERE: Uint8Array = new Uint8Array(GRID.length).fill(1)

/** A scan on the grid. */
export interface OnGrid {
  /** ln reflectance at each node; bridged straight where the scan has no value. */
  readonly log: Float64Array
  /** 1 where the scan has values, 0 where it was bridged; scans alike in that share one array. */
  readonly known: Uint8Array
  /** Variance of ln reflectance at each node for a reflectance noise of 1 a channel. */
  readonly variance: Float64Array
}

/** Between channels further apart than this nothing is known, nm: a band would fit in. */
const MOST_APART = 30

/** How the channels of one axis make up each node. */
interface Averaging {
  readonly starts: Int32Array
  readonly weights: readonly Float64Array[]
  /** Sums of each node's weights and of their squares, for nodes without a gap. */
  readonly totals: Float64Array
  readonly squares: Float64Array
}

/** Sums over the channels of one node that have a value. */
interface NodeSums {
  readonly sum: number
  readonly total: number
  readonly squares: number
}

const averagings = new WeakMap<Float64Array, Averaging>()

/**
 * A spectrum averaged onto the grid, Gaussian over about a field instrument's bandpass where
 * channels are dense, linear between channels where they are not.
 *
 * @returns null where fewer than half of the nodes can be known
 */
export function toGrid(spectrum: Spectrum): OnGrid | null {
  const averaging = averagingOf(spectrum.wavelengths)
  const log = new Float64Array(GRID.length)
  const known = new Uint8Array(GRID.length)
  const variance = new Float64Array(GRID.length)
  let count = 0
  for (let node = 0; node < GRID.length; node++) {
    const { sum, total, squares } = sumsAt(node, averaging, spectrum.reflectance)
    if (total < 0.5) continue
    const mean = Math.max(sum / total, DARKEST)
    known[node] = 1
    count++
    log[node] = Math.log(mean)
    variance[node] = squares / (total * total * mean * mean)
  }
  if (count < GRID.length / 2) return null
  bridge(log, known)
  closeGaps(known)
  return { log, known: sharedMask(known), variance }
}

/** A node's sums; where no channel is a gap, those of the weights are known beforehand. */
function sumsAt(node: number, averaging: Averaging, reflectance: ArrayLike<number>): NodeSums {
  const weights = averaging.weights[node]
  const start = averaging.starts[node]
  let sum = 0
  for (let k = 0; k < weights.length; k++) sum += weights[k] * reflectance[start + k]
  if (!Number.isNaN(sum))
    return { sum, total: averaging.totals[node], squares: averaging.squares[node] }
  let total = 0
  let squares = 0
  sum = 0
  for (let k = 0; k < weights.length; k++) {
    const value = reflectance[start + k]
    if (Number.isNaN(value)) continue
    sum += weights[k] * value
    total += weights[k]
    squares += weights[k] * weights[k]
  }
  return { sum, total, squares }
}

/** Masks under way, the one met last at the end; more than these are forgotten. */
const masks = new Map<string, Uint8Array>()
const MOST_MASKS = 8

/** The one array that stands for all masks like this, so that what is made for it can be kept. */
function sharedMask(known: Uint8Array): Uint8Array {
  if (!known.includes(0)) return EVERYWHERE
  const key = known.join('')
  const mask = masks.get(key) ?? known
  masks.delete(key)
  masks.set(key, mask)
  for (const oldest of masks.keys()) if (masks.size > MOST_MASKS) masks.delete(oldest)
  return mask
}

/** Nodes in gaps that are no wider than may lie between channels count as known. */
function closeGaps(known: Uint8Array): void {
  let before = -1
  for (let node = 0; node < known.length; node++) {
    if (!known[node]) continue
    if (before >= 0 && GRID[node] - GRID[before] <= MOST_APART) known.fill(1, before, node)
    before = node
  }
}

/** Straight lines over unknown nodes, in place; level beyond the outermost known ones. */
export function bridge(log: Float64Array, known: Uint8Array): void {
  let before = -1
  for (let node = 0; node <= log.length; node++) {
    if (node < log.length && !known[node]) continue
    for (let gap = before + 1; gap < node; gap++) {
      if (before < 0) log[gap] = log[node]
      else if (node === log.length) log[gap] = log[before]
      else {
        const t = (GRID[gap] - GRID[before]) / (GRID[node] - GRID[before])
        log[gap] = log[before] + t * (log[node] - log[before])
      }
    }
    before = node
  }
}

/** The averaging for an axis, kept with the axis. */
function averagingOf(wavelengths: Float64Array): Averaging {
  const kept = averagings.get(wavelengths)
  if (kept) return kept
  const starts = new Int32Array(GRID.length)
  const weights = Array.from(GRID, (nm, node) => {
    const fwhm = Math.max(10, SPACING[node])
    const near = channelRange(wavelengths, nm - fwhm, nm + fwhm)
    const after = wavelengths.findIndex((w) => w >= nm)
    const apart = wavelengths[after] - wavelengths[after - 1]
    if (wavelengths[after] !== nm && apart > MOST_APART) return new Float64Array(0)
    if (near[1] - near[0] >= 6) {
      starts[node] = near[0]
      return gaussianWeights(wavelengths.subarray(...near), nm, fwhm)
    }
    if (after < 0 || (after === 0 && wavelengths[0] > nm)) return new Float64Array(0)
    if (wavelengths[after] === nm) {
      starts[node] = after
      return Float64Array.of(1)
    }
    starts[node] = after - 1
    const t = (nm - wavelengths[after - 1]) / (wavelengths[after] - wavelengths[after - 1])
    return Float64Array.of(1 - t, t)
  })
  const summed = (list: Float64Array, term: (weight: number) => number) =>
    list.reduce((sum, weight) => sum + term(weight), 0)
  const averaging = {
    starts,
    weights,
    totals: Float64Array.from(weights, (list) => summed(list, (weight) => weight)),
    squares: Float64Array.from(weights, (list) => summed(list, (weight) => weight * weight)),
  }
  averagings.set(wavelengths, averaging)
  return averaging
}

function gaussianWeights(channels: Float64Array, nm: number, fwhm: number): Float64Array {
  const weights = channels.map((w) => Math.exp(-4 * Math.LN2 * ((w - nm) / fwhm) ** 2))
  const total = weights.reduce((sum, w) => sum + w, 0)
  return weights.map((w) => w / total)
}
