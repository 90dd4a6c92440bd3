/** Rasters of the ground and of the truth (GeoTIFF, OGC 19-008r4). */
import { writeArrayBuffer } from 'geotiff'
import { AREA, EPSG, type GroundPoint } from './place'

/** A raster's frame: its edges, cell size and counts. */
export interface Frame {
  readonly west: number
  readonly north: number
  readonly cell: number
  readonly columns: number
  readonly rows: number
}

/** The frame over the area with a margin, metres; edges are multiples of the cell. */
export function frameOver(margin: number, cell: number): Frame {
  const west = AREA.west - margin
  const north = AREA.north + margin
  return {
    west,
    north,
    cell,
    columns: (AREA.east + margin - west) / cell,
    rows: (north - AREA.south + margin) / cell,
  }
}

/** A value at every cell's centre, the northernmost row first. */
export function sampleFrame(frame: Frame, value: (point: GroundPoint) => number): number[] {
  return Array.from({ length: frame.columns * frame.rows }, (_, i) =>
    value({
      x: frame.west + ((i % frame.columns) + 0.5) * frame.cell,
      y: frame.north - (Math.floor(i / frame.columns) + 0.5) * frame.cell,
    }),
  )
}

/** One band of 32-bit floats or of bytes as GeoTIFF in the area's CRS. */
export function writeRaster(
  frame: Frame,
  values: readonly number[],
  kind: 'float' | 'byte',
  nodata: string,
): Uint8Array {
  const typed = kind === 'float' ? Float32Array.from(values) : Uint8Array.from(values)
  const buffer = writeArrayBuffer(typed, {
    width: frame.columns,
    height: frame.rows,
    BitsPerSample: [kind === 'float' ? 32 : 8],
    SampleFormat: [kind === 'float' ? 3 : 1],
    SamplesPerPixel: 1,
    GTModelTypeGeoKey: 1,
    GTRasterTypeGeoKey: 1,
    ProjectedCSTypeGeoKey: EPSG,
    ModelPixelScale: [frame.cell, frame.cell, 0],
    ModelTiepoint: [0, 0, 0, frame.west, frame.north, 0],
    GDAL_NODATA: nodata,
  })
  return new Uint8Array(buffer)
}
