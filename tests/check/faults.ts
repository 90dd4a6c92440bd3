/** Faults put into scans in physical terms. */
import type { Spectrum } from '../../src/spectra/spectrum'

/**
 * Absorption coefficient of liquid water, [nm, 1/cm], rounded, from memory of Hale and Querry
 * 1973 (Appl. Opt. 12, 555) and Kou, Labrie and Chylek 1993 (Appl. Opt. 32, 3531).
 */
const WATER: readonly (readonly [number, number])[] = [
  [350, 0],
  [900, 0.07],
  [975, 0.48],
  [1070, 0.15],
  [1195, 1.25],
  [1270, 1.0],
  [1350, 2.9],
  [1380, 6],
  [1400, 12.4],
  [1420, 22],
  [1440, 29.5],
  [1450, 29.8],
  [1470, 27.5],
  [1500, 18.5],
  [1550, 10],
  [1600, 6.7],
  [1650, 5.2],
  [1700, 5.2],
  [1750, 6.3],
  [1800, 8],
  [1850, 9.8],
  [1870, 14],
  [1885, 27],
  [1900, 65],
  [1910, 93],
  [1920, 118],
  [1930, 127],
  [1940, 124],
  [1950, 115],
  [1960, 103],
  [1980, 84],
  [2000, 69],
  [2050, 43],
  [2100, 25],
  [2150, 18.5],
  [2200, 16.5],
  [2250, 18],
  [2300, 23],
  [2350, 33],
  [2400, 48],
  [2450, 70],
  [2500, 97],
]

/** Absorption coefficient of liquid water at a wavelength, 1/cm. */
export function waterAbsorption(nm: number): number {
  const next = WATER.findIndex(([at]) => at >= nm)
  if (next <= 0) return next === 0 ? WATER[0][1] : 0
  const [[x0, y0], [x1, y1]] = [WATER[next - 1], WATER[next]]
  return y0 + ((y1 - y0) * (nm - x0)) / (x1 - x0)
}

/**
 * A film of water on the rock, crossed twice, and the darkening of a wetted surface: each
 * bounce inside the film meets the rock again (after Lekner and Dorf 1988, Appl. Opt. 27, 1278,
 * with 45 % of diffuse light sent back at the surface of water: from memory).
 */
export function wet(spectrum: Spectrum, micrometres: number): Spectrum {
  const back = 0.45 * (1 - Math.exp(-micrometres / 15))
  return changed(spectrum, (value, nm) => {
    const film = value * Math.exp(-2 * waterAbsorption(nm) * micrometres * 1e-4)
    return ((1 - back) * film) / (1 - back * film)
  })
}

/** A detector step: the first detector by `size`, the third by -0.6 of it. */
export function stepped(spectrum: Spectrum, size: number, joins = [1000.5, 1800.5]): Spectrum {
  return changed(spectrum, (value, nm) =>
    nm < joins[0] ? value * (1 + size) : nm > joins[1] ? value * (1 - 0.6 * size) : value,
  )
}

/** A spectrum with every value changed by its value and wavelength. */
export function changed(
  { wavelengths, reflectance }: Spectrum,
  change: (value: number, nm: number) => number,
): Spectrum {
  return {
    wavelengths,
    reflectance: Float32Array.from(reflectance, (value, i) => change(value, wavelengths[i])),
  }
}

/** Noise that is alike over about 2 nm, as optics and interpolation leave it. */
export function noisy(spectrum: Spectrum, deviation: number, chance: () => number): Spectrum {
  const white = Float64Array.from({ length: spectrum.reflectance.length + 2 }, chance)
  return {
    wavelengths: spectrum.wavelengths,
    reflectance: Float32Array.from(
      spectrum.reflectance,
      (value, i) =>
        value +
        (deviation * (0.25 * white[i] + 0.5 * white[i + 1] + 0.25 * white[i + 2])) /
          Math.sqrt(0.375),
    ),
  }
}
