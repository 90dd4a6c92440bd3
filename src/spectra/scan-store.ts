/**
 * Scans as they are kept: axes shared, values in blocks of 256 scans an axis.
 *
 * A store never changes. Adding gives a new one that shares every block it did not touch, so
 * that snapshots are cheap and a block can be saved by its content.
 */
import type { Spectrum } from './spectrum'

/** Scans that one block holds at most. */
export const BLOCK_SCANS = 256

/** Scans that share an axis. */
export interface ScanBlock {
  /** Index into the store's axes. */
  readonly axis: number
  /** Scans in use; the rows beyond are not set. */
  readonly count: number
  /** Fractions, 256 rows of as many channels as the axis has; gaps are NaN. */
  readonly values: Float32Array
  /** The scan's number of each row in use; ascending. */
  readonly scans: Int32Array
}

/** All scans, numbered from 0 in the order in which they came, whatever their axis. */
export interface ScanStore {
  /** nm, strictly ascending, no two alike. */
  readonly axes: readonly Float64Array[]
  readonly blocks: readonly ScanBlock[]
  readonly count: number
}

/** A store without scans. */
export const NO_SCANS: ScanStore = { axes: [], blocks: [], count: 0 }

/**
 * The store with more scans, numbered on from `store.count` in the order given.
 *
 * Axes that are alike to the last bit become one.
 *
 * @throws RangeError where a spectrum has not as many values as wavelengths
 */
export function appendScans(store: ScanStore, spectra: readonly Spectrum[]): ScanStore {
  const axes = [...store.axes]
  const blocks = [...store.blocks]
  const owned = new Set<number>()
  const open = new Map<number, number>()
  blocks.forEach((block, index) => {
    if (block.count < BLOCK_SCANS) open.set(block.axis, index)
  })
  let lastSeen: Float64Array | null = null
  let lastAxis = -1
  spectra.forEach(({ wavelengths, reflectance }, offset) => {
    if (wavelengths.length !== reflectance.length) {
      throw new RangeError(
        `a spectrum has ${reflectance.length} values on ${wavelengths.length} wavelengths`,
      )
    }
    if (wavelengths !== lastSeen) lastAxis = axisIndex(axes, wavelengths)
    lastSeen = wavelengths
    let index = open.get(lastAxis)
    if (index === undefined) {
      index = blocks.push(emptyBlock(lastAxis, wavelengths.length)) - 1
      owned.add(index)
    } else if (!owned.has(index)) {
      blocks[index] = copyOf(blocks[index])
      owned.add(index)
    }
    const block = blocks[index]
    block.values.set(reflectance, block.count * wavelengths.length)
    block.scans[block.count] = store.count + offset
    blocks[index] = { ...block, count: block.count + 1 }
    if (block.count + 1 < BLOCK_SCANS) open.set(lastAxis, index)
    else open.delete(lastAxis)
  })
  return { axes, blocks, count: store.count + spectra.length }
}

/**
 * One scan's spectrum: its shared axis and a view into its block, nothing copied.
 *
 * @throws RangeError where the store has no such scan, or gave it up
 */
export function spectrumOf(store: ScanStore, scan: number): Spectrum {
  if (!(Number.isInteger(scan) && scan >= 0 && scan < store.count)) {
    throw new RangeError(`there is no scan ${scan} among ${store.count}`)
  }
  const where = directoryOf(store)[scan]
  if (where < 0) throw new RangeError(`scan ${scan} was given up`)
  const block = store.blocks[Math.floor(where / BLOCK_SCANS)]
  const wavelengths = store.axes[block.axis]
  const start = (where % BLOCK_SCANS) * wavelengths.length
  return { wavelengths, reflectance: block.values.subarray(start, start + wavelengths.length) }
}

/**
 * The store without the blocks whose scans are all given up; the others keep their numbers. A scan
 * that is given up and shares its block with one that is not stays.
 */
export function withoutBlocks(store: ScanStore, isKept: (scan: number) => boolean): ScanStore {
  const blocks = store.blocks.filter(({ scans, count }) => scans.subarray(0, count).some(isKept))
  return blocks.length === store.blocks.length ? store : { ...store, blocks }
}

/** Block times 256 plus row of each scan, made once a store. */
const directories = new WeakMap<ScanStore, Int32Array>()

function directoryOf(store: ScanStore): Int32Array {
  const known = directories.get(store)
  if (known) return known
  const directory = new Int32Array(store.count).fill(-1)
  store.blocks.forEach(({ count, scans }, index) => {
    for (let row = 0; row < count; row++) directory[scans[row]] = index * BLOCK_SCANS + row
  })
  directories.set(store, directory)
  return directory
}

function axisIndex(axes: Float64Array[], wavelengths: Float64Array): number {
  const known = axes.findIndex((axis) => sameAxis(axis, wavelengths))
  return known >= 0 ? known : axes.push(wavelengths) - 1
}

function sameAxis(a: Float64Array, b: Float64Array): boolean {
  if (a === b) return true
  if (a.length !== b.length) return false
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false
  return true
}

function emptyBlock(axis: number, channels: number): ScanBlock {
  return {
    axis,
    count: 0,
    values: new Float32Array(BLOCK_SCANS * channels),
    scans: new Int32Array(BLOCK_SCANS),
  }
}

function copyOf(block: ScanBlock): ScanBlock {
  return { ...block, values: block.values.slice(), scans: block.scans.slice() }
}
