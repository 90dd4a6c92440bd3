/**
 * GeoTIFF (OGC 19-008r4): Float32, a plane a band, tiled, deflated, with nodata, band names and
 * units. The same input gives the same bytes: no date, no machine, no program version.
 */
import type { WorkingCrs } from '../places/crs'
import type { Grid } from '../surfaces/model'
import {
  compressedTiles,
  halved,
  halvedCodes,
  NODATA,
  TILE,
  writtenValues,
  type BandStatistics,
  type Raster,
} from './raster-tiles'
import { tiffFile, type TiffField, type TiffImage } from './tiff-directory'
import { xmlText } from './xml-text'

/** One band. */
export interface GeotiffBand {
  /** Row-major, row 0 northernmost, one a node of the grid; NaN where there is none. */
  readonly values: ArrayLike<number>
  readonly description: string
  /** Empty for a pure number. */
  readonly unit: string
  /** Numbers that stand for names: overviews repeat one of them, and no statistics are told. */
  readonly codes?: boolean
}

export interface GeotiffInput {
  /** What the raster is of. */
  readonly title: string
  readonly grid: Grid
  readonly crs: WorkingCrs
  readonly bands: readonly GeotiffBand[]
  /** Further items for the metadata, of the file as a whole. */
  readonly notes?: readonly (readonly [name: string, text: string])[]
}

/** Rasters up to this many columns and rows open quickly without overviews. */
const LARGEST_WITHOUT_OVERVIEWS = 512
/** More would be a mistake in the cell: 16,000 x 16,000 cells of one band fill a gigabyte. */
const MOST_CELLS = 256e6

/**
 * The file's bytes.
 *
 * @throws RangeError where a band's length is not the grid's, the grid is empty or unreasonably
 *   large, or the EPSG code does not fit a GeoKey.
 */
export function geotiff(input: GeotiffInput): Uint8Array {
  const { grid, bands } = input
  checkShape(input)
  const written = bands.map(({ values }) => writtenValues(values))
  const { columns, rows } = grid
  let rasters = written.map(({ values }): Raster => ({ columns, rows, values }))
  const statistics = written.map((band) => band.statistics)
  const images: TiffImage[] = [
    {
      fields: [...imageFields(rasters, false), ...wholeFields(input, statistics)],
      tiles: compressedTiles(rasters),
    },
  ]
  if (Math.max(grid.columns, grid.rows) > LARGEST_WITHOUT_OVERVIEWS) {
    while (Math.max(rasters[0].columns, rasters[0].rows) > TILE) {
      rasters = rasters.map((raster, at) => (bands[at].codes ? halvedCodes : halved)(raster))
      images.push({ fields: imageFields(rasters, true), tiles: compressedTiles(rasters) })
    }
  }
  return tiffFile(images)
}

function checkShape({ title, grid, bands }: GeotiffInput): void {
  const cells = grid.columns * grid.rows
  if (bands.length === 0 || !(cells > 0)) throw new RangeError(`“${title}” has no cell to write.`)
  if (cells > MOST_CELLS) {
    throw new RangeError(
      `“${title}” has ${grid.columns} x ${grid.rows} cells, too many for one raster: use a larger cell.`,
    )
  }
  for (const band of bands) {
    if (band.values.length === cells) continue
    throw new RangeError(
      `“${title}”, ${band.description}: ${band.values.length} values for ${cells} cells.`,
    )
  }
}

/** Fields of the image proper (TIFF 6.0), an overview's too. */
function imageFields(rasters: readonly Raster[], overview: boolean): TiffField[] {
  const each = (value: number): number[] => rasters.map(() => value)
  const fields: TiffField[] = [
    { tag: 254, longs: [overview ? 1 : 0] },
    { tag: 256, longs: [rasters[0].columns] },
    { tag: 257, longs: [rasters[0].rows] },
    { tag: 258, shorts: each(32) },
    // Deflate; black is zero; separate planes; floating-point predictor.
    { tag: 259, shorts: [8] },
    { tag: 262, shorts: [1] },
    { tag: 277, shorts: [rasters.length] },
    { tag: 284, shorts: [2] },
    { tag: 317, shorts: [3] },
    { tag: 322, longs: [TILE] },
    { tag: 323, longs: [TILE] },
    { tag: 339, shorts: each(3) },
    { tag: 42113, ascii: String(NODATA) },
  ]
  // Bands after the first are no colours and no transparency.
  if (rasters.length > 1) fields.push({ tag: 338, shorts: each(0).slice(1) })
  return fields
}

/** Fields that speak of the raster as a whole: where it lies and what its bands are. */
function wholeFields(input: GeotiffInput, statistics: readonly BandStatistics[]): TiffField[] {
  const { grid, crs, title } = input
  return [
    { tag: 270, ascii: title },
    { tag: 33550, doubles: [grid.cell, grid.cell, 0] },
    { tag: 33922, doubles: [0, 0, 0, grid.west, grid.north, 0] },
    ...geoKeys(crs),
    { tag: 42112, ascii: metadata(input, statistics) },
  ]
}

/** EPSG unit codes for ProjLinearUnitsGeoKey. */
const LINEAR_UNITS: Readonly<Record<string, number>> = {
  m: 9001,
  ft: 9002,
  'us-ft': 9003,
  km: 9036,
}
const DEGREE = 9102
const PIXEL_IS_AREA = 1

/**
 * The key directory and the text it points to. A local grid gets none, for GDAL makes a nameless
 * CRS out of any; cells are areas without it too.
 */
function geoKeys(crs: WorkingCrs): TiffField[] {
  if (crs.kind === 'local') return []
  const citation = `${crs.name.replace(/[^ -{}~]/g, '?')}|`
  const projected = crs.kind === 'projected'
  const keys = [
    [1024, 0, 1, projected ? 1 : 2],
    [1025, 0, 1, PIXEL_IS_AREA],
    [1026, 34737, citation.length, 0],
  ]
  if (projected) {
    keys.push([3072, 0, 1, epsgCode(crs)])
    const unit = LINEAR_UNITS[crs.unit]
    if (unit !== undefined) keys.push([3076, 0, 1, unit])
  } else {
    keys.push([2048, 0, 1, epsgCode(crs)], [2054, 0, 1, DEGREE])
  }
  return [
    { tag: 34735, shorts: [1, 1, 0, keys.length, ...keys.flat()] },
    { tag: 34737, ascii: citation },
  ]
}

/** @throws RangeError for a code that no GeoKey can hold. */
function epsgCode(crs: WorkingCrs): number {
  const code = Number(/^EPSG:(\d+)$/.exec(crs.code)?.[1])
  if (code >= 1024 && code <= 32766) return code
  throw new RangeError(
    `${crs.code} cannot stand in a GeoTIFF, whose keys hold EPSG codes from 1024 to 32766: work in another CRS.`,
  )
}

/** GDAL's metadata tag: band names, units and the range that a GIS stretches its colours over. */
function metadata(
  { bands, crs, notes = [] }: GeotiffInput,
  statistics: readonly BandStatistics[],
): string {
  const items = bands.flatMap((band, sample) => [
    item(`name="DESCRIPTION" sample="${sample}" role="description"`, band.description),
    item(`name="UNITTYPE" sample="${sample}" role="unittype"`, band.unit),
    ...(band.codes ? [] : statisticsItems(statistics[sample])).map(([name, value]) =>
      item(`name="STATISTICS_${name}" sample="${sample}"`, String(value)),
    ),
  ])
  const tied = crs.kind === 'local' ? ', tied to nothing' : ''
  const where = item('name="CRS"', `${crs.code}, ${crs.name}${tied}`)
  const named = notes.map(([name, text]) => item(`name="${name}"`, text))
  return `<GDALMetadata>\n${[where, ...named, ...items].join('\n')}\n</GDALMetadata>\n`
}

/** GDAL writes and reads the text escaped twice over. */
function item(attributes: string, text: string): string {
  return `<Item ${attributes}>${xmlText(xmlText(text))}</Item>`
}

function statisticsItems(band: BandStatistics): [name: string, value: number][] {
  if (band.count === 0) return []
  return [
    ['MINIMUM', band.minimum],
    ['MAXIMUM', band.maximum],
    ['MEAN', band.mean],
    ['STDDEV', band.standardDeviation],
  ]
}
