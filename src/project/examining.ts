/** Has scans examined in workers, and remembers what was found by the scan's number. */
import type { ScanMeasures } from '../check/measure-scan'
import type { SpectralLeaf } from '../indices/leaves'
import type { Measured } from '../indices/rule'
import type { Pool } from '../jobs/pool'
import type { Identification } from '../minerals/reference'
import type { ScanBlock, ScanStore } from '../spectra/scan-store'

/** Scans in one task: short enough to stop within 50 ms. */
const TILE_SCANS = 24
/** Portions under way at once, for each worker: each is a copy, so not all of them together. */
const AHEAD = 2

/** Scans of one block that are examined together. */
export interface Tile {
  readonly block: ScanBlock
  readonly rows: readonly number[]
  /** Those of the rows whose detector steps are corrected, counted among `rows`. */
  readonly corrected: readonly number[]
  readonly check: boolean
  readonly identify: boolean
  readonly leaves: readonly SpectralLeaf[]
}

/** Findings by scan number; holes where a scan has not been examined. */
export class Examiner {
  readonly #measures: (ScanMeasures | undefined)[] = []
  readonly #identifications: (Identification | undefined)[] = []
  readonly #leaves = new Map<string, (Measured | undefined)[]>()
  /** Scans that were examined with their detector steps corrected. */
  #corrected: ReadonlySet<number> = new Set()

  /**
   * What was measured on a scan for the check.
   *
   * @throws Error where it has not been examined
   */
  measures(scan: number): ScanMeasures {
    const found = this.#measures[scan]
    if (!found) throw new Error(`scan ${scan} has not been examined`)
    return found
  }

  /** What was found in a scan; undefined where it has not been examined. */
  identification(scan: number): Identification | undefined {
    return this.#identifications[scan]
  }

  /** What a leaf measured on a scan; undefined where it has not been examined. */
  leaf(key: string, scan: number): Measured | undefined {
    return this.#leaves.get(key)?.[scan]
  }

  /** Forgets which minerals were found, because the references have changed. */
  forgetMinerals(): void {
    this.#identifications.length = 0
  }

  /** Says whose detector steps are corrected; forgets what was found where that has changed. */
  correct(scans: ReadonlySet<number>): void {
    const before = this.#corrected
    const changed = [...before, ...scans].filter((scan) => before.has(scan) !== scans.has(scan))
    for (const scan of changed) {
      this.#measures[scan] = undefined
      this.#identifications[scan] = undefined
      for (const list of this.#leaves.values()) list[scan] = undefined
    }
    this.#corrected = scans
  }

  /** What has not been examined yet, in portions for the workers. */
  missing(
    store: ScanStore,
    active: (scan: number) => boolean,
    leaves: readonly SpectralLeaf[],
  ): Tile[] {
    for (const { key } of leaves) if (!this.#leaves.has(key)) this.#leaves.set(key, [])
    return store.blocks.flatMap((block) => this.#tilesOf(block, active, leaves))
  }

  /**
   * Examines portions.
   *
   * @throws an AbortError when stopped; what was found until then is kept
   */
  async examine(
    pool: Pool,
    store: ScanStore,
    tiles: readonly Tile[],
    signal: AbortSignal,
    progress: (done: number, total: number) => void,
  ): Promise<void> {
    const total = tiles.reduce((sum, { rows }) => sum + rows.length, 0)
    let done = 0
    progress(0, total)
    let next = 0
    const lane = async () => {
      while (next < tiles.length) {
        const tile = tiles[next++]
        await this.#run(pool, store, tile, signal)
        done += tile.rows.length
        progress(done, total)
      }
    }
    await Promise.all(Array.from({ length: pool.size * AHEAD }, lane))
  }

  #tilesOf(
    block: ScanBlock,
    active: (scan: number) => boolean,
    leaves: readonly SpectralLeaf[],
  ): Tile[] {
    const tiles: Tile[] = []
    for (let start = 0; start < block.count; start += TILE_SCANS) {
      const end = Math.min(start + TILE_SCANS, block.count)
      const rows = Array.from({ length: end - start }, (_, i) => start + i).filter((row) =>
        active(block.scans[row]),
      )
      const tile = this.#tileOf(block, rows, leaves)
      if (tile.check || tile.identify || tile.leaves.length > 0) tiles.push(tile)
    }
    return tiles
  }

  /** What the rows lack, asked of those alone that lack any of it. */
  #tileOf(block: ScanBlock, active: readonly number[], leaves: readonly SpectralLeaf[]): Tile {
    const without = (list: ArrayLike<unknown> = []) =>
      active.filter((row) => list[block.scans[row]] === undefined)
    const unchecked = without(this.#measures)
    const unidentified = without(this.#identifications)
    const unmeasured = leaves.map(({ key }) => without(this.#leaves.get(key)))
    const lacking = new Set([...unchecked, ...unidentified, ...unmeasured.flat()])
    const rows = active.filter((row) => lacking.has(row))
    return {
      block,
      rows,
      corrected: rows.flatMap((row, i) => (this.#corrected.has(block.scans[row]) ? [i] : [])),
      check: unchecked.length > 0,
      identify: unidentified.length > 0,
      leaves: leaves.filter((_, i) => unmeasured[i].length > 0),
    }
  }

  async #run(pool: Pool, store: ScanStore, tile: Tile, signal: AbortSignal): Promise<void> {
    const { block, rows, corrected, check, identify, leaves } = tile
    const wavelengths = store.axes[block.axis]
    const channels = wavelengths.length
    const values = new Float32Array(rows.length * channels)
    rows.forEach((row, i) =>
      values.set(block.values.subarray(row * channels, (row + 1) * channels), i * channels),
    )
    const found = await pool.run(
      'examine',
      { wavelengths, values, count: rows.length, corrected, check, identify, leaves },
      { signal, transfer: [values.buffer] },
    )
    rows.forEach((row, i) => {
      const scan = block.scans[row]
      if (check) this.#measures[scan] = found.measures[i]
      if (identify) this.#identifications[scan] = found.identifications[i]
      leaves.forEach(({ key }, leaf) => {
        const list = this.#leaves.get(key)
        if (list) list[scan] = found.leaves[i][leaf]
      })
    })
  }
}
