/** From what was examined to index values and classes, of scans and of stations. */
import { classify, compileClasses, type ClassSet } from '../classes/classify'
import { UNCLASSIFIED } from '../classes/rule'
import type { Verdict } from '../check/verdict'
import { scanValues, type ScanValues } from '../indices/context'
import { evaluateIndices, type IndexSet } from '../indices/index-set'
import { spectralLeaves, type SpectralLeaf } from '../indices/leaves'
import type { Measured } from '../indices/rule'
import {
  averageOf,
  countsForStation,
  stationContext,
  stationIndices,
  stationMean,
  type Average,
} from '../indices/station-values'
import type { ValueContext } from '../indices/context'
import type { Identification } from '../minerals/reference'
import { knownMinerals, type References } from '../jobs/references'
import { GROUPS } from '../minerals/groups'
import type { Placement } from '../places/place-scans'
import type { Cell } from '../places/station'
import type { Table } from '../readers/input'
import { mapPiecewise, type Piecework } from '../spectra/piecework'
import { withOrigins, type Origins } from './origins'
import type { Recipe } from './recipe'
import { RECORD_COLUMNS, seenColumn, SILENT_MINERALS } from './record-parts'
import { SCAN_COLUMNS } from './scan-columns'
import type { Cells, Written } from './station-cells'
import type { FormulaTrouble, IndexColumn, MeanShare, StationMinerals } from './results'

/** Names that formulas may speak of. */
export interface Names {
  readonly minerals: readonly string[]
  readonly groups: readonly string[]
  /** null where no table was read: then any column may be asked for, and none has a cell. */
  readonly columns: ReadonlySet<string> | null
}

/**
 * The names that are known: fields and records that people wrote; minerals of the references; groups of the references and of the
 * catalogue, so that a smaller set breaks no rule; columns of the stations, and headings of the
 * tables that still wait for their coordinate system.
 */
export function knownNames(
  references: References,
  placement: Placement,
  tables: readonly Table[],
  written?: Written,
): Names {
  const known = knownMinerals(references)
  const columns = new Set<string>()
  const waiting = new Set(placement.questions.map(({ file }) => file))
  for (const { file, header } of tables) {
    if (waiting.has(file)) for (const heading of header) columns.add(heading)
  }
  for (const station of placement.stations) {
    for (const column of Object.keys(station.columns)) columns.add(column)
  }
  for (const name of written?.own ?? []) columns.add(name)
  for (const cells of written?.stations ?? []) {
    for (const name of Object.keys(cells)) if (!SCAN_COLUMNS.includes(name)) columns.add(name)
  }
  const anyKnown = tables.length > 0 || columns.size > 0
  // A rule on the record or the instrument may be written before any of it is there.
  const always = [...RECORD_COLUMNS, ...SILENT_MINERALS.map(seenColumn), ...SCAN_COLUMNS]
  for (const name of always) columns.add(name)
  return {
    minerals: known.map(({ mineral }) => mineral),
    groups: [...new Set([...known.map(({ group }) => group), ...GROUPS.keys()])],
    columns: anyKnown ? columns : null,
  }
}

/** The recipe's formulas, compiled. */
export interface Compiled {
  readonly indices: IndexSet
  readonly classes: ClassSet
  readonly leaves: readonly SpectralLeaf[]
  readonly troubles: readonly FormulaTrouble[]
}

/** Compiles classes on top of compiled indices, and gathers what is wrong with either. */
export function compileAll(recipe: Recipe, indices: IndexSet, known: Names): Compiled {
  const classes = compileClasses(recipe.classes, {
    ...known,
    indices: indices.indices.map(({ name }) => name),
  })
  const troubles: FormulaTrouble[] = [
    ...indices.errors.map(({ index, part, error }) => ({ name: index, part, ...place(error) })),
    ...classes.errors.map((wrong) => ({
      name: wrong.class,
      part: wrong.part,
      ...place(wrong.error),
    })),
  ]
  return { indices, classes, leaves: spectralLeaves(indices, classes), troubles }
}

function place(error: { message: string; from: number; to: number; hint?: string }) {
  const message = error.hint ? `${error.message} ${error.hint}` : error.message
  return { message, from: error.from, to: error.to }
}

/** What the values are worked out from; lists have an entry an active scan. */
export interface ValueInput {
  readonly placement: Placement
  readonly verdicts: readonly Verdict[]
  readonly identifications: readonly (Identification | null)[]
  /** An entry a station. */
  readonly origins: readonly Origins[]
  /** Cells that people wrote; they stand over a table's of the same name. */
  readonly written?: Written
  readonly leaf: (key: string, scan: number) => Measured | undefined
}

/** Everything that indices give, kept so that a class threshold can move without redoing it. */
export interface Values {
  readonly columns: readonly IndexColumn[]
  readonly scanContexts: readonly ValueContext[]
  readonly stationContexts: readonly ValueContext[]
  readonly stationMinerals: readonly StationMinerals[]
  /** Whether a station has a sound scan. */
  readonly measured: readonly boolean[]
}

/** Index values of every scan and every station, in pieces. */
export function* evaluatePiecewise(
  input: ValueInput,
  compiled: Compiled,
  recipe: Recipe,
): Piecework<Values> {
  const { placement, verdicts, identifications } = input
  const { targets, average = 'mean' } = recipe
  const values: ScanValues[] = []
  const ofScans = columnsFor(compiled.indices)
  const cells = yield* mapPiecewise(placement.stations, ({ columns }, station) =>
    withOrigins(joined(columns, input.written?.stations[station]), input.origins[station]),
  )
  yield* mapPiecewise(placement.scans, ({ station }, scan) => {
    const ofStation = station === null ? NO_COLUMNS : cells[station]
    const columns = joined(ofStation, input.written?.scans[scan])
    const leaves = { get: (key: string) => input.leaf(key, scan) }
    const own = scanValues(leaves, identifications[scan], columns)
    values.push(own)
    for (const [name, value] of evaluateIndices(compiled.indices, own))
      ofScans.get(name)?.push(value)
  })
  const counted = yield* mapPiecewise(placement.stations, ({ scans }) =>
    scans.filter((scan) => countsForStation(verdicts[scan], placement.scans[scan].target, targets)),
  )
  const perStation = yield* mapPiecewise(cells, (columns, station) =>
    stationIndices(
      compiled.indices,
      counted[station].map((scan) => ({ get: (name) => ofScans.get(name)?.[scan] })),
      columns,
      average,
    ),
  )
  const stationMinerals = yield* mapPiecewise(counted, (scans) =>
    meanShares(
      scans.map((scan) => identifications[scan]),
      average,
    ),
  )
  const stationContexts = yield* mapPiecewise(cells, (columns, station) =>
    stationContext(
      counted[station].map((scan) => values[scan]),
      perStation[station],
      columns,
      average,
    ),
  )
  return {
    columns: columnsOf(recipe, compiled, ofScans, perStation),
    scanContexts: values.map((own, scan) => new WithIndices(own, scan, ofScans)),
    stationContexts,
    stationMinerals,
    measured: counted.map((scans) => scans.length > 0),
  }
}

/** The classes of scans and stations, in pieces. */
export function* classifyPiecewise(
  compiled: Compiled,
  values: Values,
): Piecework<{ scans: string[]; stations: string[] }> {
  if (compiled.classes.classes.length === 0) {
    return {
      scans: values.scanContexts.map(() => UNCLASSIFIED),
      stations: values.stationContexts.map(() => UNCLASSIFIED),
    }
  }
  const classified = (context: ValueContext) => classify(compiled.classes, context)
  return {
    scans: yield* mapPiecewise(values.scanContexts, classified),
    stations: yield* mapPiecewise(values.stationContexts, classified),
  }
}

/** Cells with others over them, but for those that are empty; the same object where there are none. */
function joined(cells: Cells, over: Cells | undefined): Cells {
  const filled = Object.entries(over ?? {}).filter(([, cell]) => cell !== null)
  return filled.length === 0 ? cells : { ...cells, ...Object.fromEntries(filled) }
}

const NO_COLUMNS: Readonly<Record<string, Cell>> = {}
const NO_SCAN: Measured = { value: null, error: null, missing: 'no scan' }

/** Each index's values, a scan after the other. */
type IndicesOfScans = ReadonlyMap<string, Measured[]>

function columnsFor({ indices }: IndexSet): IndicesOfScans {
  return new Map(indices.map(({ name }) => [name, []]))
}

/** A scan's values with its indices, which stand in columns. */
class WithIndices implements ValueContext {
  constructor(
    private readonly own: ScanValues,
    private readonly scan: number,
    private readonly indices: IndicesOfScans,
  ) {}

  leaf(key: string): Measured {
    return this.own.leaf(key)
  }

  share(mineral: string): Measured {
    return this.own.share(mineral)
  }

  group(name: string): Measured {
    return this.own.group(name)
  }

  fit(mineral: string): Measured {
    return this.own.fit(mineral)
  }

  column(name: string): Cell | undefined {
    return this.own.column(name)
  }

  index(name: string): Measured {
    return this.indices.get(name)?.[this.scan] ?? NO_SCAN
  }
}

function columnsOf(
  recipe: Recipe,
  compiled: Compiled,
  scans: IndicesOfScans,
  stations: readonly ReadonlyMap<string, Measured>[],
): IndexColumn[] {
  const working = new Map(compiled.indices.indices.map(({ name, needsScan }) => [name, needsScan]))
  return recipe.indices
    .filter(({ name }) => working.has(name.normalize('NFC')))
    .map((rule) => {
      const name = rule.name.normalize('NFC')
      return {
        rule,
        needsScan: working.get(name) ?? true,
        scans: scans.get(name) ?? [],
        stations: stations.map((values) => values.get(name) ?? NO_SCAN),
      }
    })
}

/** Mean shares over scans with their errors, a mineral that a scan lacks counting as 0. */
function meanShares(scans: readonly (Identification | null)[], average: Average): StationMinerals {
  const identified = scans.filter((found) => found !== null)
  const groups = new Map<string, number[]>()
  const minerals = new Map<string, number[]>()
  const add = (shares: Map<string, number[]>, name: string, scan: number, share: number) => {
    // A scan in which it was not found has none of it.
    const list = shares.get(name) ?? identified.map(() => 0)
    list[scan] += share
    shares.set(name, list)
  }
  identified.forEach(({ minerals: found }, scan) => {
    for (const { mineral, group, share } of found) {
      add(groups, group, scan, share)
      add(minerals, mineral, scan, share)
    }
  })
  const byShare = (shares: Map<string, number[]>) =>
    [...shares]
      .map(([name, list]): MeanShare => {
        const scattered = list.map((value) => ({ value, error: null }))
        return [name, averageOf(list, average), stationMean(scattered, average).error]
      })
      .filter(([, share]) => share > 0)
      .sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))
  return { groups: byShare(groups), minerals: byShare(minerals), sound: scans.length }
}
