/** What a scan's own header says of where, when and on what it was taken. */
import { headingWords } from '../readers/headings'
import { parseMoment, statedZone } from '../readers/time'
import { recognise, type KnownFields } from '../readers/recognise'
import { supportOf, targetOf, type Decimal } from './cells'
import { parsePosition } from './coordinates'
import { openCrs, type WorkingCrs } from './crs'
import { crsFromText } from './crs-text'
import { findRoles } from './headings'
import { pairOf, type Spot } from './spots'
import type { PlaceRule, Support, Target } from './station'

/** A scan as placing sees it. */
export interface ScanHead {
  readonly name: string
  readonly file: string
  readonly metadata: Readonly<Record<string, string>>
  /** What is known of it, where that is settled: what people set counts over the metadata. */
  readonly known?: KnownFields
}

export interface Header {
  /** The sample that the header names, or null. */
  readonly sample: string | null
  readonly spot: Spot | null
  /** Why the coordinates that stand there cannot be used; null where they can or there are none. */
  readonly trouble: string | null
  /** Easting and northing whose system nobody has stated. */
  readonly unstated: readonly [x: string, y: string] | null
  readonly hole: string | null
  /** Metres along the hole; `depth` is the middle of an interval where only that is given. */
  readonly depth: number | null
  readonly from: number | null
  readonly to: number | null
  /** Instants that the time may mean, seconds since 1970 as though in UTC: two where day and month may be exchanged. */
  readonly times: readonly number[]
  readonly timeText: string | null
  /** Whether its time tells seconds, and whether it states a zone. */
  readonly toTheSecond: boolean
  readonly zoneStated: boolean
  /** The instrument's serial number, or null. */
  readonly serial: string | null
  readonly support: Support | null
  readonly target: Target | null
}

/** Reads a scan's header; the rule, where there is one for its file, states the system. */
export function readHeader(scan: ScanHead, rule: PlaceRule | null): Header {
  const known = scan.known ?? recognise(scan.metadata)
  const place = readPlace(scan, known, rule)
  const from = known.from ?? known.depth
  const to = known.to ?? known.depth
  const middle = from !== null && to !== null ? (from + to) / 2 : (from ?? to)
  return {
    ...place,
    sample: known.sample,
    hole: known.hole,
    depth: known.depth ?? middle,
    from,
    to,
    times: timesOf(known),
    timeText: known.timeText,
    toTheSecond: SECONDS.test(known.timeText ?? ''),
    zoneStated: known.time?.zoneStated ?? isZoneStated(known.timeText),
    serial: serialOf(scan),
    support: known.support === null ? null : supportOf(known.support),
    target: known.target === null ? null : targetOf(known.target),
  }
}

function timesOf({ time, timeText }: KnownFields): readonly number[] {
  if (time !== null) return [time.seconds]
  if (timeText === null) return []
  const readings = [parseMoment(timeText, 'day first'), parseMoment(timeText, 'month first')]
  return [...new Set(readings.flatMap((moment) => (moment === null ? [] : [moment.seconds])))]
}

/** A time of day with its seconds. */
const SECONDS = /\d:\d{2}:\d{2}|T\d{6}/

function isZoneStated(timeText: string | null): boolean {
  return timeText !== null && statedZone(timeText, 'day first') !== null
}

/** Keys worth a closer look, and what those say that name one instrument and not its kind. */
const SERIAL_KEY = /serial|instrument|spectrometer|device/i
const SERIAL_WORDS =
  /^((instrument|spectrometer|device|unit) )?(serial( (number|no|nr|num))?|sn)$|^(instrument|spectrometer|device) (id|number|no)$/

function serialOf({ metadata }: ScanHead): string | null {
  for (const key in metadata) {
    if (!SERIAL_KEY.test(key) || !SERIAL_WORDS.test(headingWords(key))) continue
    const serial = metadata[key].trim()
    if (serial !== '') return serial
  }
  return null
}

type Place = Pick<Header, 'spot' | 'trouble' | 'unstated'>

function readPlace(scan: ScanHead, known: KnownFields, rule: PlaceRule | null): Place {
  const nothing: Place = { spot: null, trouble: null, unstated: null }
  const rest = { elevation: metresIn(known.elevationText), error: metresIn(known.accuracyText) }
  try {
    const crs = statedCrs(known, rule)
    if (known.eastingText !== null && known.northingText !== null && crs !== null) {
      const [x, y] = pairOf(
        crs,
        known.eastingText,
        known.northingText,
        decimalIn(known.eastingText),
      )
      return { ...nothing, spot: { crs, x, y, ...rest } }
    }
    if (known.longitudeText !== null && known.latitudeText !== null) {
      const geographic = crs?.kind === 'geographic' ? crs : openCrs('EPSG:4326')
      const [x, y] = pairOf(geographic, known.longitudeText, known.latitudeText, '.')
      // Receivers write zeros while they have no fix.
      if (x === 0 && y === 0) return nothing
      return { ...nothing, spot: { crs: geographic, x, y, ...rest } }
    }
    const text = positionText(scan)
    if (text !== null) {
      const at = parsePosition(text)
      const elevation = rest.elevation ?? at.elevation
      const error = rest.error ?? (at.cell === null ? null : at.cell / Math.sqrt(6))
      const place = { crs: openCrs('EPSG:4326'), x: at.longitude, y: at.latitude }
      return { ...nothing, spot: { ...place, elevation, error } }
    }
  } catch (error) {
    return {
      ...nothing,
      trouble: `its header’s coordinates cannot be used: ${(error as Error).message}`,
    }
  }
  if (known.eastingText === null || known.northingText === null) return nothing
  const unstated = [known.eastingText, known.northingText] as const
  const trouble = `its header has easting ${unstated[0]} and northing ${unstated[1]} but no coordinate system: state it`
  return { ...nothing, trouble, unstated }
}

/** Keys worth a closer look, for thousands of scans have none. */
const POSITION_KEY = /posi|coord|mgrs|grid|lat|gps/i

function positionText(scan: ScanHead): string | null {
  const isPosition = (key: string): boolean =>
    POSITION_KEY.test(key) && /\d.*\d/u.test(scan.metadata[key])
  const keys = Object.keys(scan.metadata).filter(isPosition)
  if (keys.length === 0) return null
  const column = findRoles(keys, ['position']).position
  const text = column === undefined ? '' : scan.metadata[keys[column]].trim()
  return text === '' ? null : text
}

function statedCrs(known: KnownFields, rule: PlaceRule | null): WorkingCrs | null {
  if (rule?.crs !== undefined && rule.crs !== 'auto') return openCrs(rule.crs)
  if (known.crsText === null) return null
  const code = crsFromText(known.crsText)
  return code === null ? null : openCrs(code)
}

function metresIn(text: string | null): number | null {
  const match = /^([+-]?\d+(?:[.,]\d+)?)\s*(ft|feet)?/i.exec(text?.trim() ?? '')
  if (!match) return null
  return Number(match[1].replace(',', '.')) * (match[2] ? 0.3048 : 1)
}

function decimalIn(text: string): Decimal {
  return text.includes(',') && !text.includes('.') ? ',' : '.'
}
