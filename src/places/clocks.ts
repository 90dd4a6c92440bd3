/**
 * Whether the scans' clock fits a track: scans whose place is known otherwise should lie on the
 * track at their times. Where they do not, the offset at which they would.
 */
import type { Problem, Track } from '../readers/input'
import { mapPiecewise, type Piecework } from '../spectra/piecework'
import { EARTH, firstAtLeast, spanOf, STILL, TRACK_DEFAULTS } from './tracks'
import { baseName, ruleFor } from './rules'
import type { PlaceRule } from './station'

/** A scan with a time and a place that is not from a track. */
export interface ClockWitness {
  /** Instants that its time may mean, seconds since 1970 by the scans' own clock. */
  readonly times: readonly number[]
  /** Degrees, WGS 84. */
  readonly longitude: number
  readonly latitude: number
}

/** An offset that fits better than the one that is set. */
export interface BetterClock {
  /** Added to the scans' clock, seconds: the middle of what fits. */
  readonly offset: number
  /** From here to there it fits as well, seconds. */
  readonly from: number
  readonly to: number
  /** Witnesses on the track at the offset, and how far off it their median is, metres. */
  readonly near: number
  readonly away: number
}

/** What the witnesses say of one track file's clock. */
export interface ClockReading {
  readonly file: string
  /** Scans that were asked. */
  readonly witnesses: number
  /** How many of them lie on the track at the offset that is set. */
  readonly near: number
  /** Null where the clock fits, or where they cannot tell. */
  readonly better: BetterClock | null
}

/**
 * A witness this near was where the track was, metres. Common practice: a handheld's 5 m twice, and
 * half a minute's walk.
 */
const NEAR = 40
/** Zones reach from −12 to +14 hours; the clock's own fault comes on top, seconds. */
const WIDEST = 15 * 3600
const COARSE = 60
const FINE = 5
/** Enough to tell; more only take longer. */
const MOST_WITNESSES = 150
/** At fewer spots than this scans can agree by accident. */
const LEAST_SPOTS = 5
/** Two witnesses this far apart are two spots, metres. */
const APART = 50

/**
 * The reading for each file of tracks that someone can witness. Yields between offsets.
 *
 * @param rules the recipe's, for the offset that is set
 * @returns nothing of files for which scans at fewer than five spots lie within 15 hours
 */
export function* clockReadings(
  tracks: readonly Track[],
  witnesses: readonly ClockWitness[],
  rules: readonly PlaceRule[],
): Piecework<ClockReading[]> {
  const readings: ClockReading[] = []
  for (const file of new Set(tracks.map((track) => track.file))) {
    const rule = ruleFor(file, rules)
    const pieces = tracks.filter((track) => track.file === file && track.times.length > 0)
    if (pieces.length === 0) continue
    const asked = thinned(witnesses.filter((witness) => isWithin(witness, pieces)))
    if (spotsOf(asked) < LEAST_SPOTS) continue
    const gap = rule?.gap_s ?? TRACK_DEFAULTS.gap
    const at = (offset: number) => judge(pieces, asked, offset, gap)
    const set = at(rule?.clock_offset_s ?? 0)
    // Where most are on the track, the clock fits, and another offset could do so by accident only.
    const fits = set.near >= LEAST_SPOTS && set.near > 0.5 * set.within
    const better = fits ? null : yield* bestOffset(at, set)
    readings.push({ file, witnesses: asked.length, near: set.near, better })
  }
  return readings
}

/** The clocks that do not fit, in words. */
export function clockProblems(readings: readonly ClockReading[]): Problem[] {
  return readings.flatMap(({ file, witnesses, near, better }) =>
    better === null
      ? []
      : [
          {
            file,
            line: null,
            problem: `the scans’ clock does not fit this track: of ${witnesses} scans that something else places, ${near} lie on it at their times, and ${better.near} would with the clock moved by ${signedSpan(better.offset)}`,
            done: `places by ${baseName(file)} are probably wrong; set its clock_offset_s, such as to ${better.offset}`,
          },
        ],
  )
}

/** Whether a problem of placing speaks of a clock. */
export function isOfClock({ problem }: Pick<Problem, 'problem'>): boolean {
  return problem.startsWith('the scans’ clock does not fit')
}

/** `−1 h 43 min`. */
function signedSpan(seconds: number): string {
  return `${seconds < 0 ? '−' : '+'}${spanOf(Math.abs(seconds))}`
}

interface Judged {
  readonly offset: number
  /** Witnesses at whose time the track has a place; those near it; the median of their distances. */
  readonly within: number
  readonly near: number
  readonly away: number
}

/** Over all offsets coarsely, then around the best in fine steps; null where none is clearly best. */
function* bestOffset(at: (offset: number) => Judged, set: Judged): Piecework<BetterClock | null> {
  const count = Math.floor((2 * WIDEST) / COARSE) + 1
  const offsets = Array.from({ length: count }, (_, i) => -WIDEST + i * COARSE)
  const coarse = yield* mapPiecewise(offsets, at)
  const best = coarse.reduce(better)
  const rival = coarse
    .filter(({ offset }) => Math.abs(offset - best.offset) > 15 * 60)
    .reduce(better, { ...best, near: 0 })
  const around = Array.from({ length: (4 * COARSE) / FINE + 1 }, (_, i) => {
    return best.offset - 2 * COARSE + i * FINE
  })
  const fine = (yield* mapPiecewise(around, at)).reduce(better, best)
  const isClear =
    fine.near >= LEAST_SPOTS &&
    fine.near >= 0.5 * fine.within &&
    fine.near >= 2 * rival.near &&
    fine.near >= 2 * set.near
  if (!isClear) return null
  const holds = ({ near, away }: Judged) => near >= fine.near && away <= fine.away + NEAR / 4
  let from = fine.offset
  while (from - FINE >= fine.offset - 1800 && holds(at(from - FINE))) from -= FINE
  let to = fine.offset
  while (to + FINE <= fine.offset + 1800 && holds(at(to + FINE))) to += FINE
  const middle = at(Math.round((from + to) / 2 / FINE) * FINE)
  return { offset: middle.offset, from, to, near: middle.near, away: middle.away }
}

function better(a: Judged, b: Judged): Judged {
  if (a.near !== b.near) return a.near > b.near ? a : b
  return a.away <= b.away ? a : b
}

function judge(
  pieces: readonly Track[],
  witnesses: readonly ClockWitness[],
  offset: number,
  gap: number,
): Judged {
  let within = 0
  const distances: number[] = []
  for (const witness of witnesses) {
    let least = Infinity
    for (const time of witness.times) {
      for (const piece of pieces)
        least = Math.min(least, awayFrom(piece, time + offset, witness, gap))
    }
    if (least < Infinity) within++
    if (least <= NEAR) distances.push(least)
  }
  distances.sort((a, b) => a - b)
  const away = distances[distances.length >> 1] ?? Infinity
  return { offset, within, near: distances.length, away }
}

/**
 * Metres between a witness and a track at a time, in the plane that touches the sphere there, which
 * serves over a day's walk; infinite where the track has no place.
 */
function awayFrom(track: Track, seconds: number, witness: ClockWitness, gap: number): number {
  const { times, longitudes, latitudes } = track
  const last = times.length - 1
  if (!(seconds >= times[0] && seconds <= times[last])) return Infinity
  const after = firstAtLeast(times, seconds)
  const before = times[after] === seconds ? after : after - 1
  const span = times[after] - times[before]
  const part = span > 0 ? (seconds - times[before]) / span : 0
  const metres = (EARTH * Math.PI) / 180
  const east = metres * Math.cos((witness.latitude * Math.PI) / 180)
  const x = (fix: number) => east * turned(longitudes[fix] - witness.longitude)
  const y = (fix: number) => metres * (latitudes[fix] - witness.latitude)
  const [x0, y0, x1, y1] = [x(before), y(before), x(after), y(after)]
  if (span > gap && Math.hypot(x1 - x0, y1 - y0) > STILL) return Infinity
  return Math.hypot(x0 + part * (x1 - x0), y0 + part * (y1 - y0))
}

/** A difference of longitudes across the date line. */
function turned(degrees: number): number {
  return degrees > 180 ? degrees - 360 : degrees < -180 ? degrees + 360 : degrees
}

function isWithin({ times }: ClockWitness, pieces: readonly Track[]): boolean {
  return times.some((time) =>
    pieces.some(
      ({ times: fixes }) => time > fixes[0] - WIDEST && time < fixes[fixes.length - 1] + WIDEST,
    ),
  )
}

/** Spots, counted along the day. All scans of a spot are asked: its first and last bound the offset. */
function spotsOf(witnesses: readonly ClockWitness[]): number {
  let spots = 0
  let before: ClockWitness | null = null
  for (const witness of witnesses) {
    if (before && flatDistance(before, witness) < APART) continue
    before = witness
    spots++
  }
  return spots
}

/** No more than serve, evenly over the day. */
function thinned(witnesses: readonly ClockWitness[]): readonly ClockWitness[] {
  const step = Math.max(1, witnesses.length / MOST_WITNESSES)
  const count = Math.min(witnesses.length, MOST_WITNESSES)
  return Array.from({ length: count }, (_, i) => witnesses[Math.floor(i * step)])
}

function flatDistance(a: ClockWitness, b: ClockWitness): number {
  const metres = (EARTH * Math.PI) / 180
  const east = metres * Math.cos((a.latitude * Math.PI) / 180)
  return Math.hypot(east * turned(b.longitude - a.longitude), metres * (b.latitude - a.latitude))
}
