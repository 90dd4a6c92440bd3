/** All scans of the area: which spots, which faults, what the instrument gave. */
import { coreSpots, HOLES } from './holes'
import { measure } from './instrument'
import { mixturesAt, NO_ROCK, type Mixture } from './mixture'
import { fileOf, LAST_DAY_FILE } from './layouts'
import { CLOCK_BEHIND, type InjectedFault, type MadeScan, type Spot } from './sampling'
import { secondsAtStation, secondsToScan, stationsOf, WALKS } from './walks'

/** Scans a station. */
const SCANS = 3
/** Stations of the walk during which no white reference was taken. */
const STALE = { walk: 'B', first: 1, last: 9 }
/** Minutes since the white reference from which a scan counts as stale. */
const STALE_MINUTES = 15
/** Relative steps at the detector joins, by station. */
const STEPS: Readonly<Record<string, number>> = { C08: 0.09, D11: -0.08, E05: 0.1, D21: 0.07 }
/** Water on the rock, by station: the strength of its 1935 nm band. */
const WET: Readonly<Record<string, number>> = { C17: 0.85, E14: 1, A11: 0.75 }
/** Stations of earlier days that the last day visited again: one in twenty (common practice). */
const REVISITED = ['C03', 'C12', 'D06', 'D13', 'D20', 'D25', 'E03', 'E16']
/** When the last day turned to them, UTC. */
const REVISITS_BEGIN = Date.UTC(2024, 4, 11, 16, 0, 0) / 1000
/** The station whose label was never written into the sample table. */
const UNLISTED = 'C99'

/** Every scan, in the order of days, stations and holes. */
export function makeScans(): MadeScan[] {
  const walked = WALKS.flatMap((walk) => {
    const spots = stationsOf(walk)
    const whites = whiteTimes(walk.letter, spots)
    return spots.flatMap((spot, i) => stationScans(spot, whites[i]))
  })
  const cored = HOLES.flatMap((hole) => coreSpots(hole).map(coreScan))
  const again = revisits(walked)
  return [
    ...walked,
    ...again,
    panelScan(walked),
    duplicateScan(walked),
    ...unlisted(walked),
    ...cored,
  ]
}

/** The last white reference before each station: at every second one, but for the stale run. */
function whiteTimes(letter: string, spots: readonly Spot[]): number[] {
  let last = 0
  return spots.map((spot, i) => {
    const stale = letter === STALE.walk && i > STALE.first && i <= STALE.last
    if (!stale && (i % 2 === 0 || i === STALE.first)) last = (spot.arrival ?? 0) + 30
    return last
  })
}

function stationScans(spot: Spot, whiteTime: number): MadeScan[] {
  return mixturesAt(spot, SCANS).map((mixture, i) => {
    const time = (spot.arrival ?? 0) + secondsToScan(i)
    const name = spot.name[0] === 'A' ? timedName(spot, i) : `${spot.name}_${i + 1}`
    return makeScan(name, spot, mixture, time, whiteTime, faultsOf(spot, (time - whiteTime) / 60))
  })
}

/** On day A the instrument numbered its files and knew no station. */
function timedName(spot: Spot, replicate: number): string {
  const number = (Number(spot.name.slice(1)) - 1) * SCANS + replicate + 1
  return `spot_${String(number).padStart(4, '0')}`
}

function makeScan(
  name: string,
  spot: Spot,
  mixture: Mixture,
  time: number | null,
  whiteTime: number | null,
  faults: readonly InjectedFault[],
): MadeScan {
  return {
    name,
    file: fileOf(name, spot),
    spot,
    time,
    whiteTime,
    mixture,
    faults,
    reflectance: measure(name, spot.name, mixture, faults),
  }
}

function faultsOf(spot: Spot, minutes: number): InjectedFault[] {
  const faults: InjectedFault[] = []
  if (minutes > STALE_MINUTES) {
    const detail = `${minutes.toFixed(0)} minutes since the white reference`
    faults.push({ fault: 'stale white reference', detail, size: minutes })
  }
  const step = STEPS[spot.name]
  if (step !== undefined) {
    const detail = `${(step * 100).toFixed(0)} % at 1000 nm, ${(step * -60).toFixed(1)} % at 1800 nm`
    faults.push({ fault: 'detector step', detail, size: step })
  }
  const wet = WET[spot.name]
  if (wet !== undefined) {
    faults.push({ fault: 'wet sample', detail: `water band of strength ${wet}`, size: wet })
  }
  if (spot.name[0] === 'A') {
    const detail = `the scan clock ran ${CLOCK_BEHIND} s behind`
    faults.push({ fault: 'clock off', detail, size: CLOCK_BEHIND })
  }
  return faults
}

function coreScan(spot: Spot, index: number): MadeScan {
  const name = `${spot.hole}-${String(index + 1).padStart(3, '0')}`
  return makeScan(name, spot, mixturesAt(spot, 1)[0], null, null, [])
}

/** Stations scanned once more on the last day: a fresh face of the same rock, its day's settings. */
function revisits(walked: readonly MadeScan[]): MadeScan[] {
  return REVISITED.flatMap((name, i) => {
    const { spot } = find(walked, `${name}_1`)
    const arrival = REVISITS_BEGIN + 1200 * i
    const face = { ...spot, name: `${name} again` }
    return mixturesAt(face, SCANS).map((mixture, k): MadeScan => {
      const scan = `${name}_${SCANS + k + 1}`
      return {
        name: scan,
        file: LAST_DAY_FILE,
        spot: { ...spot, arrival },
        time: arrival + secondsToScan(k),
        whiteTime: arrival + 30,
        mixture,
        faults: [],
        reflectance: measure(scan, face.name, mixture, [], 'F'),
      }
    })
  })
}

/** The white panel, scanned as if it were a sample at the start of day B. */
function panelScan(walked: readonly MadeScan[]): MadeScan {
  const first = find(walked, 'B01_1')
  const spot: Spot = { ...first.spot, name: 'B00' }
  const time = (first.spot.arrival ?? 0) + 45
  const fault: InjectedFault = { fault: 'panel', detail: 'the white panel, not a rock', size: 1 }
  return makeScan('B00_1', spot, NO_ROCK, time, first.whiteTime, [fault])
}

/** One scan file copied under a second name. */
function duplicateScan(walked: readonly MadeScan[]): MadeScan {
  const original = find(walked, 'B20_2')
  const fault: InjectedFault = { fault: 'duplicate', detail: `a copy of ${original.file}`, size: 1 }
  return {
    ...original,
    file: original.file.replace('.txt', '_copy.txt'),
    faults: [...original.faults, fault],
  }
}

/** Three scans of a station whose name stands in no sample table. */
function unlisted(walked: readonly MadeScan[]): MadeScan[] {
  const near = find(walked, 'C14_1').spot
  const arrival = (near.arrival ?? 0) + secondsAtStation()
  const point = { x: near.point.x + 18, y: near.point.y - 25 }
  const spot: Spot = { ...near, name: UNLISTED, point, arrival }
  const fault: InjectedFault = {
    fault: 'name without sample',
    detail: `${UNLISTED} stands in no sample table`,
    size: 1,
  }
  return stationScans(spot, arrival + 30).map((scan) => ({
    ...scan,
    faults: [...scan.faults, fault],
  }))
}

function find(scans: readonly MadeScan[], name: string): MadeScan {
  const found = scans.find((scan) => scan.name === name)
  if (!found) throw new Error(`No scan ${name} was made.`)
  return found
}
