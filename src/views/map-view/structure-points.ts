/** Structural measurements of stations on the ground, as the map draws them. */
import type { Feature, FeatureCollection, Point } from 'geojson'
import { strikeOf } from '../../layers/structures-geojson'
import type { StructureProperties } from '../../map/structure-layer'
import { ARROW, structureSymbolOf, TICK } from '../../map/structure-symbols'
import type { Station } from '../../places/station'
import type { StationRecord } from '../../project/station-record'
import { trueAzimuth, type Structure } from '../../project/structures'
import type { StationPlaces } from './station-marks'

/** Room between a tick's or an arrow's end and the middle of its number, symbol units. */
const ROOM = 9

/**
 * A feature a plane or line; oriented core and what was measured in holes has no strike on the
 * ground and is left out.
 *
 * @param perLetter symbol units a height of the map's type
 */
export function structurePoints(
  stations: readonly Station[],
  records: readonly StationRecord[],
  { shown, longitudes, latitudes }: StationPlaces,
  perLetter: number,
): FeatureCollection<Point, StructureProperties> {
  const features: Feature<Point, StructureProperties>[] = []
  shown.forEach((number, mark) => {
    if (stations[number].hole !== null) return
    for (const structure of records[number]?.structures ?? []) {
      const properties = drawnAs(structure, perLetter)
      if (properties === null) continue
      const coordinates = [longitudes[mark], latitudes[mark]]
      features.push({ type: 'Feature', geometry: { type: 'Point', coordinates }, properties })
    }
  })
  return { type: 'FeatureCollection', features }
}

function drawnAs(structure: Structure, perLetter: number): StructureProperties | null {
  const symbol = structureSymbolOf(structure)
  if (structure.form === 'core' || symbol === null) return null
  const offset = (azimuth: number, reach: number): [number, number] => {
    const radians = (azimuth * Math.PI) / 180
    const far = (reach + ROOM) / perLetter
    return [far * Math.sin(radians), -far * Math.cos(radians)]
  }
  if (structure.form === 'plane') {
    const { dip, dip_direction: read, declination } = structure
    const direction = trueAzimuth(read, declination)
    const isSaid = symbol === 'vertical' || symbol === 'horizontal'
    const label = isSaid ? '' : String(Math.round(dip))
    return { symbol, turn: strikeOf(direction), label, offset: offset(direction, TICK) }
  }
  const trend = trueAzimuth(structure.trend, structure.declination)
  const label = symbol === 'plunging' ? String(Math.round(structure.plunge)) : ''
  return { symbol, turn: trend, label, offset: offset(trend, ARROW) }
}
