/**
 * `NAME.bands.geojson` and `NAME.classes.geojson`: the ground between two levels of a surface, and
 * of each likeliest class, as polygons on WGS 84.
 */
import type { WorkingCrs } from '../places/crs'
import { classAreas, filledBands } from '../surfaces/filled-bands'
import type { SurfaceBands } from '../surfaces/model'
import { polygonsOf } from '../surfaces/ring-nesting'
import { simpleParts, type Ring } from '../surfaces/rings'
import { DEGREE_DECIMALS, rounded } from './decimals'
import {
  featureCollection,
  polygonFeature,
  type FeatureText,
  type LonLat,
  type Property,
} from './geojson'
import type { LayerClass } from './surface-layer'

/** Decimals of a level: enough to tell levels apart that no step of a surface would. */
const LEVEL_DECIMALS = 9

/**
 * Bands between levels: a Polygon each with `surface`, `from`, `to` (null for no end), `unit` and
 * `label`.
 *
 * @returns null for a local grid, which has no longitude and latitude
 */
export function bandsGeojson(
  surface: string,
  unit: string,
  { grid, estimate }: Pick<SurfaceBands, 'grid' | 'estimate'>,
  levels: readonly number[],
  crs: WorkingCrs,
): Uint8Array | null {
  if (crs.kind === 'local') return null
  const features = filledBands(grid, estimate, levels).flatMap(({ from, to, rings }) =>
    polygonFeatures(rings, crs, [
      ['surface', surface],
      ['from', from === null ? null : rounded(from, LEVEL_DECIMALS)],
      ['to', to === null ? null : rounded(to, LEVEL_DECIMALS)],
      ['unit', unit],
      ['label', bandLabel(from, to, unit)],
    ]),
  )
  return featureCollection(features)
}

/** Such as `2200 to 2205 nm`, `below 2200 nm`, `2215 nm and above`. */
export function bandLabel(from: number | null, to: number | null, unit: string): string {
  const of = (level: number) => String(rounded(level, LEVEL_DECIMALS))
  const tail = unit === '' ? '' : ` ${unit}`
  if (from === null) return to === null ? 'all' : `below ${of(to)}${tail}`
  return to === null ? `${of(from)}${tail} and above` : `${of(from)} to ${of(to)}${tail}`
}

/**
 * Ground of each likeliest class, cell by cell: a Polygon each with `surface`, `code` and `class`.
 *
 * @returns null for a local grid
 */
export function classesGeojson(
  surface: string,
  { grid, estimate }: Pick<SurfaceBands, 'grid' | 'estimate'>,
  classes: readonly LayerClass[],
  crs: WorkingCrs,
): Uint8Array | null {
  if (crs.kind === 'local') return null
  const features = classAreas(grid, estimate).flatMap(({ code, rings }) =>
    polygonFeatures(rings, crs, [
      ['surface', surface],
      ['code', code],
      ['class', classes.find((each) => each.code === code)?.name ?? ''],
    ]),
  )
  return featureCollection(features)
}

/**
 * Polygons of rings. A ring with a corner beyond the projection's reach, or across the
 * antimeridian, is left out.
 */
function polygonFeatures(
  rings: readonly Ring[],
  crs: WorkingCrs,
  properties: readonly Property[],
): FeatureText[] {
  const written = rings.flatMap((ring) => ringsOnGlobe(ring, crs))
  return polygonsOf(written).map(({ outer, holes }) =>
    polygonFeature([outer, ...holes].map(corners), properties),
  )
}

function corners({ x, y }: Ring): LonLat[] {
  return Array.from(x, (longitude, i) => [longitude, y[i]] as const)
}

/** A ring as it is written: rounded, and cut where rounding makes it touch itself. */
function ringsOnGlobe({ x, y }: Ring, crs: WorkingCrs): Ring[] {
  const places: LonLat[] = []
  for (let i = 0; i < x.length; i++) {
    const place = crs.toGeographic(x[i], y[i])
    if (place === null) return []
    const [longitude, latitude] = place.map((each) => rounded(each, DEGREE_DECIMALS) ?? NaN)
    if (i > 0 && Math.abs(longitude - places[i - 1][0]) > 180) return []
    places.push([longitude, latitude])
  }
  return simpleParts(places, ([longitude, latitude]) => `${longitude} ${latitude}`).map(ringOf)
}

function ringOf(places: readonly LonLat[]): Ring {
  return {
    x: Float64Array.from(places, ([longitude]) => longitude),
    y: Float64Array.from(places, ([, latitude]) => latitude),
  }
}
