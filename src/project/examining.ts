/** Has scans examined in workers, and remembers what was found by the scan's number. */
import type { ScanMeasures } from '../check/measure-scan'
import type { SpectralLeaf } from '../indices/leaves'
import type { Measured } from '../indices/rule'
import type { Pool } from '../jobs/pool'
import type { Identification } from '../minerals/reference'
import type { ScanBlock, ScanStore } from '../spectra/scan-store'

/** Scans in one task: short enough to stop within 50 ms. */
const TILE_SCANS = 24

/** Scans of one block that are examined together. */
export interface Tile {
  readonly block: ScanBlock
  readonly rows: readonly number[]
  readonly check: boolean
  readonly identify: boolean
  readonly leaves: readonly SpectralLeaf[]
}

/** Findings by scan number; holes where a scan has not been examined. */
export class Examiner {
  readonly measures: ScanMeasures[] = []
  readonly identifications: Identification[] = []
  readonly #leaves = new Map<string, Measured[]>()

  /** What a leaf measured on a scan; undefined where it has not been examined. */
  leaf(key: string, scan: number): Measured | undefined {
    return this.#leaves.get(key)?.[scan]
  }

  /** Forgets which minerals were found, because the references have changed. */
  forgetMinerals(): void {
    this.identifications.length = 0
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
    await Promise.all(
      tiles.map(async (tile) => {
        await this.#run(pool, store, tile, signal)
        done += tile.rows.length
        progress(done, total)
      }),
    )
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
      const lacks = (list: ArrayLike<unknown>) =>
        rows.some((row) => list[block.scans[row]] === undefined)
      const tile: Tile = {
        block,
        rows,
        check: lacks(this.measures),
        identify: lacks(this.identifications),
        leaves: leaves.filter(({ key }) => lacks(this.#leaves.get(key) ?? [])),
      }
      if (tile.check || tile.identify || tile.leaves.length > 0) tiles.push(tile)
    }
    return tiles
  }

  async #run(pool: Pool, store: ScanStore, tile: Tile, signal: AbortSignal): Promise<void> {
    const { block, rows, check, identify, leaves } = tile
    const wavelengths = store.axes[block.axis]
    const channels = wavelengths.length
    const values = new Float32Array(rows.length * channels)
    rows.forEach((row, i) =>
      values.set(block.values.subarray(row * channels, (row + 1) * channels), i * channels),
    )
    const found = await pool.run(
      'examine',
      { wavelengths, values, count: rows.length, check, identify, leaves },
      { signal, transfer: [values.buffer] },
    )
    rows.forEach((row, i) => {
      const scan = block.scans[row]
      if (check) this.measures[scan] = found.measures[i]
      if (identify) this.identifications[scan] = found.identifications[i]
      leaves.forEach(({ key }, leaf) => {
        const list = this.#leaves.get(key)
        if (list) list[scan] = found.leaves[i][leaf]
      })
    })
  }
}
