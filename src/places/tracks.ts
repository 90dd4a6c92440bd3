/** A position from a GPS track by time. */
import type { Track } from '../readers/input'
import { baseName } from './rules'
import { wrapLongitude } from './utm'

/** A place on a track. */
export interface TrackPlace {
  /** Degrees, WGS 84. */
  readonly longitude: number
  readonly latitude: number
  /** Metres; null where the track has none. */
  readonly elevation: number | null
  /** One standard error of the position, metres. */
  readonly error: number
}

/** Why a track gives no place. */
export interface TrackRefusal {
  /** Such as `23 min after the track day1.gpx`. */
  readonly refused: string
  /** Seconds outside the track; 0 within. */
  readonly away: number
}

export interface TrackOptions {
  /** The longest time between two fixes that is bridged, seconds; longer only where nobody moved. */
  readonly gap: number
  /** One standard error of a fix, metres. */
  readonly fixError: number
  /** One standard error of the scans' clock after its correction, seconds. */
  readonly clockError: number
}

/** Common practice: a handheld receiver under open sky to about 5 m, a clock set to the second or two. */
export const TRACK_DEFAULTS: TrackOptions = { gap: 120, fixError: 5, clockError: 2 }

/** Two fixes this near together were taken standing still, however long apart, metres. */
export const STILL = 25
/** Mean Earth radius, metres (Moritz 2000, GRS 80). */
export const EARTH = 6371008.8

/**
 * The place at a time, by straight interpolation between the fixes around it.
 *
 * The standard error joins the fix's own, the walking speed times the clock's, and how far the path
 * may have strayed from the straight leg: a quarter of the leg at its middle (common practice).
 *
 * @param seconds since 1970-01-01T00:00:00Z, the clock's offset already added
 * @returns a refusal in words outside the track and across gaps
 */
export function placeOnTrack(
  track: Track,
  seconds: number,
  options: TrackOptions = TRACK_DEFAULTS,
): TrackPlace | TrackRefusal {
  const { times, longitudes, latitudes, elevations } = track
  const last = times.length - 1
  if (last < 0)
    return {
      refused: `before or after the track ${baseName(track.file)}, which has no fix with a time`,
      away: Infinity,
    }
  if (seconds < times[0] || seconds > times[last]) {
    const away = seconds < times[0] ? times[0] - seconds : seconds - times[last]
    const side = seconds < times[0] ? 'before' : 'after'
    return { refused: `${spanOf(away)} ${side} the track ${baseName(track.file)}`, away }
  }
  const after = firstAtLeast(times, seconds)
  const before = times[after] === seconds ? after : after - 1
  const gap = times[after] - times[before]
  const leg = distance(longitudes[before], latitudes[before], longitudes[after], latitudes[after])
  if (gap > options.gap && leg > STILL) {
    return {
      refused: `inside a gap of ${spanOf(gap)} and ${Math.round(leg)} m in the track ${baseName(track.file)}`,
      away: 0,
    }
  }
  const part = gap > 0 ? (seconds - times[before]) / gap : 0
  const height = mix(elevations[before], elevations[after], part)
  const east = wrapLongitude(longitudes[after] - longitudes[before])
  return {
    longitude: wrapLongitude(longitudes[before] + part * east),
    latitude: mix(latitudes[before], latitudes[after], part),
    elevation: Number.isFinite(height) ? height : null,
    error: Math.hypot(
      options.fixError,
      gap > 0 ? (leg / gap) * options.clockError : 0,
      leg * part * (1 - part),
    ),
  }
}

function mix(a: number, b: number, part: number): number {
  return a === b ? a : a + part * (b - a)
}

/** The first index whose time is at least `seconds`, which must not be after the last. */
export function firstAtLeast(times: Float64Array, seconds: number): number {
  let low = 0
  let high = times.length - 1
  while (low < high) {
    const middle = (low + high) >>> 1
    if (times[middle] < seconds) low = middle + 1
    else high = middle
  }
  return low
}

/** The distance between two positions on a sphere, metres (haversine). */
export function distance(lonA: number, latA: number, lonB: number, latB: number): number {
  const radians = Math.PI / 180
  const h =
    Math.sin(((latB - latA) * radians) / 2) ** 2 +
    Math.cos(latA * radians) *
      Math.cos(latB * radians) *
      Math.sin(((lonB - lonA) * radians) / 2) ** 2
  return 2 * EARTH * Math.asin(Math.min(1, Math.sqrt(h)))
}

/** A span of time in words: `45 s`, `23 min`, `3 h 10 min`, `2 days`. */
export function spanOf(seconds: number): string {
  if (seconds < 90) return `${Math.round(seconds)} s`
  const minutes = Math.round(seconds / 60)
  if (minutes < 90) return `${minutes} min`
  if (minutes < 48 * 60) return `${Math.floor(minutes / 60)} h ${minutes % 60} min`
  return `${Math.round(minutes / 1440)} days`
}
