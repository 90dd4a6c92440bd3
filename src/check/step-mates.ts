/** Which scans share their detectors' steps, as far as files tell. */
import type { Moment } from '../readers/time'
import { daysOf } from './day'
import { whiteReferenceAges } from './white-reference'

/** What decides whose steps a scan shares. */
export interface SteppedScan {
  readonly time: Moment | null
  readonly whiteReference: Moment | null
  /** Scans of another axis are another instrument's. */
  readonly axis: number
  /** The folder of its file, which stands for the session where no time is known. */
  readonly folder: string
  /** What it was taken on; scans of one rock share more than their instrument's steps. */
  readonly rock: string
}

/** Rocks that speak for a scan: the nearest in time, for detectors drift. */
const MOST_ROCKS = 24
/** Scans that speak for a rock. */
const MOST_SCANS = 3
/** Scans that are looked at, were they all of one rock. */
const MOST_LOOKED = 200

/**
 * For each of some scans the scans of other rocks that share its steps, a list a rock, the nearest
 * first: of the same white reference, or of the same day where no file tells of a reference, or
 * of the same folder where none tells a time.
 *
 * @param asked indices into `scans`
 */
export function stepMates(
  scans: readonly SteppedScan[],
  asked: readonly number[],
): Map<number, number[][]> {
  const wanted = new Set(asked)
  const mates = new Map<number, number[][]>()
  for (const session of sessionsOf(scans)) {
    session.forEach((scan, here) => {
      if (wanted.has(scan)) mates.set(scan, nearestRocks(scans, session, here))
    })
  }
  return mates
}

function sessionKeys(scans: readonly SteppedScan[]): string[] {
  const ages = whiteReferenceAges(scans)
  const days = daysOf(scans.map(({ time }) => time?.seconds ?? null))
  return scans.map(({ time, axis, folder }, i) => {
    const age = ages[i]
    if (time === null) return `${axis} folder ${folder}`
    if (typeof age === 'number') return `${axis} reference ${Math.round(time.seconds - age)}`
    return `${axis} day ${days[i]}`
  })
}

/** Scans by what their steps have in common, each session in the order in which it was taken. */
function sessionsOf(scans: readonly SteppedScan[]): number[][] {
  const members = new Map<string, number[]>()
  sessionKeys(scans).forEach((key, scan) => {
    const list = members.get(key)
    if (list) list.push(scan)
    else members.set(key, [scan])
  })
  return [...members.values()].map((list) =>
    list.sort((a, b) => momentOf(scans, a) - momentOf(scans, b) || a - b),
  )
}

/** Seconds; where no time is known the scan's place among the scans. */
function momentOf(scans: readonly SteppedScan[], scan: number): number {
  return scans[scan].time?.seconds ?? scan
}

/** Walks away from a scan, to the nearer of the next before and the next after. */
function nearestRocks(
  scans: readonly SteppedScan[],
  session: readonly number[],
  here: number,
): number[][] {
  const moment = momentOf(scans, session[here])
  const awayFrom = (place: number) =>
    place in session ? Math.abs(momentOf(scans, session[place]) - moment) : Infinity
  const rocks = new Map<string, number[]>()
  let before = here - 1
  let after = here + 1
  while (after - before < MOST_LOOKED && (before in session || after in session)) {
    const mate = session[awayFrom(before) <= awayFrom(after) ? before-- : after++]
    const { rock } = scans[mate]
    if (rock === scans[session[here]].rock) continue
    const known = rocks.get(rock)
    if (known === undefined && rocks.size === MOST_ROCKS) break
    if (known === undefined) rocks.set(rock, [mate])
    else if (known.length < MOST_SCANS) known.push(mate)
  }
  return [...rocks.values()]
}
