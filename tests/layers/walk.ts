/** A made walk to export: four ways, a new station and two visits; names chosen to be awkward. */
import type { TraverseLayer, WalkedWay, WalkPlace } from '../../src/layers/traverse-layer'
import type { WorkingCrs } from '../../src/places/crs'

/** Eastings and northings that the walk goes over, working units; the third way stays on one node. */
const NODES: readonly (readonly (readonly [x: number, y: number])[])[] = [
  [
    [412_500, 7_301_000],
    [412_530, 7_301_040],
    [412_530, 7_301_100],
  ],
  [
    [412_530, 7_301_100],
    [412_650, 7_301_050],
  ],
  [[412_650, 7_301_050]],
  [
    [412_650, 7_301_050],
    [412_500, 7_301_000],
  ],
]

/** Metres of the ways by the theorem of Pythagoras: 50 + 60, 130, 0, and the root of 25,000. */
export const METRES = [110, 130, 0, Math.sqrt(25_000)]

function wayOver(i: number): WalkedWay {
  return {
    x: Float64Array.from(NODES[i], ([x]) => x),
    y: Float64Array.from(NODES[i], ([, y]) => y),
    z: Float64Array.from(NODES[i], (_, node) => 2400 + 10 * i + node),
    seconds: 90 * (i + 1),
    distance: METRES[i],
    climb: 12.34,
    descent: 5.67,
  }
}

/** The walk in a CRS whose units are metres. */
export function walkIn(crs: WorkingCrs): TraverseLayer {
  const at = (i: number, aside = 0) => {
    const [x, y] = NODES[i % NODES.length][0]
    const degrees = crs.toGeographic(x + aside, y)
    return {
      longitude: degrees?.[0] ?? null,
      latitude: degrees?.[1] ?? null,
      easting: x + aside,
      northing: y,
      elevation: 2400 + 10 * i,
    }
  }
  const stop = (number: number, station: string | null, battery: number): WalkPlace => ({
    kind: station === null ? 'new station' : 'visit again',
    number,
    station,
    arrive: `08:${10 * number + 3}`,
    leave: `08:${10 * number + 8}`,
    way: wayOver(number - 1),
    battery,
    isBatteryChanged: number === 2,
    fall: 0.123456 / number,
    ...at(number, 2.5),
  })
  const none = { number: null, station: null, battery: null, isBatteryChanged: false, fall: null }
  const places: WalkPlace[] = [
    { ...none, kind: 'start', arrive: null, leave: '08:00', way: null, ...at(0) },
    stop(1, null, 1),
    stop(2, '=C<07> & "old"', 2),
    stop(3, 'C08', 2),
    { ...none, kind: 'end', arrive: '08:45', leave: null, way: wayOver(3), ...at(0) },
  ]
  return {
    rule: { surface: 'mica <Al–OH>', leave: '08:00' },
    surface: 'mica <Al–OH>',
    failure: null,
    plan: {
      places,
      seconds: 2700,
      budget: 3600,
      isEndedByBatteries: false,
      distance: METRES.reduce((sum, metres) => sum + metres, 0),
      climb: 49.36,
      naismith: 500,
      error: [2.5, 2.25],
      unit: 'nm',
      fall: 0.19,
      unreached: [{ station: 'C99', why: 'there is no time for it' }],
      terrain: 'hill.tif',
    },
  }
}
