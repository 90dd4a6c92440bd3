/**
 * Coordinate reference systems: opened from a code, chosen for a set of positions.
 *
 * Projections and datum shifts by proj4 with the EPSG register's definitions
 * (IOGP Guidance Note 373-7-2). WGS 84 / UTM and the local grids are known at once; any other code
 * needs `loadEpsgTable` to have finished, for the register is loaded only when asked for.
 */
import proj4 from 'proj4'
import { utmEpsg, utmZone, wrapLongitude } from './utm'

/** A system that eastings and northings are in. */
export interface WorkingCrs {
  /** Such as `EPSG:32719` or `local:m`. */
  readonly code: string
  readonly name: string
  /** `m`, `km`, `ft`, `us-ft`, …; `degree` for a geographic system. */
  readonly unit: string
  /** NaN for degrees. */
  readonly metresPerUnit: number
  readonly kind: 'projected' | 'geographic' | 'local'
  /** What stands between its datum and WGS 84: nothing to speak of, a shift applied, or one unknown here. */
  readonly datumShift: 'none needed' | 'applied' | 'missing'
  /** Whether it counts to the west or south, as some southern African grids do. */
  readonly reversedAxes: boolean
  /** Longitude and latitude on WGS 84, degrees; null for a local grid or outside the projection. */
  toGeographic(easting: number, northing: number): [lon: number, lat: number] | null
  /** The other way; null for a local grid or outside the projection. */
  fromGeographic(longitude: number, latitude: number): [easting: number, northing: number] | null
}

type EpsgTable = Readonly<Record<string, readonly [name: string, proj4: string]>>

let epsgTable: EpsgTable | null = null

/** Loads the EPSG register (about 100 kB packed), after which `openCrs` knows every code. */
export async function loadEpsgTable(): Promise<void> {
  if (epsgTable !== null) return
  const loaded: { default: unknown } = await import('./epsg.json')
  epsgTable = loaded.default as EpsgTable
}

/** Whether a code can only be opened after `loadEpsgTable`. */
export function needsEpsgTable(code: string): boolean {
  const number = epsgNumber(code)
  return number !== null && wgs84Utm(number) === null && ![4326, 5041, 5042].includes(number)
}

let codesByName: Map<string, string> | null = null

/**
 * The code of a system by its name in the EPSG register, compared by letters and digits alone and
 * without the word zone: `GDA94 / MGA zone 55` is `gda94 mga 55`.
 *
 * @returns null for an unknown name, and for any name but WGS 84's before `loadEpsgTable`
 */
export function codeOfName(name: string): string | null {
  if (codesByName === null && epsgTable !== null) {
    codesByName = new Map()
    for (const [code, [registered]] of Object.entries(epsgTable)) {
      const key = plainName(registered)
      if (!codesByName.has(key)) codesByName.set(key, `EPSG:${code}`)
    }
  }
  return codesByName?.get(plainName(name)) ?? null
}

function plainName(name: string): string {
  return name
    .toLowerCase()
    .replace(/zone/g, '')
    .replace(/[^a-z0-9]/g, '')
}

const METRES_PER_UNIT: Readonly<Record<string, number>> = {
  m: 1,
  km: 1000,
  ft: 0.3048,
  'us-ft': 1200 / 3937,
  'ind-yd': 0.91439523,
  yd: 0.9144,
  link: 0.201168,
}

const opened = new Map<string, WorkingCrs>()

/**
 * Opens a coordinate reference system.
 *
 * @param code `EPSG:n`, or `local:m`, `local:km`, `local:ft` for a grid tied to nothing
 * @throws Error in plain words where the code is malformed or unknown, or where the EPSG register
 *   is needed and not loaded yet
 */
export function openCrs(code: string): WorkingCrs {
  const key = code.trim().toUpperCase()
  const known = opened.get(key)
  if (known) return known
  const crs = /^LOCAL:/.test(key) ? localGrid(key.slice(6).toLowerCase(), code) : fromEpsg(code)
  opened.set(key, crs)
  return crs
}

function localGrid(unit: string, code: string): WorkingCrs {
  if (!['m', 'km', 'ft'].includes(unit)) {
    throw new Error(`“${code}” is no local grid: write local:m, local:km or local:ft`)
  }
  return {
    code: `local:${unit}`,
    name: `local grid in ${unit}`,
    unit,
    metresPerUnit: METRES_PER_UNIT[unit],
    kind: 'local',
    datumShift: 'missing',
    reversedAxes: false,
    toGeographic: () => null,
    fromGeographic: () => null,
  }
}

function fromEpsg(code: string): WorkingCrs {
  const number = epsgNumber(code)
  if (number === null) {
    throw new Error(
      `“${code}” is no coordinate system: write EPSG and its number, such as EPSG:32719, or local:m`,
    )
  }
  const [name, definition] = definitionOf(number)
  const convert = proj4('+proj=longlat +datum=WGS84 +no_defs', definition)
  const geographic = /\+proj=longlat/.test(definition)
  const [unit, metresPerUnit] = geographic ? (['degree', NaN] as const) : unitOf(definition)
  const reversedAxes = /\+axis=/.test(definition)
  return {
    code: `EPSG:${number}`,
    name,
    unit,
    metresPerUnit,
    kind: geographic ? 'geographic' : 'projected',
    datumShift: shiftOf(definition),
    reversedAxes,
    toGeographic: (easting, northing) => {
      const there = finite(() => convert.inverse([easting, northing], reversedAxes))
      return there && Math.abs(there[1]) <= 90 ? [wrapLongitude(there[0]), there[1]] : null
    },
    fromGeographic: (longitude, latitude) =>
      finite(() => convert.forward([longitude, latitude], reversedAxes)),
  }
}

/** What a conversion gives, or null where proj4 throws or leaves the plane. */
function finite(convert: () => number[]): [number, number] | null {
  try {
    const [x, y] = convert()
    return Number.isFinite(x) && Number.isFinite(y) ? [x, y] : null
  } catch {
    return null
  }
}

function epsgNumber(code: string): number | null {
  const match = /^\s*EPSG\s*:{1,2}\s*(\d{4,5})\s*$/i.exec(code)
  return match ? Number(match[1]) : null
}

function wgs84Utm(number: number): readonly [string, string] | null {
  const zone = number % 100
  const series = (number - zone) / 100
  if ((series !== 326 && series !== 327) || zone < 1 || zone > 60) return null
  const south = series === 327
  const definition = `+proj=utm +zone=${zone}${south ? ' +south' : ''} +datum=WGS84 +units=m`
  return [`WGS 84 / UTM zone ${zone}${south ? 'S' : 'N'}`, definition]
}

function definitionOf(number: number): readonly [name: string, proj4: string] {
  const utm = wgs84Utm(number)
  if (utm) return utm
  if (number === 4326) return ['WGS 84', '+proj=longlat +datum=WGS84']
  if (number === 5041 || number === 5042) return polar(number === 5042)
  if (epsgTable === null) {
    throw new Error(`EPSG:${number} needs the EPSG register, which is not loaded yet`)
  }
  const entry = epsgTable[String(number)]
  if (!entry) {
    throw new Error(
      `EPSG:${number} is no projected or geographic system that can be computed here: look the code up again, or use a neighbouring system`,
    )
  }
  return entry
}

/** Universal Polar Stereographic, eastings first (NGA.SIG.0012, section 10). */
function polar(south: boolean): readonly [name: string, proj4: string] {
  return [
    `WGS 84 / UPS ${south ? 'South' : 'North'} (E,N)`,
    `+proj=stere +lat_0=${south ? -90 : 90} +lon_0=0 +k=0.994 +x_0=2000000 +y_0=2000000 +datum=WGS84 +units=m`,
  ]
}

function unitOf(definition: string): readonly [unit: string, metres: number] {
  const named = /\+units=(\S+)/.exec(definition)?.[1]
  const metres = Number(/\+to_meter=(\S+)/.exec(definition)?.[1])
  if (named && METRES_PER_UNIT[named]) return [named, METRES_PER_UNIT[named]]
  return Number.isFinite(metres) && metres > 0 ? [`${metres} m`, metres] : ['m', 1]
}

/** Datums on GRS 80 or WGS 84 without a stated shift lie within about two metres of WGS 84. */
function shiftOf(definition: string): WorkingCrs['datumShift'] {
  const shift = /\+towgs84=(\S+)/.exec(definition)?.[1]
  if (shift) return /^[0,.]+$/.test(shift) ? 'none needed' : 'applied'
  return /\+datum=(WGS84|NAD83)|\+ellps=(WGS84|GRS80)|nadgrids=@null/.test(definition)
    ? 'none needed'
    : 'missing'
}

/**
 * The code of the working CRS for a set of positions.
 *
 * @param setting `auto`, `EPSG:n` or `local:m|km|ft`; a code is checked and given back
 * @param positions longitude and latitude, degrees
 * @returns for `auto`, WGS 84 / UTM at the median longitude and latitude, and beyond UTM's limits
 *   the polar stereographic grid
 * @throws Error where the setting cannot be worked in: unknown, in degrees, counting west or
 *   south, or `auto` without positions
 */
export function chooseCrs(
  setting: string,
  positions: readonly (readonly [lon: number, lat: number])[],
): string {
  if (setting.trim().toLowerCase() !== 'auto') {
    const crs = openCrs(setting)
    if (crs.kind === 'geographic') {
      throw new Error(
        `${crs.code} (${crs.name}) is in degrees: surfaces need lengths, so choose a projected system or auto`,
      )
    }
    if (crs.reversedAxes) {
      throw new Error(
        `${crs.code} (${crs.name}) counts to the west or south: choose one that counts east and north, such as the UTM zone, or auto`,
      )
    }
    return crs.code
  }
  const middle = medianPosition(positions)
  if (middle === null) throw new Error('no position to choose a coordinate system by')
  const zone = utmZone(middle[0], middle[1])
  if (zone === null) return middle[1] < 0 ? 'EPSG:5042' : 'EPSG:5041'
  return `EPSG:${utmEpsg(zone)}`
}

/** The median longitude and latitude, longitudes unwrapped about the first; null for none. */
export function medianPosition(
  positions: readonly (readonly [lon: number, lat: number])[],
): [lon: number, lat: number] | null {
  if (positions.length === 0) return null
  const first = positions[0][0]
  const lons = positions.map(([lon]) => first + wrapLongitude(lon - first))
  return [wrapLongitude(median(lons)), median(positions.map(([, lat]) => lat))]
}

/** The lower median, so that it is one of the values. */
export function median(values: readonly number[]): number {
  const sorted = Float64Array.from(values).sort()
  return sorted[(sorted.length - 1) >> 1]
}
