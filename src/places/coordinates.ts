/**
 * Coordinates as people and receivers write them, to degrees on WGS 84.
 *
 * Read are ISO 6709 strings, decimal degrees, degrees and minutes, degrees, minutes and seconds,
 * each with a sign or a hemisphere letter, NMEA 0183 `ddmm.mmmm,N`, and MGRS (NGA.STND.0037).
 */
import { inverse, toPoint } from 'mgrs'

export type Axis = 'latitude' | 'longitude'

/** A position read from one text. */
export interface ParsedPosition {
  /** Degrees. */
  readonly longitude: number
  readonly latitude: number
  /** Metres, where the text has one. */
  readonly elevation: number | null
  /** The side of the square that the text names, metres; null where it names a point. */
  readonly cell: number | null
}

const LONGEST = 120
const LIMIT: Readonly<Record<Axis, number>> = { latitude: 90, longitude: 180 }

/**
 * One latitude or longitude in degrees, north and east positive.
 *
 * @param axis which of the two the text stands for
 * @throws Error that says what in the text is wrong
 */
export function parseAngle(text: string, axis: Axis): number {
  const plain = plainText(text)
  const hemisphere = hemisphereOf(plain, text, axis)
  const numbers = plain.match(/\d+(\.\d+)?/g) ?? []
  const negative = /^[^\d]*-/.test(plain)
  if (/\d[^\d]*-/.test(plain)) throw new Error(`“${text}” has a minus sign inside`)
  if (negative && hemisphere !== null) {
    throw new Error(`“${text}” has both a minus sign and a hemisphere letter: keep one of them`)
  }
  const size = sizeOf(numbers, hemisphere !== null, axis, text)
  if (size > LIMIT[axis]) {
    throw new Error(`${axis} ${size} is beyond ${LIMIT[axis]}°`)
  }
  return negative || hemisphere === 'S' || hemisphere === 'W' ? -size : size
}

/** Upper case, one kind of minus, degree sign, prime and point. */
function plainText(text: string): string {
  if (text.length > LONGEST)
    throw new Error(`a coordinate of ${text.length} characters is too long`)
  // The marks come first: compatibility normalisation would turn an ordinal º into a letter.
  const plain = text
    .replace(/[º˚]/g, '°')
    .replace(/''|[″”“]/g, '"')
    .replace(/[′’‘´`]/g, "'")
    .replace(/[−–]/g, '-')
    .normalize('NFKC')
    .trim()
    .toUpperCase()
  return /\d\.\d/.test(plain) ? plain : plain.replace(/(\d),(\d)/g, '$1.$2')
}

/** N, S, E or W where the text has it; words for degrees, minutes and seconds are passed over. */
function hemisphereOf(plain: string, text: string, axis: Axis): string | null {
  const withoutUnits = plain
    .replace(/(M(?:IN)?\.?\s*[\d.]+\s*)S(?:EC)?(?![A-Z])/g, '$1"')
    .replace(/([\d.]\s*)(D|DEG|M|MIN|SEC)(?![A-Z])/g, '$1 ')
  const letters: readonly string[] = withoutUnits.match(/[A-Z]+/g) ?? []
  if (letters.includes('O')) {
    throw new Error(`“${text}”: O means west in some languages and east in others; write W or E`)
  }
  const strange = letters.find((word) => !/^[NSEW]$/.test(word))
  if (strange !== undefined) throw new Error(`“${text}” is no ${axis}: it has “${strange}” in it`)
  if (letters.length > 1) throw new Error(`“${text}” has more than one hemisphere letter`)
  if (letters.length === 1 && !(axis === 'latitude' ? 'NS' : 'EW').includes(letters[0])) {
    throw new Error(
      `“${text}” has the letter ${letters[0]}, which is no ${axis}: the columns may be swapped`,
    )
  }
  return letters[0] ?? null
}

function sizeOf(numbers: readonly string[], lettered: boolean, axis: Axis, text: string): number {
  if (numbers.length === 0) throw new Error(`“${text}” has no number in it`)
  if (numbers.length > 3) throw new Error(`“${text}” has more than degrees, minutes and seconds`)
  const nmea = axis === 'latitude' ? /^\d{4}(\.\d+)?$/ : /^\d{5}(\.\d+)?$/
  if (numbers.length === 1 && lettered && nmea.test(numbers[0])) {
    const digits = axis === 'latitude' ? 2 : 3
    return sizeOf([numbers[0].slice(0, digits), numbers[0].slice(digits)], lettered, axis, text)
  }
  let size = Number(numbers[0])
  for (let part = 1; part < numbers.length; part++) {
    if (numbers[part - 1].includes('.')) {
      throw new Error(`“${text}” has a fraction before its last part`)
    }
    const value = Number(numbers[part])
    if (value >= 60)
      throw new Error(`“${text}” has ${part === 1 ? 'minutes' : 'seconds'} of 60 or more`)
    size += value / 60 ** part
  }
  return size
}

/**
 * A whole position out of one text. Where no letter tells, latitude stands first (ISO 6709).
 *
 * @throws Error that says what in the text is wrong
 */
export function parsePosition(text: string): ParsedPosition {
  const iso = parseIso6709(text.trim())
  if (iso) return iso
  const plain = plainText(text)
  const compact = plain.replace(/\s+/g, '')
  if (/^(\d{1,2}[C-HJ-NP-X]|[ABYZ])[A-HJ-NP-Z]{2}(\d\d)*$/.test(compact)) return parseMgrs(compact)
  const [latitude, longitude] = splitPair(plain)
  return point(parseAngle(latitude, 'latitude'), parseAngle(longitude, 'longitude'), null)
}

function point(latitude: number, longitude: number, elevation: number | null): ParsedPosition {
  return { longitude, latitude, elevation, cell: null }
}

/** ISO 6709:2022, annex H: ±DD.D±DDD.D/, ±DDMM.M±DDDMM.M/, ±DDMMSS.S±DDDMMSS.S/, a height after. */
function parseIso6709(text: string): ParsedPosition | null {
  const match =
    /^([+-])(\d{2}|\d{4}|\d{6})(\.\d+)?([+-])(\d{3}|\d{5}|\d{7})(\.\d+)?([+-]\d+(?:\.\d+)?)?(CRS[\w:]+)?\/?$/.exec(
      text,
    )
  if (!match) return null
  const angle = (sign: string, digits: string, fraction: string, wide: number, axis: Axis) => {
    const parts = [digits.slice(0, wide)]
    for (let at = wide; at < digits.length; at += 2) parts.push(digits.slice(at, at + 2))
    parts[parts.length - 1] += fraction
    const size = sizeOf(parts, false, axis, text)
    if (size > LIMIT[axis]) throw new Error(`${axis} ${size} is beyond ${LIMIT[axis]}°`)
    return sign === '-' ? -size : size
  }
  const latitude = angle(match[1], match[2], match[3] ?? '', 2, 'latitude')
  const longitude = angle(match[4], match[5], match[6] ?? '', 3, 'longitude')
  return point(latitude, longitude, match[7] === undefined ? null : Number(match[7]))
}

/** The centre of the square that an MGRS reference names. */
function parseMgrs(reference: string): ParsedPosition {
  const digits = /\d*$/.exec(reference)?.[0].length ?? 0
  if (digits > 10) throw new Error(`“${reference}” has more than ten digits for an MGRS reference`)
  try {
    const [longitude, latitude] = digits === 10 ? corner(reference) : toPoint(reference)
    if (!Number.isFinite(longitude) || !Number.isFinite(latitude)) throw new Error('no such square')
    return { longitude, latitude, elevation: null, cell: 10 ** (5 - digits / 2) }
  } catch {
    throw new Error(`“${reference}” is no MGRS reference that lies between 80° S and 84° N`)
  }
}

/** The middle of a one-metre square, which `toPoint` rounds. */
function corner(reference: string): [number, number] {
  const [west, south, east, north] = inverse(reference)
  return [(west + east) / 2, (south + north) / 2]
}

/** The latitude's and the longitude's part of a text. */
function splitPair(text: string): [latitude: string, longitude: string] {
  const lettered =
    /^([^EWO]*[NS])[\s,;/]*([^NS]*[EW])$/i.exec(text) ??
    /^([NS][^EWO]*?)[\s,;/]*([EW][^NS]*)$/i.exec(text)
  if (lettered) return [lettered[1], lettered[2]]
  const reversed =
    /^([^NS]*[EW])[\s,;/]*([^EWO]*[NS])$/i.exec(text) ??
    /^([EW][^NS]*?)[\s,;/]*([NS][^EWO]*)$/i.exec(text)
  if (reversed) return [reversed[2], reversed[1]]
  const halves = text.split(/\s*[;,]\s+|\s*;\s*/)
  if (halves.length === 2) return [halves[0], halves[1]]
  const commas = text.split(',')
  if (commas.length === 2 && commas.every((half) => /\d\.\d|^\s*[+-]?\d+\s*$/.test(half))) {
    return [commas[0], commas[1]]
  }
  const numbers = [...text.matchAll(/[+\-−]?\d+([.,]\d+)?/g)]
  if (numbers.length >= 2 && numbers.length % 2 === 0 && numbers.length <= 6) {
    const middle = numbers[numbers.length / 2].index
    return [text.slice(0, middle), text.slice(middle)]
  }
  throw new Error(
    `“${text}” is no position: write latitude and longitude in degrees, such as 48.1173, 11.5167, or an MGRS reference`,
  )
}
