/**
 * A strict reading of RFC 7946, written from its text for these tests alone. Each check names its
 * section.
 */
type Json = Record<string, unknown>

const GEOMETRIES = ['Point', 'LineString', 'MultiLineString', 'Polygon']

/** What breaks RFC 7946 in a FeatureCollection, as `path: what`; empty when nothing does. */
export function rfc7946Faults(text: string): string[] {
  const faults: string[] = []
  const fault = (path: string, what: string): number => faults.push(`${path}: ${what}`)
  if (text.startsWith('\uFEFF')) fault('', 'byte order mark (RFC 8259 section 8.1)')
  const root = JSON.parse(text) as Json
  if (root.type !== 'FeatureCollection') fault('', 'not a FeatureCollection (section 3.3)')
  if ('crs' in root) fault('', 'crs member (section 4)')
  if (!Array.isArray(root.features)) return [...faults, 'features is no array (section 3.3)']
  const all: [number, number][] = []
  root.features.forEach((feature: Json, i) => {
    const path = `features[${i}]`
    if (feature.type !== 'Feature') fault(path, 'type (section 3.2)')
    for (const member of ['geometry', 'properties']) {
      if (!(member in feature)) fault(path, `no ${member} (section 3.2)`)
    }
    for (const foreign of ['coordinates', 'geometries', 'features', 'crs']) {
      if (foreign in feature) fault(path, `${foreign} in a feature (section 7.1)`)
    }
    if (feature.properties !== null && typeof feature.properties !== 'object') {
      fault(path, 'properties is no object (section 3.2)')
    }
    if (feature.geometry !== null) {
      all.push(...geometryFaults(feature.geometry as Json, `${path}.geometry`, fault))
    }
  })
  if ('bbox' in root) boxFaults(root.bbox, all, fault)
  return faults
}

function geometryFaults(
  geometry: Json,
  path: string,
  fault: (path: string, what: string) => void,
): [number, number][] {
  const { type, coordinates } = geometry
  for (const foreign of ['geometry', 'properties', 'features', 'crs']) {
    if (foreign in geometry) fault(path, `${foreign} in a geometry (section 7.1)`)
  }
  if (!GEOMETRIES.includes(type as string)) fault(path, `type ${String(type)} (section 1.4)`)
  const lines = linesOf(type as string, coordinates)
  for (const line of lines) {
    for (const position of line) {
      if (position.length < 2 || position.length > 3) fault(path, 'position (section 3.1.1)')
      if (!position.every((n) => typeof n === 'number')) fault(path, 'position (section 3.1.1)')
      if (Math.abs(position[0]) > 180 || Math.abs(position[1]) > 90) fault(path, 'section 4')
    }
    if (type !== 'Point' && line.length < 2) fault(path, 'a short line (section 3.1.4)')
    for (let i = 1; i < line.length; i++) {
      if (Math.abs(line[i][0] - line[i - 1][0]) > 180) fault(path, 'not cut (section 3.1.9)')
    }
  }
  if (type === 'Polygon') lines.forEach((ring, at) => ringFaults(ring, at, path, fault))
  return lines.flat() as [number, number][]
}

function linesOf(type: string, coordinates: unknown): number[][][] {
  if (type === 'Point') return [[coordinates as number[]]]
  return type === 'LineString' ? [coordinates as number[][]] : (coordinates as number[][][])
}

function ringFaults(
  ring: number[][],
  at: number,
  path: string,
  fault: (path: string, what: string) => void,
): void {
  const last = ring[ring.length - 1]
  if (ring.length < 4) fault(path, 'fewer than four positions (section 3.1.6)')
  if (ring[0][0] !== last[0] || ring[0][1] !== last[1]) fault(path, 'open ring (section 3.1.6)')
  let twice = 0
  for (let i = 1; i < ring.length; i++) {
    twice += ring[i - 1][0] * ring[i][1] - ring[i][0] * ring[i - 1][1]
  }
  if (twice > 0 !== (at === 0)) fault(path, 'right-hand rule (section 3.1.6)')
}

function boxFaults(
  box: unknown,
  all: [number, number][],
  fault: (path: string, what: string) => void,
): void {
  if (!Array.isArray(box) || box.length !== 4) {
    fault('bbox', 'not four numbers (section 5)')
    return
  }
  const [west, south, east, north] = box as number[]
  if (south > north) fault('bbox', 'south above north (section 5.3)')
  for (const [longitude, latitude] of all) {
    const within =
      west <= east ? longitude >= west && longitude <= east : longitude >= west || longitude <= east
    if (!within || latitude < south || latitude > north)
      fault('bbox', 'a place outside (section 5)')
  }
}
