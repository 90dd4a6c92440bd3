/** `traverse.csv`: a planned walk, a row a place from start to end. */
import type { WorkingCrs } from '../places/crs'
import { csv, type CsvColumn } from './csv'
import { coordinateDecimals, DEGREE_DECIMALS, ELEVATION_DECIMALS, SHARE_DECIMALS } from './decimals'
import { minutesOf, type WalkedWay, type WalkPlace } from './traverse-layer'

/** Walking times are told to some seconds, ways to a decimetre: the grid tells no more. */
export const MINUTE_DECIMALS = 1
export const WAY_DECIMALS = 1
/** A stop brings some per cent of the variance. */
export const FALL_DECIMALS = SHARE_DECIMALS + 2

/** The file's bytes. `walk_min` to `descent_m` are of the way that leads there. */
export function traverseCsv(crs: WorkingCrs, places: readonly WalkPlace[]): Uint8Array {
  const coordinate = coordinateDecimals(crs)
  const ofWay = (name: string, decimals: number, value: (way: WalkedWay) => number) => ({
    name,
    decimals,
    number: ({ way }: WalkPlace) => way && value(way),
  })
  const columns: readonly CsvColumn<WalkPlace>[] = [
    { name: 'number', decimals: 0, number: (row) => row.number },
    { name: 'kind', text: (row) => row.kind },
    { name: 'station', text: (row) => row.station },
    { name: 'arrive', text: (row) => row.arrive },
    { name: 'leave', text: (row) => row.leave },
    ofWay('walk_min', MINUTE_DECIMALS, ({ seconds }) => minutesOf(seconds)),
    ofWay('distance_m', WAY_DECIMALS, ({ distance }) => distance),
    ofWay('climb_m', WAY_DECIMALS, ({ climb }) => climb),
    ofWay('descent_m', WAY_DECIMALS, ({ descent }) => descent),
    { name: 'battery', decimals: 0, number: (row) => row.battery },
    { name: 'battery_change', text: (row) => changeWord(row) },
    { name: 'fall', decimals: FALL_DECIMALS, number: (row) => row.fall },
    { name: 'longitude', decimals: DEGREE_DECIMALS, number: (row) => row.longitude },
    { name: 'latitude', decimals: DEGREE_DECIMALS, number: (row) => row.latitude },
    { name: 'easting', decimals: coordinate, number: (row) => row.easting },
    { name: 'northing', decimals: coordinate, number: (row) => row.northing },
    { name: 'elevation', decimals: ELEVATION_DECIMALS, number: (row) => row.elevation },
    { name: 'crs', text: () => crs.code },
  ]
  return csv(columns, places)
}

/** `yes` or `no`; null where batteries are not counted. */
export function changeWord({ battery, isBatteryChanged }: WalkPlace): 'yes' | 'no' | null {
  if (battery === null) return null
  return isBatteryChanged ? 'yes' : 'no'
}
