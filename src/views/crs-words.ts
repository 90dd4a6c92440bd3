/** The working coordinate system in words. */
import type { WorkingCrs } from '../places/crs'

/**
 * Where an automatic working system comes from, in brackets; empty where it was set.
 *
 * @param setting the recipe's `crs`
 */
export function crsOrigin(setting: string, { kind }: Pick<WorkingCrs, 'kind'>): string {
  if (setting !== 'auto') return ''
  return kind === 'local'
    ? '(the tables’ own grid, for nothing stands on the globe)'
    : '(the UTM zone of the median station)'
}

/** In which systems the layers leave. */
export function layersCrs({ kind, code }: Pick<WorkingCrs, 'kind' | 'code'>): string {
  return kind === 'local'
    ? `All is on the grid ${code}, which is tied to nothing: there is no longitude, latitude or GeoJSON.`
    : `Rasters are in ${code}, vectors in WGS 84.`
}
