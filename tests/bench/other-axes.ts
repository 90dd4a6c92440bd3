/**
 * Scans as other instruments and other users would hand them over: fewer channels, a shorter
 * range, and the ranges in which the air's water absorbs cut out or left empty.
 */
import type { NamedSpectrum } from '../../src/minerals/prepare'
import { changed, type Alteration } from './alterations'

/** The scan on the channels that are kept. */
function kept(scan: NamedSpectrum, keeps: (nm: number) => boolean): NamedSpectrum {
  const channels = Array.from(scan.wavelengths.keys()).filter((i) => keeps(scan.wavelengths[i]))
  return {
    ...scan,
    wavelengths: Float64Array.from(channels, (i) => scan.wavelengths[i]),
    reflectance: Float32Array.from(channels, (i) => scan.reflectance[i]),
  }
}

/** Whether the air lets too little sunlight through for a scan without a lamp (general knowledge). */
const isAir = (nm: number): boolean => (nm > 1345 && nm < 1450) || (nm > 1795 && nm < 1965)

const axes = new Map<string, Float64Array>()

/** Equally spaced channels over a scan's range; scans of one range share an axis. */
function evenAxis({ wavelengths }: NamedSpectrum, step: number): Float64Array {
  const from = Math.max(350, wavelengths[0])
  const to = Math.min(2500, wavelengths[wavelengths.length - 1])
  const key = `${from} ${to} ${step}`
  const axis =
    axes.get(key) ??
    Float64Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i) => from + i * step)
  axes.set(key, axis)
  return axis
}

/** Channels `step` nm apart, each a Gaussian as wide at half height. */
function coarser(scan: NamedSpectrum, step: number): NamedSpectrum {
  const { wavelengths: nm, reflectance } = scan
  const axis = evenAxis(scan, step)
  let near = 0
  const values = Float32Array.from(axis, (at) => {
    while (near < nm.length - 1 && nm[near] < at - 1.5 * step) near++
    let sum = 0
    let total = 0
    for (let k = near; k < nm.length && nm[k] <= at + 1.5 * step; k++) {
      if (Number.isNaN(reflectance[k])) continue
      const span = (nm[Math.min(k + 1, nm.length - 1)] - nm[Math.max(k - 1, 0)]) / 2
      const weight = span * Math.exp(-4 * Math.LN2 * ((nm[k] - at) / step) ** 2)
      sum += weight * reflectance[k]
      total += weight
    }
    // Where the record's own channels are further apart there is nothing to average.
    return total > 0.3 * step ? sum / total : NaN
  })
  return { ...scan, wavelengths: axis, reflectance: values }
}

/** The alterations, one after another in the tables. */
export const OTHER_AXES: readonly Alteration[] = [
  { name: '400 to 2450 nm', alter: (scan) => kept(scan, (nm) => nm >= 400 && nm <= 2450) },
  { name: 'from 1300 nm', alter: (scan) => kept(scan, (nm) => nm >= 1300) },
  { name: 'air’s bands cut out', alter: (scan) => kept(scan, (nm) => !isAir(nm)) },
  {
    name: 'air’s bands left empty',
    alter: (scan) => changed(scan, (value, nm) => (isAir(nm) ? NaN : value)),
  },
  { name: 'every 5 nm', alter: (scan) => coarser(scan, 5) },
  { name: 'every 10 nm', alter: (scan) => coarser(scan, 10) },
]
