/** Found places to stations, and what each scan is told. */
import type { WorkingCrs } from './crs'
import type { Found, HandPlace, NotFound } from './find-place'
import type { Header, ScanHead } from './header'
import type { RowAt } from './sample-rows'
import type { PlacedScan, Support } from './station'
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
}

export interface Gathered {
  readonly made: readonly MadeStation[]
  readonly scans: readonly PlacedScan[]
}

/**
 * Gathers scans into stations. Scans that a person put to a station by its name go last, for
 * the station may be one that the other scans make.
 */
export function gather(input: Gathering): Gathered {
  const { scans, found, hands, crs } = input
  const builder = new StationBuilder(crs)
  const reasons: (string | null)[] = scans.map(() => null)
  const add = (scan: number) => {
    const place = found[scan]
    if ('unplaced' in place) return place.unplaced
    const position = toWorking(place.spot, crs)
    if (position === null) return apartWords(place, crs)
    const support = hands.get(scan)?.support ?? supportOf(place, input.headers[scan].support)
    const { name, file } = scans[scan]
    builder.addScan(scan, name, place, position, support, { file, line: null })
    return null
  }
  const late: number[] = []
  scans.forEach((_, scan) => {
    const hand = hands.get(scan)
    if (hand?.station !== undefined && hand.place === undefined) late.push(scan)
    else reasons[scan] = add(scan)
  })
  for (const { at, found: place } of input.spare) {
    const position = toWorking(place.spot, crs)
    if (position === null) continue
    const source = { file: at.table.file, line: at.row.line }
    builder.addRow(place, position, supportOf(place, null), source)
  }
  const joined = builder.joinByName(
    late.map((scan) => ({ scan, station: hands.get(scan)?.station ?? '' })),
  )
  for (const scan of late) if (!joined.has(scan)) reasons[scan] = add(scan)
  const made = builder.finish()
  return { made, scans: tell(input, made, reasons, joined) }
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
