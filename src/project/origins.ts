/** Origins of minerals, a mineral a station, as people stated them. */
import { originCell } from '../indices/cells'
import type { Origin } from '../minerals/origin'
import type { Placement } from '../places/place-scans'
import type { Cell } from '../places/station'
import { scanKey, type Decisions } from './decisions'
import type { ScanHead } from './project'

/** Origin by mineral; a mineral that nobody spoke of is unknown and not in it. */
export type Origins = ReadonlyMap<string, Origin>

const NOBODY_SPOKE: Origins = new Map()

/**
 * The origins at each station. A decision names a scan and speaks of the whole station that the
 * scan belongs to; the last one about a mineral counts.
 */
export function stationOrigins(
  placement: Placement,
  heads: readonly ScanHead[],
  decisions: Decisions,
): Origins[] {
  const origins: Origins[] = placement.stations.map(() => NOBODY_SPOKE)
  const about = decisions.list.flatMap((decision) =>
    decision.about.kind === 'origin' ? [{ ...decision, about: decision.about }] : [],
  )
  if (about.length === 0) return origins
  const stations = new Map(
    heads.map(({ file, name }, scan) => [scanKey(file, name), placement.scans[scan].station]),
  )
  for (const { file, scan, about: said } of about) {
    const station = stations.get(scanKey(file, scan))
    if (station === undefined || station === null) continue
    origins[station] = new Map(origins[station]).set(said.mineral, said.origin)
  }
  return origins
}

/** A station's cells with the origins among them, where formulas find them. */
export function withOrigins(
  columns: Readonly<Record<string, Cell>>,
  origins: Origins,
): Readonly<Record<string, Cell>> {
  if (origins.size === 0) return columns
  const cells = { ...columns }
  for (const [mineral, origin] of origins) cells[originCell(mineral)] = origin
  return cells
}
