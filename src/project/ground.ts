/** The ground under the stations: elevation models and outlines. */
import type { Feature, FeatureCollection } from 'geojson'
import type { InputFile, Problem } from '../readers/input'
import type { Grid } from '../surfaces/model'

/** Elevations in metres on a square grid of some CRS; NaN where there is none. */
export interface ElevationModel {
  readonly file: string
  /** `EPSG:n` */
  readonly crs: string
  readonly grid: Grid
  readonly values: Float32Array
}

/** A model larger than this is read at a coarser step, cells along a side. */
const MAX_SIDE = 2000
/** Outlines with more features than this are refused. */
const MAX_FEATURES = 50_000

/**
 * Reads an elevation model from a GeoTIFF.
 *
 * @throws Error that says what is missing or wrong
 */
export async function readElevations(file: InputFile): Promise<ElevationModel> {
  const { fromArrayBuffer } = await import('geotiff')
  const tiff = await fromArrayBuffer(file.bytes.slice().buffer)
  const image = await tiff.getImage()
  const keys = image.getGeoKeys() as Record<string, number> | null
  const code = keys?.ProjectedCSTypeGeoKey ?? keys?.GeographicTypeGeoKey
  if (!code || code === 32767) throw new Error(`${file.path} does not say its EPSG code.`)
  const [west, south, east, north] = image.getBoundingBox() as [number, number, number, number]
  const step = Math.max(1, Math.max(image.getWidth(), image.getHeight()) / MAX_SIDE)
  const cell =
    Math.max((east - west) / image.getWidth(), (north - south) / image.getHeight()) * step
  const columns = Math.max(1, Math.round((east - west) / cell))
  const rows = Math.max(1, Math.round((north - south) / cell))
  const [band] = (await image.readRasters({
    samples: [0],
    width: columns,
    height: rows,
    resampleMethod: 'bilinear',
  })) as unknown as [ArrayLike<number>]
  const nodata = image.getGDALNoData()
  const values = Float32Array.from({ length: columns * rows }, (_, i) =>
    nodata !== null && band[i] === nodata ? NaN : band[i],
  )
  return {
    file: file.path,
    crs: `EPSG:${code}`,
    grid: { west, north, cell, columns, rows },
    values,
  }
}

/**
 * Reads outlines from GeoJSON (RFC 7946: degrees on WGS 84).
 *
 * @throws Error that says what is wrong
 */
export function readOutlines(file: InputFile): FeatureCollection {
  const json = JSON.parse(new TextDecoder().decode(file.bytes)) as unknown
  const features = featuresOf(json)
  if (features.length > MAX_FEATURES) {
    throw new Error(`${file.path} holds more than ${MAX_FEATURES} features.`)
  }
  return { type: 'FeatureCollection', features }
}

function featuresOf(json: unknown): Feature[] {
  if (typeof json !== 'object' || json === null) throw new Error('no GeoJSON object')
  const { type, features } = json as { type?: string; features?: unknown }
  if (type === 'FeatureCollection' && Array.isArray(features)) return features as Feature[]
  if (type === 'Feature') return [json as Feature]
  throw new Error(`a ${String(type)} is neither a Feature nor a FeatureCollection`)
}

/** A problem with a ground file, in the words of `problems.csv`. */
export function groundProblem(file: InputFile, error: unknown): Problem {
  return {
    file: file.path,
    line: null,
    problem: error instanceof Error ? error.message : String(error),
    done: 'left off the map; everything else goes on',
  }
}
