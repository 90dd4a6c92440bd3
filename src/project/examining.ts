/** Has scans examined in workers, and remembers what was found by the scan's number. */
import type { ScanMeasures } from '../check/measure-scan'
import type { SharedAtJoins } from '../check/shared-steps'
import type { SpectralLeaf } from '../indices/leaves'
import type { Measured } from '../indices/rule'
import type { PackedExamination } from '../jobs/examine'
import {
  copyRow,
  emptyColumn,
  lengthened,
  measuredIn,
  type MeasuredColumn,
} from '../jobs/measured-column'
import { unpackRecord, type PackedRecords } from '../jobs/packed-records'
import type { Pool } from '../jobs/pool'
import type { UserRanges } from '../minerals/match'
import type { Identification } from '../minerals/reference'
import type { ScanBlock, ScanStore } from '../spectra/scan-store'
import { NO_STEPS_SHARED, type StepsShared } from './step-sharing'

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
  /** What other scans say of the steps of such rows. */
  readonly shared: ReadonlyMap<number, SharedAtJoins>
  /** Ranges of single rows, counted among `rows`. */
  readonly ranges: ReadonlyMap<number, UserRanges>
  readonly check: boolean
  readonly identify: boolean
  readonly leaves: readonly SpectralLeaf[]
}

/** Where a scan's measures stand among those of its portion. */
interface MeasuresAt {
  readonly portion: PackedRecords<ScanMeasures>
  readonly record: number
}

/** A lane's values, filled again for each portion. */
interface Lane {
  values: Float32Array<ArrayBuffer>
}

/**
 * Findings by scan number; holes where a scan has not been examined. Of ten thousand scans there are
 * over a million numbers, so measures stay packed and leaves stand in columns.
 */
export class Examiner {
  readonly #measures: (MeasuresAt | undefined)[] = []
  readonly #identifications: (Identification | undefined)[] = []
  readonly #leaves = new Map<string, MeasuredColumn>()
  /** Names and doubts that identifications share: they come as a copy with each portion. */
  readonly #texts = new Map<string, string>()
  /** Scans that were examined with their detector steps corrected, and how. */
  #corrected: StepsShared = NO_STEPS_SHARED
  /** Ranges of single scans. */
  #ranges: ReadonlyMap<number, UserRanges> = new Map()

  /**
   * What was measured on a scan for the check, unpacked each time: keep no more of it than is
   * wanted.
   *
   * @throws Error where it has not been examined
   */
  measures(scan: number): ScanMeasures {
    const found = this.#measures[scan]
    if (!found) throw new Error(`scan ${scan} has not been examined`)
    return unpackRecord(found.portion, found.record)
  }

  /** What was found in a scan; undefined where it has not been examined. */
  identification(scan: number): Identification | undefined {
    return this.#identifications[scan]
  }

  /** What a leaf measured on a scan; undefined where it has not been examined. */
  leaf(key: string, scan: number): Measured | undefined {
    const column = this.#leaves.get(key)
    return column && measuredIn(column, scan)
  }

  /** Forgets which minerals were found, because the references have changed. */
  forgetMinerals(): void {
    this.#identifications.length = 0
  }

  /**
   * Says whose detector steps are corrected, and what other scans say of them; forgets what was
   * found where that has changed.
   */
  correct(scans: StepsShared): void {
    const before = this.#corrected
    if (scans === before) return
    for (const scan of new Set([...before.keys(), ...scans.keys()])) {
      if (JSON.stringify(before.get(scan)) === JSON.stringify(scans.get(scan))) continue
      this.#measures[scan] = undefined
      this.#identifications[scan] = undefined
      for (const { states } of this.#leaves.values()) if (scan < states.length) states[scan] = 0
    }
    this.#corrected = scans
  }

  /** Says which scans minerals are compared with in ranges of their own; forgets what has changed. */
  compareIn(ranges: ReadonlyMap<number, UserRanges>): void {
    const before = this.#ranges
    const text = (own: UserRanges | undefined) => JSON.stringify([...(own ?? [])])
    for (const scan of new Set([...before.keys(), ...ranges.keys()])) {
      if (text(before.get(scan)) !== text(ranges.get(scan))) this.#identifications[scan] = undefined
    }
    this.#ranges = ranges
  }

  /** What has not been examined yet, in portions for the workers. */
  missing(
    store: ScanStore,
    active: (scan: number) => boolean,
    leaves: readonly SpectralLeaf[],
  ): Tile[] {
    for (const { key } of leaves) {
      const column = this.#leaves.get(key)
      this.#leaves.set(key, column ? lengthened(column, store.count) : emptyColumn(store.count))
    }
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
      const own: Lane = { values: new Float32Array(0) }
      while (next < tiles.length) {
        const tile = tiles[next++]
        await this.#run(pool, store, tile, own, signal)
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
      active.filter((row) => !list[block.scans[row]])
    const unchecked = without(this.#measures)
    const unidentified = without(this.#identifications)
    const unmeasured = leaves.map(({ key }) => without(this.#leaves.get(key)?.states))
    const lacking = new Set([...unchecked, ...unidentified, ...unmeasured.flat()])
    const rows = active.filter((row) => lacking.has(row))
    const ofRows = <T>(byScan: ReadonlyMap<number, T>) =>
      new Map(
        rows.flatMap((row, i) => {
          const own = byScan.get(block.scans[row])
          return own ? [[i, own] as const] : []
        }),
      )
    const shared = ofRows(this.#corrected)
    return {
      block,
      rows,
      corrected: [...shared.keys()],
      shared,
      ranges: ofRows(this.#ranges),
      check: unchecked.length > 0,
      identify: unidentified.length > 0,
      leaves: leaves.filter((_, i) => unmeasured[i].length > 0),
    }
  }

  async #run(
    pool: Pool,
    store: ScanStore,
    tile: Tile,
    lane: Lane,
    signal: AbortSignal,
  ): Promise<void> {
    const { block, rows, corrected, shared, ranges, check, identify, leaves } = tile
    const wavelengths = store.axes[block.axis]
    const channels = wavelengths.length
    const size = rows.length * channels
    const values = lane.values.length >= size ? lane.values : new Float32Array(size)
    rows.forEach((row, i) =>
      values.set(block.values.subarray(row * channels, (row + 1) * channels), i * channels),
    )
    const found = await pool.run(
      'examine',
      {
        wavelengths,
        values,
        count: rows.length,
        corrected,
        shared,
        ranges,
        check,
        identify,
        leaves,
      },
      { signal, transfer: [values.buffer] },
    )
    lane.values = found.values
    this.#keep(tile, found)
  }

  #keep({ block, rows, check, identify, leaves }: Tile, found: PackedExamination): void {
    const columns = leaves.map(({ key }) => this.#leaves.get(key))
    const identifications = this.#sharingTexts(found.identifications)
    rows.forEach((row, i) => {
      const scan = block.scans[row]
      if (check) this.#measures[scan] = { portion: found.measures, record: i }
      if (identify && i < identifications.build.length)
        this.#identifications[scan] = unpackRecord(identifications, i)
      columns.forEach((column, leaf) => {
        if (column) copyRow(column, scan, found.leaves, i * leaves.length + leaf)
      })
    })
  }

  #sharingTexts<T>(packed: PackedRecords<T>): PackedRecords<T> {
    const texts = packed.texts.map((text) => {
      const known = this.#texts.get(text)
      if (known === undefined) this.#texts.set(text, text)
      return known ?? text
    })
    return { ...packed, texts }
  }
}
