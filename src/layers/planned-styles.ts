/** Styles that go with the layers, and waypoints: written where a legend is given. */
import type { RampName } from '../colour/ramp-tables'
import { stationsGpx } from './gpx'
import type { LayersInput, PlannedFile } from './export-input'
import { classSymbols, codeColours, rampStops, type RampStop } from './legend'
import { mapStyle } from './map-style'
import { classesSld, stationsSld, surfaceSld } from './sld'

interface StyledSurface {
  readonly surface: string
  /** Its file's name without an extension. */
  readonly file: string
  readonly stops: () => RampStop[]
}

/**
 * A style a surface; and but for a local grid, which has no GeoJSON, one for the stations, a map
 * style and the stations as waypoints.
 *
 * @param files the surfaces' file names without an extension
 */
export function plannedStyles(input: LayersInput, files: readonly string[]): PlannedFile[] {
  const { crs, legend, stations } = input
  if (legend === undefined) return []
  const symbols = classSymbols(legend.classes)
  const surfaces = styledSurfaces(input, legend.ramp, files)
  const style = (file: string, name: string, write: () => Uint8Array): PlannedFile => ({
    file: `${file}.sld`,
    holds: 'style',
    name,
    write,
  })
  const ofSurfaces = [
    ...surfaces.map(({ surface, file, stops }) =>
      style(file, surface, () => surfaceSld(surface, stops())),
    ),
    ...input.surfaces.flatMap(({ rule: { name }, likeliest }, at) =>
      likeliest
        ? [style(files[at], name, () => classesSld(name, codeColours(likeliest, legend.classes)))]
        : [],
    ),
  ]
  if (crs.kind === 'local') return ofSurfaces
  const contours = () =>
    surfaces.map(({ surface, file, stops }) => ({
      surface,
      file: `${file}.contours.geojson`,
      stops: stops(),
    }))
  const planned = (
    file: string,
    holds: PlannedFile['holds'],
    write: () => Uint8Array,
  ): PlannedFile => ({ file, holds, name: 'stations', write })
  return [
    ...ofSurfaces,
    planned('stations.sld', 'style', () => stationsSld(symbols)),
    planned('map-style.json', 'style', () => mapStyle(symbols, contours())),
    planned('stations.gpx', 'points', () => stationsGpx(stations)),
  ]
}

/** Surfaces that were computed and hold a value. */
function styledSurfaces(
  { surfaces }: LayersInput,
  ramp: RampName,
  files: readonly string[],
): StyledSurface[] {
  return surfaces.flatMap(({ rule, bands, likeliest }, at) => {
    if (likeliest || bands === null || bands.estimate.every(Number.isNaN)) return []
    const stops = (): RampStop[] => rampStops(bands.estimate, ramp)
    return [{ surface: rule.name, file: files[at], stops }]
  })
}
