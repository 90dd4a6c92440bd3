/** Outlines on the ground out of GeoJSON (RFC 7946), every part checked before anything draws it. */
import type { Feature, FeatureCollection, Geometry } from 'geojson'
import type { InputFile } from '../readers/input'

const MOST_FEATURES = 50_000
const MOST_POSITIONS = 2_000_000
/** Collections of geometries within collections; RFC 7946 advises against any. */
const DEEPEST = 8

/** How deep positions are nested in the coordinates of each type. */
const NESTING: Readonly<Record<string, number>> = {
  Point: 0,
  MultiPoint: 1,
  LineString: 1,
  MultiLineString: 2,
  Polygon: 2,
  MultiPolygon: 3,
}

/**
 * Reads outlines: degrees on WGS 84.
 *
 * @throws Error that names the file, what is wrong and what to do
 */
export function readOutlines(file: InputFile): FeatureCollection {
  const checker = new Checker(file.path)
  let json: unknown
  try {
    json = JSON.parse(new TextDecoder().decode(file.bytes))
  } catch (error) {
    throw checker.error(`is no JSON (${(error as Error).message})`)
  }
  return { type: 'FeatureCollection', features: checker.features(json) }
}

/** Whether a value is an object or a list, whose members can be asked for. */
function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null
}

class Checker {
  private positions = 0

  constructor(private readonly file: string) {}

  error(what: string): Error {
    return new Error(`${this.file} ${what}; save the layer again as GeoJSON in WGS 84.`)
  }

  features(json: unknown): Feature[] {
    const type = isObject(json) ? json.type : undefined
    if (isObject(json) && type === 'Feature') return [this.feature(json, 1)]
    if (!isObject(json) || type !== 'FeatureCollection' || !Array.isArray(json.features))
      throw this.error(`is neither a Feature nor a FeatureCollection but ${words(type)}`)
    const list = json.features as readonly unknown[]
    if (list.length > MOST_FEATURES)
      throw this.error(`holds ${list.length} features, more than ${MOST_FEATURES}`)
    return list.map((feature, i) => this.feature(feature, i + 1))
  }

  private feature(feature: unknown, number: number): Feature {
    const where = `has a feature ${number} that`
    if (!isObject(feature) || feature.type !== 'Feature') throw this.error(`${where} is none`)
    const { properties = null, geometry = null } = feature
    if (geometry !== null) this.geometry(geometry, where, 0)
    return {
      type: 'Feature',
      properties: isObject(properties) ? { ...properties } : null,
      // Looked through just now: what is left of it is a geometry.
      geometry: geometry as Geometry,
    }
  }

  private geometry(geometry: unknown, where: string, depth: number): void {
    if (!isObject(geometry)) throw this.error(`${where} has no geometry`)
    const { type, geometries, coordinates } = geometry
    if (type === 'GeometryCollection' && Array.isArray(geometries)) {
      if (depth === DEEPEST) throw this.error(`${where} nests more than ${DEEPEST} collections`)
      for (const inner of geometries) this.geometry(inner, where, depth + 1)
      return
    }
    const nesting = typeof type === 'string' && Object.hasOwn(NESTING, type) ? NESTING[type] : null
    if (nesting === null)
      throw this.error(`${where} is ${words(type)}, which GeoJSON does not know`)
    if (!this.areCoordinates(coordinates, nesting))
      throw this.error(`${where} has no proper coordinates for a ${String(type)}`)
  }

  private areCoordinates(value: unknown, nesting: number): boolean {
    if (!Array.isArray(value)) return false
    // None at all is allowed (RFC 7946, 3.1); a ring or a line without corners is not.
    if (nesting > 0)
      return value.every((inner) => isFilled(inner) && this.areCoordinates(inner, nesting - 1))
    if (++this.positions > MOST_POSITIONS)
      throw this.error(`has more than ${MOST_POSITIONS} corners; simplify its lines`)
    return value.length >= 2 && value.every((number) => Number.isFinite(number))
  }
}

function isFilled(value: unknown): boolean {
  return Array.isArray(value) && value.length > 0
}

/** A type as it may stand in a message. */
function words(type: unknown): string {
  return typeof type === 'string' ? `‘${type.slice(0, 40)}’` : 'something without a type'
}
