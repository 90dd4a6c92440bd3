/** Styles that go with the layers, and waypoints: written where a legend is given. */
import type { LayersInput, PlannedFile } from './export-input'
import { stationsGpx } from './gpx'
import { classSymbols, codeColours, rampStops, surfaceRamp } from './legend'
import { mapStyle, type StyledClasses, type StyledValues } from './map-style'
import { classesSld, stationsSld, surfaceSld } from './sld'

/** A surface's look, worked out when it is written. */
interface StyledSurface {
  readonly name: string
  /** Its files' name without an extension. */
  readonly file: string
  readonly look: () => StyledValues | StyledClasses
}

/**
 * A style a surface; and but for a local grid, which has no GeoJSON, one for the stations, a map
 * style and the stations as waypoints.
 *
 * @param files the surfaces' file names without an extension
 */
export function plannedStyles(input: LayersInput, files: readonly string[]): PlannedFile[] {
  const { crs, legend, stations, traverse } = input
  if (legend === undefined) return []
  const symbols = classSymbols(legend.classes)
  const surfaces = styledSurfaces(input, files)
  const ofSurfaces = surfaces.map(({ name, file, look }): PlannedFile => {
    const write = () => {
      const drawn = look()
      return 'stops' in drawn ? surfaceSld(name, drawn.stops) : classesSld(name, drawn.colours)
    }
    return { file: `${file}.sld`, holds: 'style', name, write }
  })
  if (crs.kind === 'local') return ofSurfaces
  const drawn = () => surfaces.map(({ look }) => look())
  const hasWalk = Boolean(traverse?.plan)
  const planned = (
    file: string,
    holds: PlannedFile['holds'],
    write: () => Uint8Array,
  ): PlannedFile => ({ file, holds, name: 'stations', write })
  return [
    ...ofSurfaces,
    planned('stations.sld', 'style', () => stationsSld(symbols)),
    planned('map-style.json', 'style', () => mapStyle(symbols, drawn(), hasWalk)),
    planned('stations.gpx', 'waypoints', () => stationsGpx(stations)),
  ]
}

/** Surfaces that were computed and hold a value. */
function styledSurfaces(
  { surfaces, legend }: LayersInput,
  files: readonly string[],
): StyledSurface[] {
  return surfaces.flatMap(({ rule: { name, method }, bands, likeliest }, at): StyledSurface[] => {
    const file = files[at]
    if (bands === null || bands.estimate.every(Number.isNaN)) return []
    const look = () => {
      const base = { surface: name, file }
      if (likeliest) return { ...base, colours: codeColours(likeliest, legend?.classes ?? []) }
      const { ramp, stretch } = surfaceRamp(method)
      return { ...base, stops: rampStops(bands.estimate, ramp, stretch) }
    }
    return [{ name, file, look }]
  })
}
