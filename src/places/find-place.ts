/**
 * The place of one scan. Sources are trusted in this order: by hand, coordinates in the file's own
 * header, the sample table by name, the drill hole by depth, the GPS track by time.
 */
import type { Track } from '../readers/input'
import { openCrs } from './crs'
import type { HoleBook } from './drilling'
import type { Header, ScanHead } from './header'
import { foldedName, stemOf } from './names'
import { baseName, ruleFor } from './rules'
import type { RowAt, SampleRows } from './sample-rows'
import { COLUMN_WORDS } from './table-columns'
import type { Spot } from './spots'
import type { PlacedBy, PlaceRule, Support, Target } from './station'
import { placeOnTrack, spanOf, TRACK_DEFAULTS, type TrackPlace } from './tracks'

/** A time this far from a track belongs to another day's work, seconds. */
const OTHER_DAY = 12 * 3600

/** What a person set by hand for one scan. */
export interface HandPlace {
  /** Index into the scans. */
  readonly scan: number
  /** Degrees, WGS 84. */
  readonly place?: { readonly longitude: number; readonly latitude: number }
  /** The station that it belongs to. */
  readonly station?: string
  readonly target?: Target
  readonly support?: Support
}

/** All that scans can be placed by. */
export interface Sources {
  readonly rows: SampleRows
  readonly holes: HoleBook
  readonly tracks: readonly Track[]
  readonly rules: readonly PlaceRule[]
  /** Tables that wait for an answer about their coordinate system. */
  readonly waiting: ReadonlySet<string>
}

/** A scan's place before stations are made. */
export interface Found {
  readonly spot: Spot
  readonly placedBy: PlacedBy
  readonly how: string
  /** What scans of one station share; with `near`, only where they also lie together. */
  readonly key: string
  readonly near: boolean
  /** The sample that the scan belongs to by its header or a table, whatever a person said; else null. */
  readonly sample: string | null
  /** The reading of its time by which it lies on a track, seconds since 1970 by the scans' clock. */
  readonly seconds?: number
  /** The station's name, where more than the scan's own name tells it; else null. */
  readonly name: string | null
  readonly hole: string | null
  readonly from: number | null
  readonly to: number | null
  /** Rows that give the station its columns. */
  readonly rows: readonly RowAt[]
}

export interface NotFound {
  readonly unplaced: string
  /** As a found scan's. */
  readonly sample: string | null
  readonly seconds?: undefined
  /** Rows of that name, which give the target all the same. */
  readonly rows: readonly RowAt[]
}

/** Seeks a scan's place. */
export function findPlace(
  scan: ScanHead,
  header: Header,
  hand: HandPlace | null,
  sources: Sources,
): Found | NotFound {
  // A scan down a hole shares its stem with the hole, which may stand in the table as a sample.
  const stripped = header.hole === null || header.depth === null
  const match =
    (header.sample === null ? null : sources.rows.find(header.sample, stripped)) ??
    sources.rows.find(scan.name, stripped)
  const rows = match?.rows ?? []
  const sample = rows[0]?.row.name ?? header.sample
  const byHand = hand?.station === undefined || hand.place ? null : rowByHand(hand.station, sources)
  if (byHand !== null) return { ...byHand, sample }
  const base = { hole: header.hole, from: header.from, to: header.to, rows, sample }
  const loose = looseBase(scan, header, base, hand)
  if (hand?.place) {
    const spot = geographicSpot(hand.place.longitude, hand.place.latitude, null, null)
    return { ...loose, spot, placedBy: 'hand', how: 'by hand' }
  }
  if (header.spot !== null) {
    return { ...loose, spot: header.spot, placedBy: 'file', how: 'coordinates in its own header' }
  }
  const reasons = header.trouble === null ? [] : [header.trouble]
  const byRow = rowPlace(rows, match?.how ?? '', header.depth, sources, reasons)
  if (byRow) return grouped({ ...byRow, rows, sample }, hand)
  if (match === null) addReason(reasons, sources.rows.missing(header.sample ?? scan.name))
  const byHole = holePlace(header, base, sources, reasons)
  if (byHole) return grouped(byHole, hand)
  const onTrack = trackPlace(header, sources, reasons)
  if (onTrack) return { ...loose, ...onTrack, placedBy: 'track' }
  return { unplaced: unplacedWords(reasons), rows, sample }
}

/** What joins a scan that no row and no hole places with others: its sample's name, or its own stem. */
function looseBase<T extends Pick<Found, 'sample'>>(
  scan: ScanHead,
  { hole, depth }: Header,
  base: T,
  hand: HandPlace | null,
): T & Pick<Found, 'key' | 'near' | 'name'> {
  const station = hand?.station
  const name = station ?? base.sample
  // Whoever names a station and no place means one station, however far its fixes lie apart.
  if (station !== undefined && !hand?.place) return { ...base, ...byName(station) }
  const group = foldedName(name ?? stemOf(scan.name))
  const along = hole === null ? '' : `\u0000${foldedName(hole)}\u0000${depth ?? ''}`
  return { ...base, key: `near\u0000${group}${along}`, near: true, name }
}

/** A place whose station a person named: scans of that name stand together. */
function grouped(found: Found, hand: HandPlace | null): Found {
  if (hand?.station === undefined) return found
  return { ...found, ...byName(hand.station) }
}

function byName(station: string): Pick<Found, 'key' | 'near' | 'name'> {
  return { key: `hand\u0000${foldedName(station)}`, near: false, name: station }
}

/** The row that a person put a scan to by its name; null where no row with a place has that name. */
function rowByHand(station: string, sources: Sources): Omit<Found, 'sample'> | null {
  const match = sources.rows.find(station, false)
  const found = match && rowPlace(match.rows, '', null, sources, [])
  return match && found ? { ...found, rows: match.rows, how: `${found.how}, by hand` } : null
}

function addReason(reasons: string[], reason: string | null): void {
  if (reason !== null) reasons.push(reason)
}

function unplacedWords(reasons: readonly string[]): string {
  if (reasons.length > 0) return reasons.join('; ')
  return 'nothing gives it a place: its header has no coordinates, and no sample table, drill hole or track speaks of it; add one, or place it by hand'
}

/** A position on WGS 84 as a spot; the error in metres. */
function geographicSpot(
  longitude: number,
  latitude: number,
  elevation: number | null,
  error: number | null,
): Spot {
  return { crs: openCrs('EPSG:4326'), x: longitude, y: latitude, elevation, error }
}

/** The place that the first row with one gives: its coordinates, else its hole and depth. */
function rowPlace(
  rows: readonly RowAt[],
  how: string,
  depth: number | null,
  sources: Sources,
  reasons: string[],
): PlaceOfRow | null {
  for (const at of rows) {
    const found = placeOfRow(at, sources.holes, depth)
    if (found === null) continue
    if ('refused' in found) reasons.push(found.refused)
    else return { ...found, how: `${found.how}${how}` }
  }
  if (rows.length === 0) return null
  const { table, row } = rows[0]
  const file = baseName(table.file)
  if (sources.waiting.has(table.file)) {
    reasons.push(`${file} waits for its coordinate system: state it in the recipe’s places`)
  } else if (table.missing.length > 0) {
    const lost = table.missing.map((column) => COLUMN_WORDS[column]).join(' and ')
    reasons.push(`${file} names it, but no ${lost} was found there: say which it is`)
  } else if (reasons.length === 0) {
    reasons.push(`line ${row.line} of ${file} names it but has no coordinates that can be used`)
  }
  return null
}

/** A place without what only a scan has. */
type PlaceOfRow = Omit<Found, 'rows' | 'sample'>

/** The place of a table's row; null where the row has neither coordinates nor hole and depth. */
export function placeOfRow(
  at: RowAt,
  holes: HoleBook,
  headerDepth: number | null = null,
): PlaceOfRow | { readonly refused: string } | null {
  const { table, row, number } = at
  const how = `line ${row.line} of ${baseName(table.file)}`
  const base = { hole: row.hole, from: row.from, to: row.to, near: false }
  if (row.spot !== null) {
    const name = row.name === '' ? null : row.name
    return { ...base, spot: row.spot, placedBy: 'table', how, key: `row\u0000${number}`, name }
  }
  if (row.hole === null) return null
  const depth = headerDepth ?? middleOf(row.from, row.to)
  if (depth === null) return null
  const spot = holes.at(row.hole, depth)
  if ('refused' in spot) return spot
  const name = row.name === '' ? depthName(row.hole, depth, row.from, row.to) : row.name
  const key = `row\u0000${number}\u0000${depth.toFixed(3)}`
  return { ...base, spot, placedBy: 'hole', how: `${how}, by depth in ${row.hole}`, key, name }
}

function middleOf(from: number | null, to: number | null): number | null {
  return from !== null && to !== null ? (from + to) / 2 : (from ?? to)
}

/** `VDH01 3-9 m`, or `VDH01 12.4 m` for a point. */
function depthName(hole: string, depth: number, from: number | null, to: number | null): string {
  const plain = (metres: number) => String(Number(metres.toFixed(2)))
  const interval = from !== null && to !== null && from < to && from <= depth && depth <= to
  return `${hole} ${interval ? `${plain(from)}-${plain(to)}` : plain(depth)} m`
}

function holePlace(
  header: Header,
  base: Pick<Found, 'hole' | 'from' | 'to' | 'rows' | 'sample'>,
  sources: Sources,
  reasons: string[],
): Found | null {
  if (header.hole === null) return null
  if (header.depth === null) {
    reasons.push(`its header names the hole ${header.hole} but no depth`)
    return null
  }
  const spot = sources.holes.at(header.hole, header.depth)
  if ('refused' in spot) {
    reasons.push(spot.refused)
    return null
  }
  const own = base.rows.length > 0 ? base.rows : sources.rows.inHole(header.hole, header.depth)
  const name = depthName(header.hole, header.depth, header.from, header.to)
  const key = `hole\u0000${foldedName(header.hole)}\u0000${header.depth.toFixed(3)}`
  const how = `${header.depth} m along the hole ${header.hole}`
  return { ...base, rows: own, spot, placedBy: 'hole', how, key, near: false, name }
}

/** A place on the first track that has one for the scan's time. */
function trackPlace(
  header: Header,
  sources: Sources,
  reasons: string[],
): Pick<Found, 'spot' | 'how' | 'seconds'> | null {
  if (sources.tracks.length === 0) return null
  if (header.times.length === 0) {
    reasons.push(
      header.timeText === null
        ? 'its header has no time to find on the track'
        : `its time “${header.timeText}” cannot be read`,
    )
    return null
  }
  const fits: { place: TrackPlace; how: string; time: number }[] = []
  let refusal: { words: string; away: number } | null = null
  for (const track of sources.tracks) {
    const rule = ruleFor(track.file, sources.rules)
    const offset = rule?.clock_offset_s ?? 0
    const options = { ...TRACK_DEFAULTS, gap: rule?.gap_s ?? TRACK_DEFAULTS.gap }
    for (const time of header.times) {
      const place = placeOnTrack(track, time + offset, options)
      if (!('refused' in place)) {
        const shift = offset === 0 ? '' : `, clock moved by ${spanOf(Math.abs(offset))}`
        fits.push({ place, how: `by time on ${baseName(track.file)}${shift}`, time })
      } else if (refusal === null || place.away < refusal.away) {
        refusal = { words: `its time is ${place.refused}`, away: place.away }
      }
    }
  }
  if (fits.some(({ time }) => time !== fits[0].time)) {
    reasons.push(
      `its date “${header.timeText}” can be read day first or month first, and both lie on a track`,
    )
    return null
  }
  if (fits.length === 0) {
    // A track of another day says nothing about a scan that something else should place.
    if (refusal !== null && (refusal.away < OTHER_DAY || reasons.length === 0)) {
      reasons.push(`${refusal.words}; set the clock offset or place it by hand`)
    }
    return null
  }
  const { place, how, time } = fits[0]
  return {
    seconds: time,
    spot: geographicSpot(place.longitude, place.latitude, place.elevation, place.error),
    how,
  }
}
