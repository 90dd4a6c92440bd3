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

/** A Gaussian of full width at half height. */
function bell(nm: number, centre: number, width: number): number {
  return Math.exp(-4 * Math.LN2 * ((nm - centre) / width) ** 2)
}

/**
 * A polyethylene film crossed twice, by the depth of its 1730 nm band. Positions of the C–H bands
 * are published (1210, 1730, 1762, 2310, 2350 nm); relative strengths and widths from memory.
 */
export function filmed(spectrum: Spectrum, depthAt1730: number): Spectrum {
  const strength = -Math.log(1 - depthAt1730)
  return changed(spectrum, (value, nm) => {
    const bands =
      0.3 * bell(nm, 1211, 30) +
      bell(nm, 1730, 16) +
      0.7 * bell(nm, 1762, 18) +
      2 * bell(nm, 2310, 18) +
      1.6 * bell(nm, 2350, 22)
    return value * Math.exp(-strength * bands)
  })
}

/** Reflectance of a green leaf, [nm, fraction]: textbook shape, values from memory. */
const LEAF: readonly (readonly [number, number])[] = [
  [350, 0.04],
  [500, 0.05],
  [550, 0.12],
  [600, 0.08],
  [640, 0.06],
  [675, 0.045],
  [690, 0.065],
  [705, 0.16],
  [720, 0.3],
  [740, 0.43],
  [760, 0.47],
  [850, 0.49],
  [1100, 0.48],
  [1300, 0.44],
  [1450, 0.18],
  [1650, 0.32],
  [1800, 0.28],
  [1940, 0.07],
  [2200, 0.18],
  [2500, 0.06],
]

/** A spot of which a part is a green leaf. */
export function overgrown(spectrum: Spectrum, part: number): Spectrum {
  return changed(spectrum, (value, nm) => {
    const next = Math.max(
      1,
      LEAF.findIndex(([at]) => at >= nm),
    )
    const [[x0, y0], [x1, y1]] = [LEAF[next - 1], LEAF[next]]
    const leaf = y0 + ((y1 - y0) * (nm - x0)) / (x1 - x0)
    return (1 - part) * value + part * leaf
  })
}

/**
 * Bands of paper, [nm, full width in nm, absorbance]: positions of cellulose and its water after
 * Curran 1989 (Remote Sensing of Environment 30, 271) and Elvidge 1990 (Int. J. Remote Sensing
 * 11, 1775); widths and strengths from memory of uncoated white paper.
 */
export const PAPER: readonly (readonly [number, number, number])[] = [
  [1200, 60, 0.03],
  [1490, 130, 0.22],
  [1580, 90, 0.08],
  [1780, 40, 0.03],
  [1930, 80, 0.25],
  [2100, 130, 0.3],
  [2272, 45, 0.1],
  [2335, 60, 0.18],
  [2480, 110, 0.3],
]

/** A spot of which a part is a paper label: 0.86 white, falling off beyond 1300 nm. */
export function labelled(spectrum: Spectrum, part: number, paper = PAPER): Spectrum {
  return changed(spectrum, (value, nm) => {
    const bands = paper.reduce((sum, [at, width, a]) => sum + a * bell(nm, at, width), 0)
    const sheet = (0.86 - 0.16 * Math.max(0, (nm - 1300) / 1000)) * Math.exp(-bands)
    return (1 - part) * value + part * sheet
  })
}

/**
 * Marker ink on the rock, by the part of the light that its dye takes away in two crossings. It
 * absorbs from `from` nm (0 for black, 560 for blue) to an edge some 50 nm wide, and nothing
 * beyond: general knowledge, from memory.
 */
export function inked(spectrum: Spectrum, taken: number, from: number, edge: number): Spectrum {
  const strength = -Math.log(1 - taken)
  return changed(spectrum, (value, nm) => {
    const dye = 1 / (1 + Math.exp((nm - edge) / 12)) / (1 + Math.exp((from - nm) / 12))
    return value * Math.exp(-strength * dye)
  })
}
