/** Features against Gaussians, whose figures are known, and against positions of library records measured with SciPy. */
import { expect, test } from 'vitest'
import { measureFeature, type Feature, type FeatureResult } from '../../src/spectra/feature'
import type { Spectrum } from '../../src/spectra/spectrum'
import { deviation, mean, normal } from './chance'
import { libraryMissing, libraryRecord } from './library'

function found(result: FeatureResult): Feature {
  if ('missing' in result) throw new Error(result.missing)
  return result
}

/** A Gaussian absorption on a sloping line, 2000–2400 nm. */
function gaussian(depth: number, sigma: number, centre: number, step = 1): Spectrum {
  const wavelengths = Float64Array.from({ length: 400 / step + 1 }, (_, i) => 2000 + i * step)
  const reflectance = wavelengths.map(
    (nm) =>
      (0.4 + 0.0003 * (nm - 2000)) * (1 - depth * Math.exp(-0.5 * ((nm - centre) / sigma) ** 2)),
  )
  return { wavelengths, reflectance }
}

test('a noiseless Gaussian on a sloping line comes back', () => {
  for (const centre of [2200, 2200.37, 2199.81]) {
    const feature = found(measureFeature(gaussian(0.3, 15, centre), [2150, 2250], [2100, 2300]))
    expect(Math.abs(feature.position - centre)).toBeLessThan(0.1)
    expect(feature.depth).toBeCloseTo(0.3, 3)
    expect(feature.width).toBeCloseTo(2.3548 * 15, 1)
    expect(feature.area).toBeCloseTo(0.3 * 15 * Math.sqrt(2 * Math.PI), 2)
    expect(feature.asymmetry).toBeCloseTo(1, 1)
    expect(feature.method).toBe('cubic')
    expect(feature.positionError).toBeNull()
  }
})

test('coarse, uneven channels are refined by the parabola', () => {
  const even = gaussian(0.3, 15, 2201.2, 4)
  const keep = (_: number, i: number) => i % 3 !== 1
  const spectrum = {
    wavelengths: even.wavelengths.filter(keep),
    reflectance: even.reflectance.filter(keep),
  }
  const feature = found(measureFeature(spectrum, [2150, 2250], [2100, 2300]))
  expect(feature.method).toBe('parabola')
  expect(Math.abs(feature.position - 2201.2)).toBeLessThan(0.5)
})

test('an absorption with a longer right flank has asymmetry over 1, its mirror the inverse', () => {
  const wavelengths = Float64Array.from({ length: 401 }, (_, i) => 2000 + i)
  const shape = (nm: number) =>
    1 - 0.2 * Math.exp(-0.5 * ((nm - 2200) / (nm > 2200 ? 20 : 10)) ** 2)
  const right = { wavelengths, reflectance: wavelengths.map(shape) }
  const left = { wavelengths, reflectance: wavelengths.map((nm) => shape(4400 - nm)) }
  const a = found(measureFeature(right, [2150, 2250], [2100, 2300]))
  const b = found(measureFeature(left, [2150, 2250], [2100, 2300]))
  // The cubic follows the skew by a nm or two; either side of there, by a fine sum:
  const lobe = (from: number, to: number) =>
    Array.from({ length: 20000 }, (_, i) => from + ((i + 0.5) * (to - from)) / 20000)
      .map((nm) => (1 - shape(nm)) * ((to - from) / 20000))
      .reduce((sum, part) => sum + part, 0)
  expect(a.asymmetry).toBeCloseTo(lobe(a.position, 2300) / lobe(2100, a.position), 2)
  expect(a.asymmetry).toBeGreaterThan(1.5)
  expect(a.asymmetry * b.asymmetry).toBeCloseTo(1, 2)
})

test('what cannot be measured says why', () => {
  const spectrum = gaussian(0.3, 15, 2200)
  const holed = (from: number, to: number): Spectrum => ({
    wavelengths: spectrum.wavelengths,
    reflectance: spectrum.reflectance.map((value, i) =>
      spectrum.wavelengths[i] >= from && spectrum.wavelengths[i] <= to ? NaN : value,
    ),
  })
  const missing = (s: Spectrum, search: [number, number], hull: [number, number]) => {
    const result = measureFeature(s, search, hull)
    return 'missing' in result ? result.missing : null
  }
  expect(missing(spectrum, [2205, 2250], [2100, 2300])).toBe('minimum at edge')
  expect(missing(spectrum, [2150, 2195], [2100, 2300])).toBe('minimum at edge')
  expect(missing(holed(2190, 2210), [2150, 2250], [2100, 2300])).toBe('gap in channels')
  expect(missing(spectrum, [2350, 2450], [2300, 2450])).toBe('gap in channels')
  expect(missing(holed(2199, 2200), [2150, 2250], [2100, 2300])).toBeNull()
  const flat = { ...spectrum, reflectance: spectrum.reflectance.map(() => 0.5) }
  expect(missing(flat, [2150, 2250], [2100, 2300])).toBe('no mathematical answer')
  const dark = { ...spectrum, reflectance: spectrum.reflectance.map((v) => v - 0.6) }
  expect(missing(dark, [2150, 2250], [2100, 2300])).toBe('no mathematical answer')
})

/** Features of one absorption under independent noise, 300 times over. */
function noisy(sigma: number, depth: number, snr: number): Feature[] {
  const clean = gaussian(depth, sigma, 2200.3)
  const chance = normal(20240 + snr)
  return Array.from({ length: 300 }, () => {
    const reflectance = clean.reflectance.map((value) => value + (chance() * 0.46) / snr)
    const spectrum = { wavelengths: clean.wavelengths, reflectance }
    return measureFeature(spectrum, [2150, 2250], [2100, 2300], 0.46 / snr, 0)
  }).filter((result) => !('missing' in result)) as Feature[]
}

test('the cubic spreads as an independent simulation in SciPy found, and the error says so', () => {
  // Depth 0.1, independent noise: 0.34 nm at a signal-to-noise of 500, 1.4 nm at 100.
  for (const [snr, published] of [
    [500, 0.34],
    [100, 1.4],
  ] as const) {
    const features = noisy(13, 0.1, snr)
    const spread = deviation(features.map((feature) => feature.position))
    expect(spread / published).toBeGreaterThan(0.8)
    expect(spread / published).toBeLessThan(1.25)
    const stated = mean(features.map((feature) => feature.positionError ?? NaN))
    expect(stated / spread).toBeGreaterThan(0.85)
    expect(stated / spread).toBeLessThan(1.35)
  }
})

test('errors of depth, width and area are of the size of their spread', () => {
  const features = noisy(15, 0.2, 500)
  for (const [value, error] of [
    ['position', 'positionError'],
    ['depth', 'depthError'],
    ['width', 'widthError'],
    ['area', 'areaError'],
    ['asymmetry', 'asymmetryError'],
  ] as const) {
    const spread = deviation(features.map((feature) => feature[value]))
    const stated = mean(features.map((feature) => feature[error] ?? NaN))
    expect(stated / spread, value).toBeGreaterThan(0.8)
    // Corners of the hull are picked for being high, which holds them stiller than a fixed channel.
    expect(stated / spread, value).toBeLessThan(2.5)
  }
})

test('correlated channels make a larger position error', () => {
  const spectrum = gaussian(0.2, 15, 2200)
  const at = (length: number) =>
    found(measureFeature(spectrum, [2150, 2250], [2100, 2300], 0.001, length)).positionError ?? NaN
  expect(at(2.5) / at(0)).toBeGreaterThan(1.2)
  expect(at(2.5) / at(0)).toBeLessThan(1.7)
})

type Row = [record: string, nm: number]
const FEATURES: [search: [number, number], hull: [number, number], rows: Row[]][] = [
  [
    [1440, 1550],
    [1440, 1550],
    [
      ['Alunite_HS295.1B_ASDFRa', 1477.5],
      ['Alunite_GDS84_Na03_BECKa', 1478.5],
      ['Alunite_SUSTDA-20_BECKb', 1495.5],
    ],
  ],
  [
    [2185, 2225],
    [2120, 2245],
    [
      ['Muscovite_GDS113_Ruby_ASDNGa', 2197.3],
      ['Muscovite_GDS116_Tanzania_ASDNGa', 2208.7],
      ['Paragonite_GDS109_BECKa', 2191.2],
      ['Muscovite_GDS111_Guatemala_BECKa', 2216.3],
    ],
  ],
  [
    [2235, 2270],
    [2220, 2290],
    [
      ['Clinochlore_GDS158_Flagstaff_ASDNGb', 2248.9],
      ['Chlorite_HS179.4B_ASDFRb', 2246.9],
      ['Thuringite_SMR-15.a_115um_BECKb', 2259.3],
    ],
  ],
  [
    [2300, 2370],
    [2230, 2400],
    [
      ['Dolomite_HS102.4B_ASDNGb', 2321.8],
      ['Calcite_GDS304_75-150um_ASDFRb', 2339.6],
      ['Rhodochrosite_HS338.6_ASDFRb', 2358.4],
      ['Siderite_HS271.4B_ASDFRa', 2330.6],
    ],
  ],
]

for (const [search, hull, rows] of FEATURES) {
  for (const [record, nm] of rows) {
    test.skipIf(libraryMissing)(`${record} lies at ${nm} nm`, () => {
      const { position } = found(measureFeature(libraryRecord(record), search, hull))
      expect(Math.abs(position - nm)).toBeLessThan(record.includes('_ASD') ? 0.5 : 1)
    })
  }
}

test('a bottom of two equal channels is a minimum, as rounded values make them', () => {
  const wavelengths = Float64Array.from({ length: 401 }, (_, i) => 2000 + i)
  const bell = (nm: number) => 0.5 - 0.15 * Math.exp(-0.5 * ((nm - 2200.5) / 15) ** 2)
  const reflectance = wavelengths.map((nm) => Math.round(bell(nm) * 1e4) / 1e4)
  expect(reflectance[200]).toBe(reflectance[201])
  const feature = found(measureFeature({ wavelengths, reflectance }, [2150, 2250], [2100, 2300]))
  expect(Math.abs(feature.position - 2200.5)).toBeLessThan(0.1)
})

test('without noise a skew feature’s error is what the place of the channels moves it by', () => {
  // Two absorptions side by side, sampled every nm from forty beginnings: positions differ though
  // nothing is measured wrongly, and the stated error should say by how much.
  const skewed = (start: number): Spectrum => {
    const wavelengths = Float64Array.from({ length: 390 }, (_, i) => 2000 + start + i)
    const bell = (nm: number, centre: number, sigma: number) =>
      Math.exp(-0.5 * ((nm - centre) / sigma) ** 2)
    return {
      wavelengths,
      reflectance: wavelengths.map(
        (nm) => 0.5 * (1 - 0.3 * bell(nm, 2200, 10) - 0.15 * bell(nm, 2222, 14)),
      ),
    }
  }
  const features = Array.from({ length: 40 }, (_, i) =>
    found(measureFeature(skewed(i / 40), [2150, 2250], [2100, 2300], 1e-9)),
  )
  const spread = deviation(features.map(({ position }) => position))
  const stated = mean(features.map(({ positionError }) => positionError ?? 0))
  expect(spread).toBeGreaterThan(0.05)
  expect(stated / spread).toBeGreaterThan(0.5)
  expect(stated / spread).toBeLessThan(2)
})
