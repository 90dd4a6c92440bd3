/**
 * The few things that a photograph's EXIF says of where, when and which way it was taken
 * (CIPA DC-008, Exif 3.0; its structure is that of TIFF 6.0). Sizes, counts and depth are bounded:
 * a directory is read once, and what points outside is passed over.
 */

/** What a camera wrote; null where it did not, or where it makes no sense. */
export interface Exif {
  /** Local time by the camera's clock, such as `2024-05-07T16:05:12`. */
  readonly taken: string | null
  /** Seconds east of Greenwich of that clock, where it is stated. */
  readonly zone: number | null
  /** Seconds since 1970 in UTC by the GPS receiver. */
  readonly gpsSeconds: number | null
  /** 1 to 8: how the stored picture is to be turned. */
  readonly orientation: number | null
  /** Degrees, WGS 84 or as near as cameras come. */
  readonly longitude: number | null
  readonly latitude: number | null
  /** Metres by which the receiver says that it may be off. */
  readonly accuracy: number | null
  /** Degrees clockwise from the north that is named, 0 up to but not 360. */
  readonly direction: { readonly azimuth: number; readonly north: 'true' | 'magnetic' } | null
}

const NOTHING: Exif = {
  taken: null,
  zone: null,
  gpsSeconds: null,
  orientation: null,
  longitude: null,
  latitude: null,
  accuracy: null,
  direction: null,
}

/** Bytes of a value's part by type 1 to 12: byte, ASCII, short, long, rational … (TIFF 6.0, page 15). */
const SIZES = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8] as const
const MOST_ENTRIES = 512
/** None of the values wanted is longer. */
const MOST_PARTS = 64

const TAG = { orientation: 0x0112, dateTime: 0x0132, exif: 0x8769, gps: 0x8825 } as const
const EXIF_TAG = { original: 0x9003, zone: 0x9010, originalZone: 0x9011 } as const
const GPS_TAG = {
  latitudeRef: 1,
  latitude: 2,
  longitudeRef: 3,
  longitude: 4,
  time: 7,
  directionRef: 16,
  direction: 17,
  date: 29,
  error: 31,
} as const

type Value = string | readonly number[]
type Directory = ReadonlyMap<number, Value>

/** Reads EXIF from its TIFF structure. Throws nothing for what it holds. */
export function readExif(tiff: Uint8Array | null): Exif {
  if (tiff === null || tiff.length < 8) return NOTHING
  const view = new DataView(tiff.buffer, tiff.byteOffset, tiff.byteLength)
  const order = view.getUint16(0)
  if (order !== 0x4949 && order !== 0x4d4d) return NOTHING
  const little = order === 0x4949
  if (view.getUint16(2, little) !== 42) return NOTHING
  // Depth two at most: the first directory, and the two that it may point to.
  const first = directoryAt(view, view.getUint32(4, little), little)
  const below = (tag: number): Directory => {
    const at = numberOf(first.get(tag))
    return at === null ? new Map() : directoryAt(view, at, little)
  }
  const camera = below(TAG.exif)
  const gps = below(TAG.gps)
  const orientation = numberOf(first.get(TAG.orientation))
  const latitude = signed(gps, GPS_TAG.latitude, GPS_TAG.latitudeRef, 'S', 90)
  const longitude = signed(gps, GPS_TAG.longitude, GPS_TAG.longitudeRef, 'W', 180)
  const isPlaced = latitude !== null && longitude !== null && (latitude !== 0 || longitude !== 0)
  const error = numberOf(gps.get(GPS_TAG.error))
  return {
    taken: clockTime(camera.get(EXIF_TAG.original) ?? first.get(TAG.dateTime)),
    zone: zoneOf(camera.get(EXIF_TAG.originalZone) ?? camera.get(EXIF_TAG.zone)),
    gpsSeconds: gpsTime(gps),
    orientation: orientation !== null && orientation >= 1 && orientation <= 8 ? orientation : null,
    longitude: isPlaced ? longitude : null,
    latitude: isPlaced ? latitude : null,
    accuracy: isPlaced && error !== null && error > 0 && error < 1e5 ? error : null,
    direction: directionOf(gps),
  }
}

/** The entries of a directory whose values lie inside; empty where it does not. */
function directoryAt(view: DataView, at: number, little: boolean): Directory {
  const values = new Map<number, Value>()
  if (at < 8 || at + 2 > view.byteLength) return values
  const count = Math.min(view.getUint16(at, little), MOST_ENTRIES)
  for (let i = 0; i < count; i++) {
    const entry = at + 2 + 12 * i
    if (entry + 12 > view.byteLength) break
    const value = valueOf(view, entry, little)
    const tag = view.getUint16(entry, little)
    if (value !== null && !values.has(tag)) values.set(tag, value)
  }
  return values
}

function valueOf(view: DataView, entry: number, little: boolean): Value | null {
  const type = view.getUint16(entry + 2, little)
  const parts = view.getUint32(entry + 4, little)
  const size = type < SIZES.length ? SIZES[type] : 0
  if (size === 0 || parts === 0 || parts > MOST_PARTS) return null
  const at = size * parts <= 4 ? entry + 8 : view.getUint32(entry + 8, little)
  if (at + size * parts > view.byteLength) return null
  if (type === 2) {
    let text = ''
    for (let i = 0; i < parts; i++) text += String.fromCharCode(view.getUint8(at + i))
    return text.split('\0')[0].trim()
  }
  return Array.from({ length: parts }, (_, i) => partAt(view, at + size * i, type, little))
}

function partAt(view: DataView, at: number, type: number, little: boolean): number {
  switch (type) {
    case 3:
      return view.getUint16(at, little)
    case 4:
      return view.getUint32(at, little)
    case 5:
      return view.getUint32(at, little) / view.getUint32(at + 4, little)
    case 8:
      return view.getInt16(at, little)
    case 9:
      return view.getInt32(at, little)
    case 10:
      return view.getInt32(at, little) / view.getInt32(at + 4, little)
    case 11:
      return view.getFloat32(at, little)
    case 12:
      return view.getFloat64(at, little)
    default:
      return type === 6 ? view.getInt8(at) : view.getUint8(at)
  }
}

function numberOf(value: Value | undefined): number | null {
  if (value === undefined || typeof value === 'string') return null
  return Number.isFinite(value[0]) ? value[0] : null
}

function textOf(value: Value | undefined): string {
  return typeof value === 'string' ? value : ''
}

/** Degrees, minutes and seconds, or fewer of them, with the hemisphere's letter. */
function signed(
  gps: Directory,
  tag: number,
  refTag: number,
  negative: string,
  most: number,
): number | null {
  const parts = gps.get(tag)
  const ref = textOf(gps.get(refTag)).toUpperCase()
  if (parts === undefined || typeof parts === 'string' || ref === '') return null
  const [degrees, minutes = 0, seconds = 0] = parts
  const size = degrees + minutes / 60 + seconds / 3600
  if (!(size >= 0 && size <= most)) return null
  return ref === negative ? -size : size
}

/** `YYYY:MM:DD hh:mm:ss` as ISO 8601; null where a part is out of its range or blank. */
function clockTime(value: Value | undefined): string | null {
  const match = /^(\d{4})[:-](\d{2})[:-](\d{2})[ T](\d{2}):(\d{2}):(\d{2})/.exec(textOf(value))
  if (match === null) return null
  const [, year, month, day, hour, minute, second] = match
  const text = `${year}-${month}-${day}T${hour}:${minute}:${second}`
  const time = new Date(`${text}Z`)
  // A day such as 31 April is taken for the next month's, which shows.
  if (!Number.isFinite(time.getTime()) || !time.toISOString().startsWith(text)) return null
  return text
}

function zoneOf(value: Value | undefined): number | null {
  const match = /^([+-])(\d{2}):(\d{2})/.exec(textOf(value))
  if (match === null) return null
  const size = 3600 * Number(match[2]) + 60 * Number(match[3])
  return size > 14 * 3600 ? null : match[1] === '-' ? -size : size
}

function gpsTime(gps: Directory): number | null {
  const day = /^(\d{4})[:-](\d{2})[:-](\d{2})/.exec(textOf(gps.get(GPS_TAG.date)))
  const clock = gps.get(GPS_TAG.time)
  if (day === null || clock === undefined || typeof clock === 'string') return null
  const midnight = Date.UTC(Number(day[1]), Number(day[2]) - 1, Number(day[3])) / 1000
  const [hours, minutes = NaN, seconds = NaN] = clock
  const time = midnight + 3600 * hours + 60 * minutes + seconds
  return Number.isFinite(time) && hours < 24 && minutes < 60 && seconds < 61 ? time : null
}

function directionOf(gps: Directory): Exif['direction'] {
  const azimuth = numberOf(gps.get(GPS_TAG.direction))
  const ref = textOf(gps.get(GPS_TAG.directionRef)).toUpperCase()
  // Which north it is from must be said: it may be tens of degrees apart.
  if (azimuth === null || azimuth < 0 || azimuth > 360 || !['T', 'M'].includes(ref)) return null
  return { azimuth: azimuth % 360, north: ref === 'T' ? 'true' : 'magnetic' }
}
