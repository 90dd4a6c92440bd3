/** Found places to stations, and what each scan is told. */
import type { WorkingCrs } from './crs'
import type { Found, HandPlace, NotFound } from './find-place'
import type { Header, ScanHead } from './header'
import { groupingReport, type GroupingReport } from './grouped'
import type { Grouping } from './grouping'
import { looseUnits, secondsOf, type LooseScan } from './loose-units'
import type { RowAt } from './sample-rows'
import type { PlacedScan, Position, Support } from './station'
import { StationBuilder, toWorking, type MadeStation } from './stations'

/** A row with a place that no scan has taken up. */
export interface SpareRow {
  readonly at: RowAt
  readonly found: Found
}

/** All that stations are made of. */
export interface Gathering {
  readonly scans: readonly ScanHead[]
  readonly headers: readonly Header[]
  readonly found: readonly (Found | NotFound)[]
  readonly hands: ReadonlyMap<number, HandPlace>
  readonly spare: readonly SpareRow[]
  readonly crs: WorkingCrs
  readonly grouping: Grouping
}

export interface Gathered {
  readonly made: readonly MadeStation[]
  readonly scans: readonly PlacedScan[]
  readonly grouping: GroupingReport
}

/** A scan whose place is in the working system. */
interface Here {
  readonly scan: number
  readonly place: Found
  readonly position: Position
}

/**
 * Gathers scans into stations. Scans that a person put to a station by its name go last, for
 * the station may be one that the other scans make. The files' order makes no difference.
 */
export function gather(input: Gathering): Gathered {
  const { scans, crs, grouping } = input
  const builder = new StationBuilder(crs, grouping)
  const order = inFileOrder(scans)
  const reasons: (string | null)[] = scans.map(() => null)
  const isLate = (scan: number) => isPutByName(input.hands.get(scan))
  const addFixed = ({ scan, place, position }: Here) => {
    const { name, file } = scans[scan]
    builder.addFixed(scan, name, place, position, supportAt(input, scan, place), file)
  }
  const loose: LooseScan[] = []
  for (const scan of order) {
    const here = isLate(scan) ? null : hereOf(input, scan, reasons)
    if (here && !here.place.near) addFixed(here)
    const [head, header, found] = [scans[scan], input.headers[scan], input.found[scan]]
    if (!here || here.place.near) {
      const seconds = secondsOf(header, found)
      loose.push({ scan, head, header, found, position: here?.position ?? null, seconds })
    }
  }
  const { units, untimed } = looseUnits(loose, grouping, crs.metresPerUnit)
  for (const unit of units) {
    const [{ scan, found }] = unit.members
    builder.addUnit(unit, supportAt(input, scan, found))
  }
  addSpare(input, builder)
  const late = order.filter(isLate)
  const joined = builder.joinByName(
    late.map((scan) => ({ scan, station: input.hands.get(scan)?.station ?? '' })),
  )
  for (const scan of late) {
    const here = joined.has(scan) ? null : hereOf(input, scan, reasons)
    if (here) addFixed(here)
  }
  const made = builder.finish()
  return {
    made,
    scans: tell(input, made, reasons, joined),
    grouping: groupingReport(made, grouping, untimed, crs.metresPerUnit),
  }
}

/** Scans by their files' paths, and in each as they stand there. */
function inFileOrder(scans: readonly ScanHead[]): number[] {
  const order = scans.map((_, scan) => scan)
  return order.sort((a, b) => {
    const [p, q] = [scans[a].file, scans[b].file]
    return p < q ? -1 : p > q ? 1 : a - b
  })
}

function isPutByName(hand: HandPlace | undefined): boolean {
  return hand?.station !== undefined && hand.place === undefined
}

/** A scan's place in the working system; null where it has none there, for which the reason is kept. */
function hereOf({ found, crs }: Gathering, scan: number, reasons: (string | null)[]): Here | null {
  const place = found[scan]
  if ('unplaced' in place) {
    reasons[scan] = place.unplaced
    return null
  }
  const position = toWorking(place.spot, crs)
  if (position === null) reasons[scan] = apartWords(place, crs)
  return position && { scan, place, position }
}

function supportAt({ headers, hands }: Gathering, scan: number, place: Found): Support {
  return hands.get(scan)?.support ?? supportOf(place, headers[scan].support)
}

function addSpare({ spare, crs }: Gathering, builder: StationBuilder): void {
  for (const { at, found } of spare) {
    const position = toWorking(found.spot, crs)
    if (position === null) continue
    const source = { file: at.table.file, line: at.row.line }
    builder.addRow(found, position, supportOf(found, null), source)
  }
}

function tell(
  { scans, headers, found, hands }: Gathering,
  made: readonly MadeStation[],
  reasons: readonly (string | null)[],
  joined: ReadonlySet<number>,
): PlacedScan[] {
  const stationOf = new Int32Array(scans.length).fill(-1)
  made.forEach(({ station }, index) => {
    for (const scan of station.scans) stationOf[scan] = index
  })
  return scans.map((_, i): PlacedScan => {
    const place = found[i]
    const row = place.rows.find((at) => at.row.target !== null)
    const target = hands.get(i)?.target ?? headers[i].target ?? row?.row.target ?? 'matrix'
    if (stationOf[i] < 0) return { station: null, target, unplaced: reasons[i] ?? 'not placed' }
    const how = joined.has(i)
      ? 'put to the station by hand'
      : 'how' in place
        ? place.how
        : undefined
    return { station: stationOf[i], target, unplaced: null, how }
  })
}

function supportOf(place: Found, own: Support | null): Support {
  const told = own ?? place.rows.find((at) => at.row.support !== null)?.row.support
  return told ?? (place.hole === null ? 'outcrop' : 'core')
}

function apartWords(place: Found, crs: WorkingCrs): string {
  return `its place is in ${place.spot.crs.name} (${place.how}), which nothing ties to ${crs.name}: choose another working system or state where the grid lies`
}
