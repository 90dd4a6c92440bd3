/**
 * GeoJSON as RFC 7946 has it: WGS 84, longitude before latitude, no `crs` member, a `bbox`,
 * polygons by the right-hand rule, lines cut at the antimeridian (section 3.1.9).
 *
 * Members are written in the order given: a plain object would move a name such as `2200` first.
 */
import { DEGREE_DECIMALS, rounded } from './decimals'

export type LonLat = readonly [longitude: number, latitude: number]
export type Property = readonly [name: string, value: string | number | null]

/** A feature as JSON text, with the places that its collection's bounding box needs. */
export interface FeatureText {
  readonly json: string
  readonly places: readonly LonLat[]
}

/** The bytes of a FeatureCollection; without a `bbox` when no feature has a place. */
export function featureCollection(features: readonly FeatureText[]): Uint8Array {
  const bbox = boundingBox(features.flatMap((feature) => feature.places))
  const head = bbox === null ? '' : `"bbox":[${bbox.map(degrees).join(',')}],\n`
  const body = features.map((feature) => feature.json).join(',\n')
  return new TextEncoder().encode(
    `{"type":"FeatureCollection",\n${head}"features":[\n${body}\n]}\n`,
  )
}

/** A point, or a feature with a null geometry. */
export function pointFeature(place: LonLat | null, properties: readonly Property[]): FeatureText {
  const geometry = place === null ? 'null' : `{"type":"Point","coordinates":${position(place)}}`
  return { json: feature(geometry, properties), places: place === null ? [] : [place] }
}

/**
 * A line, in parts where it crosses the antimeridian; null when fewer than two different positions
 * are left at the decimals written.
 */
export function lineFeature(
  line: readonly LonLat[],
  properties: readonly Property[],
): FeatureText | null {
  const parts = cutAtAntimeridian(line)
    .map(withoutRepeats)
    .filter((part) => part.length >= 2)
  if (parts.length === 0) return null
  const geometry =
    parts.length === 1
      ? `{"type":"LineString","coordinates":${positions(parts[0])}}`
      : `{"type":"MultiLineString","coordinates":[${parts.map(positions).join(',')}]}`
  return { json: feature(geometry, properties), places: parts.flat() }
}

/**
 * A polygon: the first ring outside, the others holes; rings are closed and turned as the
 * right-hand rule asks (outside counterclockwise).
 *
 * @throws RangeError when a ring has fewer than three different corners.
 */
export function polygonFeature(
  rings: readonly (readonly LonLat[])[],
  properties: readonly Property[],
): FeatureText {
  const turned = rings.map((ring, at) => turnedRing(ring, at === 0))
  const geometry = `{"type":"Polygon","coordinates":[${turned.map(positions).join(',')}]}`
  return { json: feature(geometry, properties), places: turned[0] }
}

function turnedRing(ring: readonly LonLat[], counterclockwise: boolean): LonLat[] {
  const corners = withoutRepeats(ring)
  const closed = corners.length > 1 && same(corners[0], corners[corners.length - 1])
  if (!closed && corners.length > 0) corners.push(corners[0])
  if (corners.length < 4) throw new RangeError('A polygon’s ring needs three different corners.')
  return signedArea(corners) > 0 === counterclockwise ? corners : corners.reverse()
}

/** From the first corner, so that a ring of some centimetres keeps its sign. */
function signedArea(ring: readonly LonLat[]): number {
  const [longitude, latitude] = ring[0]
  let twice = 0
  for (let i = 1; i < ring.length; i++) {
    const [x1, y1] = ring[i - 1]
    const [x2, y2] = ring[i]
    twice += (x1 - longitude) * (y2 - latitude) - (x2 - longitude) * (y1 - latitude)
  }
  return twice / 2
}

/** West, south, east, north of the narrowest box; west is above east across the antimeridian. */
export function boundingBox(
  places: readonly LonLat[],
): readonly [west: number, south: number, east: number, north: number] | null {
  if (places.length === 0) return null
  let south = 90
  let north = -90
  for (const [, latitude] of places) {
    south = Math.min(south, latitude)
    north = Math.max(north, latitude)
  }
  const longitudes = Float64Array.from(places, ([longitude]) => longitude).sort()
  const last = longitudes.length - 1
  let west = longitudes[0]
  let east = longitudes[last]
  let widest = west + 360 - east
  for (let i = 0; i < last; i++) {
    const empty = longitudes[i + 1] - longitudes[i]
    if (empty <= widest || empty <= 180) continue
    widest = empty
    west = longitudes[i + 1]
    east = longitudes[i]
  }
  return [west, south, east, north]
}

/** Parts that each stay on one side; a step of more than half a turn is one across the ±180° line. */
function cutAtAntimeridian(line: readonly LonLat[]): LonLat[][] {
  const parts: LonLat[][] = [[]]
  line.forEach((place, i) => {
    const before = i > 0 ? line[i - 1] : place
    if (Math.abs(place[0] - before[0]) > 180) {
      const side = before[0] > 0 ? 180 : -180
      const away = side - before[0]
      const further = place[0] + side
      const step = Math.abs(away) + Math.abs(further)
      const latitude =
        step === 0 ? place[1] : before[1] + (Math.abs(away) / step) * (place[1] - before[1])
      parts[parts.length - 1].push([side, latitude])
      parts.push([[-side, latitude]])
    }
    parts[parts.length - 1].push(place)
  })
  return parts
}

function withoutRepeats(line: readonly LonLat[]): LonLat[] {
  return line.filter((place, i) => i === 0 || !same(place, line[i - 1]))
}

/** Whether two places are written alike. */
function same(a: LonLat, b: LonLat): boolean {
  return degrees(a[0]) === degrees(b[0]) && degrees(a[1]) === degrees(b[1])
}

function feature(geometry: string, properties: readonly Property[]): string {
  const members = properties.map(([name, value]) => `${JSON.stringify(name)}:${jsonValue(value)}`)
  return `{"type":"Feature","geometry":${geometry},"properties":{${members.join(',')}}}`
}

function jsonValue(value: string | number | null): string {
  if (typeof value === 'number') return Number.isFinite(value) ? JSON.stringify(value) : 'null'
  return JSON.stringify(value)
}

function positions(line: readonly LonLat[]): string {
  return `[${line.map(position).join(',')}]`
}

function position([longitude, latitude]: LonLat): string {
  return `[${degrees(longitude)},${degrees(latitude)}]`
}

/** @throws RangeError for what is no number of degrees: a place that is none must not be written. */
function degrees(value: number): string {
  const written = rounded(value, DEGREE_DECIMALS)
  if (written === null || Math.abs(written) > 180) {
    throw new RangeError(
      `${value} is no longitude or latitude: the working CRS does not reach there.`,
    )
  }
  return String(written)
}
