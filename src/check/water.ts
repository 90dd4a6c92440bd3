/**
 * Free water told from water that a mineral holds.
 *
 * Liquid water absorbs broadly and nearly evenly about 1450 and 1940 nm (Hunt 1977, Geophysics
 * 42, 501). Water between clay layers, in zeolites and in opal absorbs most at 1905–1925 nm and
 * trails off to long wavelengths; gypsum has three bands near 1446, 1490 and 1535 nm; hydrous
 * sulfates and gibbsite trail off too (shapes measured on USGS Spectral Library Version 7).
 */
import { measureFeature, type WavelengthRange } from '../spectra/feature'
import { cropTo } from '../spectra/resample'
import { smoothSpectrum } from '../spectra/smooth'
import type { Spectrum } from '../spectra/spectrum'

/** What of an absorption tells free water. */
export interface WaterBand {
  /** nm */
  readonly position: number
  /** Absorbance over the hull of ln R at the position: 0.5 takes away 39 %. */
  readonly strength: number
  /** nm */
  readonly width: number
  readonly asymmetry: number
}

/** The two water absorptions of a scan, as measured; null where there is none. */
export interface WaterBands {
  readonly near1450: WaterBand | null
  readonly near1940: WaterBand | null
  /** Whether gypsum's bands near 1490, 1535 and 1750 nm are there. */
  readonly gypsum: boolean
}

/** Large enough that dividing by the hull and taking it off come to the same. */
const SCALE = 1000
/** Smoothing before measuring, nm: far narrower than any band of water. */
const SMOOTHED = 11
/** Half as many channels as the smoothing takes at most, however close they lie. */
const MOST_CHANNELS = 25

/** Measures a scan's water absorptions. */
export function measureWater(spectrum: Spectrum): WaterBands {
  const part = absorbanceOf(smoothed(cropTo(spectrum, 1300, 2160)))
  if (part === null) return { near1450: null, near1940: null, gypsum: false }
  return {
    near1450: bandIn(part, [1425, 1500], [1320, 1620]),
    near1940: bandIn(part, [1890, 1990], [1830, 2140]),
    gypsum:
      strengthIn(part, [1482, 1498], [1465, 1515]) > 0.01 &&
      strengthIn(part, [1526, 1544], [1510, 1570]) > 0.01 &&
      strengthIn(part, [1738, 1762], [1690, 1800]) > 0.04,
  }
}

/**
 * Strength of the 1940 nm absorption where its shape, with that of 1450 nm, is free water's;
 * 0 where a mineral's own water explains it.
 */
export function freeWater({ near1450, near1940, gypsum }: WaterBands): number {
  if (near1940 === null || gypsum) return 0
  // Natrolite's two bands lie where free water's do; the one near 1450 nm is narrow and even.
  if (near1450 !== null && isNatrolite(near1450, near1940)) return 0
  const { position, width, asymmetry } = near1940
  const isAt1450 =
    near1450 !== null &&
    between(near1450.position, 1438, 1464) &&
    between(near1450.asymmetry, 0.6, 1.9) &&
    between(near1450.width, 80, 125)
  const freeAt1940 =
    between(position, 1925, 1968) &&
    between(asymmetry, 0.45, isAt1450 ? 3.2 : 2.8) &&
    between(width, 80, asymmetry < 1.7 ? 145 : 122)
  const freeAt1450 =
    isAt1450 &&
    near1450.strength > 0.25 * near1940.strength &&
    between(width, 80, 145) &&
    position < 1970
  return freeAt1940 || freeAt1450 ? near1940.strength : 0
}

function isNatrolite(near1450: WaterBand, near1940: WaterBand): boolean {
  return (
    between(near1450.position, 1452, 1460) &&
    near1450.width < 80 &&
    near1450.asymmetry < 1.2 &&
    near1450.strength > 0.15 * near1940.strength
  )
}

function between(value: number, from: number, to: number): boolean {
  return value >= from && value <= to
}

function smoothed(spectrum: Spectrum): Spectrum {
  const { wavelengths: x } = spectrum
  if (x.length < 5) return spectrum
  const spacing = (x[x.length - 1] - x[0]) / (x.length - 1)
  const half = Math.min(MOST_CHANNELS, Math.floor(SMOOTHED / spacing / 2))
  return half < 2 ? spectrum : smoothSpectrum(spectrum, 2 * half + 1, 2)
}

/**
 * The spectrum as 1 + ln R / 1000, in which a band keeps its shape however strong it is and the
 * measuring of features goes on as ever; null where no value is left.
 */
function absorbanceOf({ wavelengths, reflectance }: Spectrum): Spectrum | null {
  const values = new Float64Array(reflectance.length).fill(NaN)
  let isNothing = true
  for (let i = 0; i < values.length; i++) {
    if (!(reflectance[i] > 0)) continue
    values[i] = 1 + Math.log(reflectance[i]) / SCALE
    isNothing = false
  }
  return isNothing ? null : { wavelengths, reflectance: values }
}

function bandIn(part: Spectrum, search: WavelengthRange, hull: WavelengthRange): WaterBand | null {
  const result = measureFeature(part, search, hull)
  if ('missing' in result) return null
  const { position, width, asymmetry } = result
  return { position, strength: SCALE * result.depth, width, asymmetry }
}

function strengthIn(part: Spectrum, search: WavelengthRange, hull: WavelengthRange): number {
  return bandIn(part, search, hull)?.strength ?? 0
}
