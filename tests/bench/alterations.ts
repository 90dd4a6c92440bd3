/**
 * Scans altered on purpose, to see how names hold on samples unlike the references: darker,
 * finer, coarser, diluted, wet, and as another instrument would measure them.
 *
 * What changes inside a powder is done in single-scattering albedo, where intimate mixtures add
 * up by cross-section: isotropic scatterers without opposition surge, reflectance relative to a
 * perfect white powder under the same light (Hapke 1981, JGR 86, 3039; Hapke 1993, Theory of
 * Reflectance and Emittance Spectroscopy, chapter 11; written down from memory).
 */
import { modelContinuum } from '../../src/minerals/model'
import type { NamedSpectrum } from '../../src/minerals/prepare'
import { WATER_INDEX } from '../../src/minerals/water'
import { normalDraws } from './normal-draws'

/** A named way to alter a scan. `seed` sets the noise that some of them add. */
export interface Alteration {
  readonly name: string
  readonly alter: (scan: NamedSpectrum, seed: number) => NamedSpectrum
}

/** Cosines of incidence (30°) and emission (0°). */
const INCIDENCE = Math.cos(Math.PI / 6)
const EMISSION = 1
/** Reflectance beyond these is taken for them: no powder has an albedo there. */
const [DARKEST, BRIGHTEST] = [1e-4, 0.9995]

/** Single-scattering albedo of a powder with this reflectance factor. */
export function albedoOf(reflectance: number): number {
  const r = Math.min(BRIGHTEST, Math.max(DARKEST, reflectance))
  const sum = INCIDENCE + EMISSION
  const product = INCIDENCE * EMISSION
  const root = Math.sqrt(sum * sum * r * r + (1 + 4 * product * r) * (1 - r))
  const gamma = (root - sum * r) / (1 + 4 * product * r)
  return 1 - gamma * gamma
}

/** The reflectance factor of a powder with this single-scattering albedo. */
export function reflectanceOf(albedo: number): number {
  const gamma = Math.sqrt(1 - albedo)
  return albedo / ((1 + 2 * INCIDENCE * gamma) * (1 + 2 * EMISSION * gamma))
}

/** Albedo of a fine opaque (magnetite, sulfide, carbon) and of one without absorptions (quartz). */
const OPAQUE = 0.15
const SILENT = 0.985

type Change = (value: number, nm: number, channel: number) => number

/** A scan with each of its values changed; gaps stay gaps. */
export function changed(scan: NamedSpectrum, change: Change): NamedSpectrum {
  const reflectance = scan.reflectance.map((value, i) =>
    Number.isNaN(value) ? NaN : change(value, scan.wavelengths[i], i),
  )
  return { ...scan, reflectance }
}

/** Intimately mixed: the other's part of the cross-section, and its albedo. */
const mixed = (part: number, other: number): Change => {
  return (value) => reflectanceOf((1 - part) * albedoOf(value) + part * other)
}

/** Absorption along a grain as many times as long: albedo ≈ exp(−absorption · length). */
const grains = (times: number): Change => {
  return (value) => reflectanceOf(albedoOf(value) ** times)
}

/** A slope over the whole range, level at 1425 nm; `by` at its ends. */
const sloped = (by: number): Change => {
  return (value, nm) => value * (1 + (by * (nm - 1425)) / 1075)
}

/** Channels below the first join off by 3 %, those beyond the second by −3 %. */
const stepped: Change = (value, nm) => value * (nm < 1000 ? 1.03 : nm > 1830 ? 0.97 : 1)

/**
 * Absorption of water along each channel's light, per micrometre.
 *
 * @param shorter by how much its bands lie shorter than liquid water's, nm
 */
function waterOn(wavelengths: Float64Array, shorter = 0): Float64Array {
  const logIndex = modelContinuum(
    WATER_INDEX.map(([nm, k]) => [nm - shorter, Math.log(k)] as const),
    wavelengths,
  )
  return wavelengths.map((nm, i) => (4 * Math.PI * Math.exp(logIndex[i]) * 1000) / nm)
}

/** Through a film of water on top and back; thickness in micrometres. */
function filmed(scan: NamedSpectrum, thickness: number): NamedSpectrum {
  const water = waterOn(scan.wavelengths)
  return changed(scan, (value, _, i) => value * Math.exp(-2 * water[i] * thickness))
}

/**
 * A film of adsorbed water about each grain, its bands 10 nm shorter than liquid water's, so that
 * it is not the very film that the program takes off; thickness in micrometres.
 */
function moistened(scan: NamedSpectrum, thickness: number): NamedSpectrum {
  const water = waterOn(scan.wavelengths, 10)
  return changed(scan, (value, _, i) =>
    reflectanceOf(albedoOf(value) * Math.exp(-2 * water[i] * thickness)),
  )
}

/** A scan whose channels read what lies `by` nm below them. */
function shifted(scan: NamedSpectrum, by: number): NamedSpectrum {
  const { wavelengths: nm, reflectance } = scan
  return changed(scan, (_, at, i) => {
    const other = by > 0 ? i - 1 : i + 1
    if (other < 0 || other >= nm.length || Number.isNaN(reflectance[other])) return reflectance[i]
    const t = by / Math.abs(nm[other] - at)
    return reflectance[i] + Math.abs(t) * (reflectance[other] - reflectance[i])
  })
}

/** A scan seen through a further Gaussian of this full width at half height, nm. */
function broadened(scan: NamedSpectrum, fwhm: number): NamedSpectrum {
  const { wavelengths: nm, reflectance } = scan
  return changed(scan, (_, at, i) => {
    let sum = 0
    let total = 0
    const add = (k: number): void => {
      if (Number.isNaN(reflectance[k])) return
      const span = (nm[Math.min(k + 1, nm.length - 1)] - nm[Math.max(k - 1, 0)]) / 2
      const weight = span * Math.exp(-4 * Math.LN2 * ((nm[k] - at) / fwhm) ** 2)
      sum += weight * reflectance[k]
      total += weight
    }
    for (let k = i; k >= 0 && at - nm[k] <= 1.5 * fwhm; k--) add(k)
    for (let k = i + 1; k < nm.length && nm[k] - at <= 1.5 * fwhm; k++) add(k)
    return sum / total
  })
}

/** Noise of one reflectance everywhere: that of the detectors in the dark. */
function speckled(scan: NamedSpectrum, sigma: number, seed: number): NamedSpectrum {
  const draw = normalDraws(seed)
  return changed(scan, (value) => value + sigma * draw())
}

const by = (name: string, change: Change): Alteration => ({
  name,
  alter: (scan) => changed(scan, change),
})

/** The alterations, one after another in the tables. */
export const ALTERATIONS: readonly Alteration[] = [
  by('opaque 5 %', mixed(0.05, OPAQUE)),
  by('opaque 15 %', mixed(0.15, OPAQUE)),
  by('opaque 30 %', mixed(0.3, OPAQUE)),
  {
    name: 'opaque 30 %, noise 0.001',
    alter: (scan, seed) => speckled(changed(scan, mixed(0.3, OPAQUE)), 0.001, seed),
  },
  by('grains half', grains(0.5)),
  by('grains double', grains(2)),
  by('silent 10 %', mixed(0.1, SILENT)),
  by('silent 30 %', mixed(0.3, SILENT)),
  by('slope +20 %', sloped(0.2)),
  by('slope −20 %', sloped(-0.2)),
  { name: 'shift +1 nm', alter: (scan) => shifted(scan, 1) },
  { name: 'shift −1 nm', alter: (scan) => shifted(scan, -1) },
  { name: 'broader 15 nm', alter: (scan) => broadened(scan, 15) },
  by('steps 3 %', stepped),
  { name: 'film of water 30 µm', alter: (scan) => filmed(scan, 30) },
  { name: 'moist grains 1.5 µm', alter: (scan) => moistened(scan, 1.5) },
  {
    name: 'all mildly',
    alter: (scan, seed) => {
      const inside = changed(changed(scan, grains(0.7)), mixed(0.1, OPAQUE))
      const wet = changed(filmed(inside, 10), sloped(-0.1))
      return speckled(shifted(broadened(wet, 6), 0.5), 0.0005, seed)
    },
  },
]
