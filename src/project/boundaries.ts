/** A surface's limits and faults, from the project's GeoJSON files to the working CRS. */
import type { Geometry, Position } from 'geojson'
import type { DriftInput } from '../jobs/drift-raster'
import type { WorkingCrs } from '../places/crs'
import type { InputFile } from '../readers/input'
import type { Boundaries, Polygon } from '../surfaces/boundaries'
import type { SurfaceRule } from '../surfaces/model'
import { readOutlines } from './outlines'

/** Longer steps are cut: a straight step in degrees is a bent one in a projection. Degrees. */
const LONGEST_STEP = 0.01
/** Corners after cutting; more would make every node slow. */
const MOST_CORNERS = 100_000

/**
 * The boundaries that a rule names.
 *
 * @param ground the project's GeoJSON files; a name may leave out the folders before it
 * @returns null where it names none
 * @throws Error in words: no such file, nothing of use in it, a place outside the working CRS
 */
export function boundariesOf(
  { within, barriers }: SurfaceRule,
  ground: readonly InputFile[],
  crs: WorkingCrs,
): Boundaries | null {
  if (within === undefined && barriers === undefined) return null
  return {
    within: within === undefined ? null : polygonsOf(fileNamed(within, ground), crs),
    barriers: barriers === undefined ? null : barriersOf(fileNamed(barriers, ground), crs),
  }
}

/**
 * The raster that a rule names as drift; null where it names none.
 *
 * @throws Error in words where the project has no such file
 */
export function driftOf(
  { drift }: Pick<SurfaceRule, 'drift'>,
  ground: readonly InputFile[],
  crs: WorkingCrs,
): DriftInput | null {
  return drift === undefined ? null : { file: fileNamed(drift, ground, 'raster'), crs: crs.code }
}

function fileNamed(name: string, ground: readonly InputFile[], kind = 'GeoJSON file'): InputFile {
  const fits = ground.filter(({ path }) => path === name || path.endsWith(`/${name}`))
  if (fits.length === 1) return fits[0]
  if (fits.length > 1)
    throw new Error(`Several files end in ‘${name}’: name one of them with its folder.`)
  throw new Error(`The project has no ${kind} ‘${name}’; bring it in, or mend its name.`)
}

function polygonsOf(file: InputFile, crs: WorkingCrs): Polygon[] {
  const lines = new Lines(file.path, crs)
  const polygons = geometriesOf(file).flatMap((geometry) =>
    geometry.type === 'Polygon'
      ? [geometry.coordinates]
      : geometry.type === 'MultiPolygon'
        ? geometry.coordinates
        : [],
  )
  if (polygons.length === 0)
    throw new Error(`${file.path} holds no polygons to draw a surface within.`)
  return polygons.map((rings) => rings.map((ring) => lines.project(ring)))
}

/** Lines as straight pieces; the outlines of polygons where a file holds no lines. */
function barriersOf(file: InputFile, crs: WorkingCrs): Float64Array {
  const project = new Lines(file.path, crs)
  const geometries = geometriesOf(file)
  const lines = geometries.flatMap(linesOf)
  const pieces: number[] = []
  for (const line of lines.length > 0 ? lines : geometries.flatMap(outlinesOf)) {
    const corners = project.project(line)
    for (let at = 0; at + 3 < corners.length; at += 2) pieces.push(...corners.subarray(at, at + 4))
  }
  if (pieces.length === 0) throw new Error(`${file.path} holds no lines that could be barriers.`)
  return Float64Array.from(pieces)
}

function linesOf(geometry: Geometry): Position[][] {
  if (geometry.type === 'LineString') return [geometry.coordinates]
  return geometry.type === 'MultiLineString' ? geometry.coordinates : []
}

function outlinesOf(geometry: Geometry): Position[][] {
  if (geometry.type === 'Polygon') return geometry.coordinates
  return geometry.type === 'MultiPolygon' ? geometry.coordinates.flat() : []
}

/** All geometries of a file, those in collections too. */
function geometriesOf(file: InputFile): Geometry[] {
  const open = (geometry: Geometry | null, depth: number): Geometry[] =>
    geometry?.type === 'GeometryCollection' && depth < 8
      ? geometry.geometries.flatMap((each) => open(each, depth + 1))
      : geometry
        ? [geometry]
        : []
  return readOutlines(file).features.flatMap(({ geometry }) => open(geometry, 0))
}

/** Projects lines of one file. */
class Lines {
  private corners = 0

  constructor(
    private readonly file: string,
    private readonly crs: WorkingCrs,
  ) {
    if (crs.kind === 'local')
      throw new Error(
        `The working grid ${crs.code} is tied to nothing, so ${file}, which is in degrees, has no ` +
          'place on it.',
      )
  }

  /** A line's corners in working units, long steps cut into shorter ones. */
  project(line: readonly Position[]): Float64Array {
    const out: number[] = []
    line.forEach((corner, i) => {
      const [longitude, latitude] = this.degrees(corner)
      const [fromLongitude, fromLatitude] =
        i === 0 ? [longitude, latitude] : this.degrees(line[i - 1])
      const [dx, dy] = [longitude - fromLongitude, latitude - fromLatitude]
      const steps = i === 0 ? 1 : Math.max(1, Math.ceil(Math.hypot(dx, dy) / LONGEST_STEP))
      this.corners += steps
      if (this.corners > MOST_CORNERS)
        throw new Error(`${this.file} has more than ${MOST_CORNERS} corners; simplify its lines.`)
      for (let step = 1; step <= steps; step++) {
        const part = step / steps
        out.push(...this.place(fromLongitude + part * dx, fromLatitude + part * dy))
      }
    })
    return Float64Array.from(out)
  }

  private degrees(corner: unknown): [longitude: number, latitude: number] {
    const [longitude, latitude] = Array.isArray(corner) ? (corner as unknown[]) : []
    if (
      typeof longitude === 'number' &&
      typeof latitude === 'number' &&
      Math.abs(longitude) <= 180 &&
      Math.abs(latitude) <= 90
    )
      return [longitude, latitude]
    throw new Error(
      `${this.file} has a corner ${JSON.stringify(corner)}; GeoJSON has longitude and latitude ` +
        'in degrees on WGS 84.',
    )
  }

  private place(longitude: number, latitude: number): readonly [number, number] {
    const place = this.crs.fromGeographic(longitude, latitude)
    if (place && place.every(Number.isFinite)) return place
    throw new Error(
      `${this.file} runs to ${longitude}, ${latitude}, which the working CRS ${this.crs.code} ` +
        'does not hold; clip it to the ground of the stations.',
    )
  }
}
