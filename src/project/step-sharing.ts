/** What scans of one white reference say together of their detectors' steps. */
import { stepMates, type SteppedScan } from '../check/step-mates'
import { sharedSteps, type SharedAtJoins } from '../check/shared-steps'
import type { StepEstimates } from '../jobs/estimate-steps'
import type { Pool } from '../jobs/pool'
import { stemOf } from '../places/names'
import type { Placement } from '../places/place-scans'
import { folderOf } from '../places/rules'
import { mapPiecewise } from '../spectra/piecework'
import { spectrumOf, type ScanStore } from '../spectra/scan-store'
import type { Activities } from './activity'
import type { Active } from './active-scans'
import type { Decisions } from './decisions'
import { Memo } from './memo'
import { correctedScans } from './spectrum-shown'

/** By the scan's number in the store: what other scans say of each scan whose steps are corrected. */
export type StepsShared = ReadonlyMap<number, SharedAtJoins>

export const NO_STEPS_SHARED: StepsShared = new Map()

/** Scans in one task: short enough to stop within 50 ms. */
const TILE_SCANS = 24
/** Near 1000 and near 1800 nm. */
const JOINS = [0, 1] as const

/** What decides whose steps are shared. */
export interface SharingInput {
  readonly store: ScanStore
  readonly active: Active
  readonly placement: Placement
  readonly decisions: Decisions
}

/** Works out the steps that scans share; remembers what it measured of each scan. */
export class StepSharing {
  /** By the scan's number in the store. */
  readonly #estimates = new Map<number, StepEstimates>()
  readonly #mates = new Memo<ReadonlyMap<number, number[][]>>()
  readonly #shared = new Memo<StepsShared>()
  #corrected: ReadonlySet<number> = new Set()

  /**
   * What others say of each scan whose step correction is switched on. The steps of those others
   * are measured in workers, where they are not known yet.
   *
   * @throws an AbortError when stopped; what was measured until then is kept
   */
  async run(
    pool: Pool,
    { store, active, placement, decisions }: SharingInput,
    activities: Activities,
    controller: AbortController,
  ): Promise<StepsShared> {
    const asked = correctedScans(active, decisions)
    if (asked.size === 0) return NO_STEPS_SHARED
    const isSame =
      asked.size === this.#corrected.size && [...asked].every((scan) => this.#corrected.has(scan))
    if (!isSame) this.#corrected = asked
    const mates = this.#mates.get([active, placement, this.#corrected], () =>
      matesOf(store, active, placement, this.#corrected),
    )
    const wanted = new Set([...mates.values()].flat(2))
    const missing = [...wanted].filter((scan) => !this.#estimates.has(scan)).sort((a, b) => a - b)
    if (missing.length > 0) {
      await activities.run(
        'Comparing detector steps',
        missing.length,
        (signal, progress) => this.#estimate(pool, store, missing, signal, progress),
        controller,
      )
    }
    return this.#shared.getPaced([mates], () => this.#pooled(mates), controller.signal)
  }

  async #estimate(
    pool: Pool,
    store: ScanStore,
    scans: readonly number[],
    signal: AbortSignal,
    progress: (done: number, total: number) => void,
  ): Promise<void> {
    const tiles = tilesOf(store, scans)
    let done = 0
    let next = 0
    const lane = async () => {
      while (next < tiles.length) {
        const { wavelengths, numbers } = tiles[next++]
        const values = new Float32Array(numbers.length * wavelengths.length)
        numbers.forEach((scan, row) =>
          values.set(spectrumOf(store, scan).reflectance, row * wavelengths.length),
        )
        const input = { wavelengths, values, count: numbers.length }
        const found = await pool.run('estimate steps', input, {
          signal,
          transfer: [values.buffer],
        })
        numbers.forEach((scan, row) => this.#estimates.set(scan, found[row]))
        progress((done += numbers.length), scans.length)
      }
    }
    await Promise.all(Array.from({ length: pool.size }, lane))
  }

  *#pooled(mates: ReadonlyMap<number, number[][]>) {
    const shared = yield* mapPiecewise([...mates], ([scan, rocks]) => {
      const told = JOINS.map((join) =>
        sharedSteps(
          rocks.map((rock) => rock.map((mate) => this.#estimates.get(mate)?.[join] ?? [])),
        ),
      )
      return [scan, told] as const
    })
    return new Map(shared)
  }
}

/** For each of the scans those of other rocks that share its steps, by their numbers in the store. */
function matesOf(
  store: ScanStore,
  { heads, numbers }: Active,
  placement: Placement,
  corrected: ReadonlySet<number>,
): ReadonlyMap<number, number[][]> {
  const axes = axesOf(store)
  const scans = heads.map(({ name, file, known }, scan): SteppedScan => {
    const { station } = placement.scans[scan]
    return {
      time: known.time,
      whiteReference: known.whiteReference,
      axis: axes[numbers[scan]],
      folder: folderOf(file),
      rock: station === null ? `named ${stemOf(name)}` : `station ${station}`,
    }
  })
  const asked = heads.flatMap((_, scan) => (corrected.has(numbers[scan]) ? [scan] : []))
  return new Map(
    [...stepMates(scans, asked)].map(([scan, rocks]) => [
      numbers[scan],
      rocks.map((rock) => rock.map((mate) => numbers[mate])),
    ]),
  )
}

/** Each scan's axis, by its number in the store. */
function axesOf({ blocks, count }: ScanStore): Int32Array {
  const axes = new Int32Array(count).fill(-1)
  for (const block of blocks) {
    for (let row = 0; row < block.count; row++) axes[block.scans[row]] = block.axis
  }
  return axes
}

interface EstimateTile {
  readonly wavelengths: Float64Array
  readonly numbers: readonly number[]
}

/** Scans on one axis together, a few at a time. */
function tilesOf(store: ScanStore, scans: readonly number[]): EstimateTile[] {
  const byAxis = new Map<Float64Array, number[]>()
  for (const scan of scans) {
    const { wavelengths } = spectrumOf(store, scan)
    const list = byAxis.get(wavelengths)
    if (list) list.push(scan)
    else byAxis.set(wavelengths, [scan])
  }
  return [...byAxis].flatMap(([wavelengths, list]) =>
    Array.from({ length: Math.ceil(list.length / TILE_SCANS) }, (_, tile) => ({
      wavelengths,
      numbers: list.slice(tile * TILE_SCANS, (tile + 1) * TILE_SCANS),
    })),
  )
}
