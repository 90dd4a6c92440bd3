/** From working coordinates to the map's degrees and back, also for a grid that is tied to nothing. */
import { openCrs } from '../places/crs'

export interface MapFrame {
  /** Degrees, or null where the place is not on the map. */
  toDegrees(x: number, y: number): readonly [longitude: number, latitude: number] | null
  fromDegrees(longitude: number, latitude: number): readonly [x: number, y: number] | null
}

/** Metres of a degree along the equator of WGS 84. */
const METRES_PER_DEGREE = 111319.4907932736

/**
 * The frame of a working CRS. A local grid is laid around longitude 0, latitude 0, its centre
 * there, so that it can be drawn; its degrees mean nothing and are never shown.
 *
 * @param code the working CRS
 * @param centre of what is drawn, working units; used by local grids alone
 */
export function mapFrame(code: string, centre: readonly [x: number, y: number]): MapFrame {
  const crs = openCrs(code)
  if (crs.kind !== 'local') return { toDegrees: crs.toGeographic, fromDegrees: crs.fromGeographic }
  const scale = crs.metresPerUnit / METRES_PER_DEGREE
  return {
    toDegrees: (x, y) => [(x - centre[0]) * scale, (y - centre[1]) * scale],
    fromDegrees: (longitude, latitude) => [
      longitude / scale + centre[0],
      latitude / scale + centre[1],
    ],
  }
}
