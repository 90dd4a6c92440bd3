/** What the probe and the instrument make of a mixture: brightness, water, calibration, noise. */
import { mixedReflectance } from './absorption'
import { chanceFor } from './chance'
import type { Mixture } from './mixture'
import { WAVELENGTHS, type InjectedFault } from './sampling'

/** Where one detector ends and the next begins, nm. */
const JOINS = [1000, 1800] as const

/** Wavelength calibration of each day and hole, nm: an error that a day's scans share. */
const CALIBRATION: Readonly<Record<string, number>> = {
  A: 0.2,
  B: -0.15,
  C: 0.1,
  D: -0.25,
  E: 0.3,
  F: -0.1,
  V: 0,
}

/** How much each detector's response creeps in an hour without a new white reference. */
const DRIFT_AN_HOUR = [0.03, -0.02, 0.05] as const

/**
 * Reflectance that the instrument gives, fractions of the panel, with the faults in it.
 *
 * @param day the letter of the day it was taken on
 */
export function measure(
  name: string,
  station: string,
  mixture: Mixture,
  faults: readonly InjectedFault[],
  day = station[0],
): Float64Array {
  const chance = chanceFor(`scan ${name}`)
  const panel = faults.some(({ fault }) => fault === 'panel')
  const axis = WAVELENGTHS.map((nm) => nm + (CALIBRATION[day] ?? 0))
  const ideal = panel ? axis.map(() => 0.993) : rockSeen(station, mixture, axis, chance.normal())
  const wet = sizeOf(faults, 'wet sample')
  const step = sizeOf(faults, 'detector step')
  const minutes = sizeOf(faults, 'stale white reference')
  const noise = correlatedNoise(name)
  return ideal.map((value, i) => {
    const nm = WAVELENGTHS[i]
    const watered = wet > 0 ? value ** (1 + 0.35 * wet) * Math.exp(-wet * waterAt(nm)) : value
    const drifted = watered * (1 + (DRIFT_AN_HOUR[detectorOf(nm)] * minutes) / 60)
    const stepped = drifted * (1 + step * [1, 0, -0.6][detectorOf(nm)])
    return Math.max(0, stepped + noise[i] * noiseAt(nm))
  })
}

function sizeOf(faults: readonly InjectedFault[], fault: InjectedFault['fault']): number {
  return faults.find((injected) => injected.fault === fault)?.size ?? 0
}

/** Grain size, roughness, field moisture and a slight curve of the continuum. */
function rockSeen(
  station: string,
  mixture: Mixture,
  axis: Float64Array,
  jitter: number,
): Float64Array {
  const rock = chanceFor(`surface ${station}`)
  const path = rock.between(0.85, 1.2)
  const brightness = rock.between(0.78, 0.99) * (1 + 0.025 * jitter)
  const moisture = 0.02 + 0.05 * rock.uniform() ** 2
  const [tilt, curve] = [0.05 * rock.normal(), 0.03 * rock.normal()]
  return mixedReflectance(mixture, axis).map((value, i) => {
    const t = (axis[i] - 1425) / 1075
    const continuum = tilt * t + curve * (t * t - 0.5)
    return brightness * value ** path * Math.exp(continuum - moisture * waterAt(axis[i]))
  })
}

/** Liquid water's absorption, 1 at 1935 nm; bands and widths after Hunt 1977, heights common practice. */
function waterAt(nm: number): number {
  return (
    0.03 * gaussian(nm, 975, 70) +
    0.06 * gaussian(nm, 1190, 80) +
    0.5 * gaussian(nm, 1448, 105) +
    gaussian(nm, 1938, 115) +
    0.35 * gaussian(nm, 2620, 420)
  )
}

/** A Gaussian of full width at half height. */
function gaussian(nm: number, centre: number, width: number): number {
  return Math.exp(-4 * Math.LN2 * ((nm - centre) / width) ** 2)
}

/** The detector of a channel: 0, 1 or 2. */
function detectorOf(nm: number): 0 | 1 | 2 {
  return nm <= JOINS[0] ? 0 : nm <= JOINS[1] ? 1 : 2
}

/** One standard deviation of noise, fractions of the panel: 1 in 2,000 to 1 in 400. */
function noiseAt(nm: number): number {
  if (nm <= JOINS[0]) return 0.0003 * (1 + 5 * Math.exp(-(nm - 350) / 35)) + edge(nm, 1000)
  if (nm <= JOINS[1]) return 0.0002 + edge(nm, 1000)
  return 0.0004 * (1 + 5 * Math.max(0, (nm - 2250) / 250) ** 2) + edge(nm, 1800)
}

/** Detectors are poorer at their ends. */
function edge(nm: number, join: number): number {
  return 0.0004 * Math.exp(-Math.abs(nm - join) / 25)
}

/** Noise of unit variance, alike over about 2 nm, as optics and interpolation leave it. */
function correlatedNoise(name: string): Float64Array {
  const chance = chanceFor(`noise ${name}`)
  const white = Float64Array.from({ length: WAVELENGTHS.length + 2 }, () => chance.normal())
  const scale = 1 / Math.sqrt(0.375)
  return WAVELENGTHS.map(
    (_, i) => scale * (0.25 * white[i] + 0.5 * white[i + 1] + 0.25 * white[i + 2]),
  )
}
