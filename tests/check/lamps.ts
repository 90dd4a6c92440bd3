/**
 * Room lights that leak under the probe, as additions to reflectance.
 *
 * Line positions are those of the NIST Atomic Spectra Database, in air, written down from memory.
 * Relative powers are rough and from memory of published lamp spectra; they differ by maker, age
 * and warmth. No measured lamp was at hand.
 */
import type { Spectrum } from '../../src/spectra/spectrum'

/** A line or hump of a lamp: wavelength, relative power, its own full width at half height, nm. */
type Emission = readonly [nm: number, power: number, width: number]

/** Hg I. */
const MERCURY: readonly Emission[] = [
  [404.7, 0.4, 0],
  [435.8, 0.75, 0],
  [546.1, 1, 0],
  [577.0, 0.45, 0],
  [579.1, 0.45, 0],
  [1014.0, 0.35, 0],
  [1128.7, 0.15, 0],
  [1357.0, 0.05, 0],
  [1367.4, 0.15, 0],
  [1395.1, 0.08, 0],
  [1529.6, 0.12, 0],
  [1692.0, 0.05, 0],
  [1710.9, 0.05, 0],
]

/** Na I at high pressure: the yellow doublet is broadened and dark in its middle. */
const SODIUM: readonly Emission[] = [
  [498.2, 0.08, 2],
  [568.5, 0.3, 3],
  [580, 0.7, 16],
  [600, 1.5, 20],
  [615.8, 0.15, 2],
  [819.0, 0.7, 3],
  [1138.1, 0.2, 0],
  [1140.4, 0.25, 0],
  [2205.6, 0.03, 0],
  [2208.4, 0.03, 0],
]

const ARGON: readonly Emission[] = [
  [696.5, 0.008, 0],
  [763.5, 0.02, 0],
  [811.5, 0.03, 0],
  [842.5, 0.012, 0],
  [912.3, 0.03, 0],
  [922.4, 0.008, 0],
  [965.8, 0.012, 0],
]

function times(emissions: readonly Emission[], factor: number): Emission[] {
  return emissions.map(([nm, power, width]) => [nm, power * factor, width])
}

/** The lamps of sheds and camps. */
export const LAMPS: Readonly<Record<string, readonly Emission[]>> = {
  /** Mercury and argon, with phosphors of europium (611) and terbium (488, 543, 585). */
  fluorescent: [
    ...MERCURY.map(([nm, power, width]): Emission => [nm, nm > 900 ? power / 6 : power / 2, width]),
    ...ARGON,
    [488, 0.35, 8],
    [543.5, 0.9, 3],
    [586, 0.35, 10],
    [611.3, 1.1, 3],
    [631, 0.2, 4],
    [708, 0.06, 4],
  ],
  mercury: [...MERCURY, [619, 0.25, 4], [699, 0.15, 5]],
  'high-pressure sodium': SODIUM,
  /** Sodium and scandium in mercury; the many lines of scandium as a hump. */
  'sodium and scandium halide': [
    ...times(MERCURY, 0.6),
    [568.5, 0.25, 2],
    [589.3, 0.7, 8],
    [819.0, 0.3, 2],
    [1138.1, 0.08, 0],
    [1140.4, 0.1, 0],
    [508, 0.5, 8],
    [570, 0.7, 20],
    [625, 0.5, 15],
    [474, 0.4, 10],
  ],
  /** Indium, thallium and sodium in mercury. */
  'three-colour halide': [
    ...times(MERCURY, 0.5),
    [410.2, 0.2, 1],
    [451.1, 0.5, 2],
    [535.0, 1.2, 2],
    [589.3, 0.8, 8],
    [819.0, 0.3, 2],
    [1138.1, 0.08, 0],
    [1140.4, 0.1, 0],
  ],
  /** Rare earths with caesium, whose lines stand in the ferric window; its visible is a forest. */
  'rare-earth halide': [
    ...times(MERCURY, 0.4),
    [535.0, 0.3, 2],
    [589.3, 0.3, 5],
    [852.1, 0.25, 2],
    [894.3, 0.2, 2],
    [1358.9, 0.06, 0],
    [1469.5, 0.08, 0],
    [480, 1.5, 90],
    [600, 1.8, 110],
  ],
  'white diode': [
    [450, 1, 22],
    [560, 3.4, 125],
  ],
}

/** The probe's lamp: a halogen filament at 3000 K (common practice), by Planck's law. */
function probeLight(nm: number): number {
  return (
    (560 / nm) ** 5 * (Math.expm1(1.4388e7 / (560 * 3000)) / Math.expm1(1.4388e7 / (nm * 3000)))
  )
}

/** Resolution of a field instrument, full width at half height, nm. */
function resolutionAt(nm: number): number {
  return nm < 1000 ? 3 : 9
}

/**
 * What a lamp adds to reflectance at a wavelength, for each part of the probe's light between 400
 * and 700 nm that it makes up on the panel.
 */
function addition(lamp: string, nm: number): number {
  const emissions = LAMPS[lamp]
  const visible = emissions.reduce((sum, [at, power]) => sum + (at <= 700 ? power : 0), 0)
  const light = emissions.reduce((sum, [at, power, width]) => {
    const wide = Math.hypot(width, resolutionAt(at))
    const height = (power / wide) * Math.sqrt((4 * Math.LN2) / Math.PI)
    return sum + height * Math.exp(-4 * Math.LN2 * ((nm - at) / wide) ** 2)
  }, 0)
  return (light / visible) * (probeVisible() / probeLight(nm))
}

/** The probe's light from 400 to 700 nm, in its own unit times nm. */
function probeVisible(): number {
  let sum = 0
  for (let nm = 400; nm < 700; nm += 5) sum += 5 * probeLight(nm + 2.5)
  return sum
}

const additions = new WeakMap<Float64Array, Map<string, Float64Array>>()

/** A scan into which a lamp shines, by its light over the probe's on the panel, 400–700 nm. */
export function lit(spectrum: Spectrum, lamp: string, part: number): Spectrum {
  const { wavelengths } = spectrum
  const known = additions.get(wavelengths) ?? new Map<string, Float64Array>()
  additions.set(wavelengths, known)
  const adds = known.get(lamp) ?? wavelengths.map((nm) => addition(lamp, nm))
  known.set(lamp, adds)
  return {
    wavelengths,
    reflectance: Float32Array.from(spectrum.reflectance, (value, i) => value + part * adds[i]),
  }
}
