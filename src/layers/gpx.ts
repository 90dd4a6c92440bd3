/** GPX 1.1 waypoints of stations, for a hand-held receiver. */
import { DEGREE_DECIMALS, ELEVATION_DECIMALS, fixed } from './decimals'
import type { StationRow } from './rows'
import { xmlText } from './xml-text'

const CAUTION =
  'Where scans were taken, not a way to walk there: plan routes with maps, local advice and land access in hand.'

/**
 * The bytes of `stations.gpx`: a waypoint a station with a longitude and latitude, its class as
 * the type and its main mineral as the description. Without times.
 */
export function stationsGpx(rows: readonly StationRow[]): Uint8Array {
  const points = rows
    .filter(({ longitude, latitude }) => longitude !== null && latitude !== null)
    .map(waypoint)
  return new TextEncoder().encode(`<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="Aureole" xmlns="http://www.topografix.com/GPX/1/1">
<metadata><name>stations</name><desc>${CAUTION}</desc></metadata>
${points.join('\n')}
</gpx>
`)
}

/** Children in the order that the schema asks for. */
function waypoint(row: StationRow): string {
  const place = `lat="${fixed(row.latitude, DEGREE_DECIMALS)}" lon="${fixed(row.longitude, DEGREE_DECIMALS)}"`
  const mineral = row.mineral ?? ''
  return `<wpt ${place}>${element('ele', fixed(row.elevation, ELEVATION_DECIMALS))}${element('name', row.station)}${element('desc', mineral)}${element('type', row.class ?? '')}</wpt>`
}

/** An element of GPX with its text escaped; nothing where there is no text. */
export function element(name: string, text: string): string {
  return text === '' ? '' : `<${name}>${xmlText(text)}</${name}>`
}
