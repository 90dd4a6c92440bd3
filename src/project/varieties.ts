/**
 * Varieties of the minerals that were named: the ready indices that speak of each, by their own
 * formulas and conditions, whether or not the recipe holds them.
 */
import { scanValues } from '../indices/context'
import { compileIndices, evaluateIndices, type IndexSet } from '../indices/index-set'
import type { SpectralLeaf } from '../indices/leaves'
import { presetRule, type IndexPreset } from '../indices/presets'
import type { Measured } from '../indices/rule'
import { VARIETIES, varietiesOf } from '../indices/varieties'
import type { Pool } from '../jobs/pool'
import type { Identification } from '../minerals/reference'
import { mapPiecewise } from '../spectra/piecework'
import type { ScanStore } from '../spectra/scan-store'
import type { Active } from './active-scans'
import type { Activities } from './activity'
import type { Examiner, Tile } from './examining'
import { Memo } from './memo'
import type { Names } from './values'

/** Presets' values on a scan, by the preset's id; missing with its reason where it has none. */
export type ScanVarieties = ReadonlyMap<string, Measured>

const NONE: ScanVarieties = new Map()

/** What is asked of the scans that hold a group's minerals. */
interface OfGroup {
  readonly group: string
  readonly indices: readonly { readonly preset: IndexPreset; readonly set: IndexSet }[]
  readonly leaves: readonly SpectralLeaf[]
}

/** What the varieties are worked out from. */
export interface VarietyInput {
  readonly store: ScanStore
  readonly active: Active
  readonly identifications: readonly (Identification | null)[]
  readonly names: Names
}

/** Works out the varieties of minerals; remembers what it measured of each scan. */
export class Varieties {
  readonly #compiled = new Memo<readonly OfGroup[]>()
  readonly #values = new Memo<readonly ScanVarieties[]>()
  #last: { readonly active: Active; readonly values: readonly ScanVarieties[] } | null = null

  constructor(private readonly examiner: Examiner) {}

  /**
   * The varieties of every active scan. What they read off spectra and is not known yet is
   * measured in workers, on the scans that hold the mineral alone.
   *
   * @throws an AbortError when stopped
   */
  async run(
    pool: Pool,
    { store, active, identifications, names }: VarietyInput,
    activities: Activities,
    controller: AbortController,
  ): Promise<readonly ScanVarieties[]> {
    const compiled = this.#compiled.get([names], () => compiledFor(names))
    const tiles = compiled.flatMap(({ group, leaves }): Tile[] => {
      const holders = active.numbers.filter((_, scan) => holds(identifications[scan], group))
      const asked = new Set(holders)
      return asked.size === 0 ? [] : this.examiner.missing(store, (scan) => asked.has(scan), leaves)
    })
    if (tiles.length > 0) {
      await activities.run(
        'Measuring varieties of minerals',
        tiles.reduce((sum, { rows }) => sum + rows.length, 0),
        (signal, progress) => this.examiner.examine(pool, store, tiles, signal, progress),
        controller,
      )
    }
    const values = await this.#values.getPaced(
      [active, identifications, compiled],
      () =>
        mapPiecewise(identifications, (found, scan) =>
          this.#valuesOf(found, active.numbers[scan], compiled),
        ),
      controller.signal,
    )
    this.#last = { active, values }
    return values
  }

  /** What was worked out last for these scans, until {@link run} brings it up to date. */
  known(active: Active): readonly ScanVarieties[] {
    return this.#last?.active === active ? this.#last.values : []
  }

  #valuesOf(
    found: Identification | null,
    number: number,
    compiled: readonly OfGroup[],
  ): ScanVarieties {
    const speaking = compiled.filter(({ group }) => holds(found, group))
    if (speaking.length === 0) return NONE
    const values = new Map<string, Measured>()
    const scan = scanValues({ get: (key) => this.examiner.leaf(key, number) }, found, {})
    for (const { indices } of speaking) {
      for (const { preset, set } of indices) {
        const value = evaluateIndices(set, scan).get(preset.name)
        if (value) values.set(preset.id, value)
      }
    }
    return values
  }
}

function holds(found: Identification | null, group: string): boolean {
  return found?.minerals.some((named) => named.group === group) ?? false
}

function compiledFor(names: Names): OfGroup[] {
  const groups = new Set(VARIETIES.flatMap(({ groups }) => groups))
  return [...groups].map((group) => {
    const indices = varietiesOf(group).map(({ preset }) => {
      return { preset, set: compileIndices([presetRule(preset)], names) }
    })
    const leaves = new Map(indices.flatMap(({ set }) => set.leaves).map((leaf) => [leaf.key, leaf]))
    return { group, indices, leaves: [...leaves.values()] }
  })
}
