/** Leaves on made spectra whose answers are known. */
import { expect, test } from 'vitest'
import { channelsLeaf, featureLeaf, reflectanceLeaf } from '../../src/indices/leaves'
import { measureLeaves } from '../../src/indices/measure-leaves'
import { NOISE_LENGTH } from '../../src/spectra/feature'
import type { Spectrum } from '../../src/spectra/spectrum'

/** A Gaussian absorption of depth 0.3 at 2200 nm, σ 15 nm, on a line of 0.2 per 1000 nm. */
function made(step = 1): Spectrum {
  const wavelengths = Float64Array.from(
    { length: Math.floor(2150 / step) + 1 },
    (_, i) => 350 + i * step,
  )
  const reflectance = wavelengths.map(
    (nm) => (0.3 + 0.0002 * (nm - 350)) * (1 - 0.3 * Math.exp(-0.5 * ((nm - 2200) / 15) ** 2)),
  )
  return { wavelengths, reflectance }
}

const only = (
  leaf: Parameters<typeof measureLeaves>[0][number],
  spectrum = made(),
  noise: number | null = 0.001,
) => measureLeaves([leaf], spectrum, noise)[0]

test('an absorption comes back as it was made', () => {
  const range = [
    [2185, 2215],
    [2120, 2280],
  ] as const
  const quantities = ['position', 'depth', 'width', 'area', 'asymmetry'] as const
  const leaves = quantities.map((quantity) => featureLeaf(quantity, ...range))
  const [position, depth, width, area, asymmetry] = measureLeaves(leaves, made(), 0.001)
  expect(position.value).toBeCloseTo(2200, 1)
  expect(depth.value).toBeCloseTo(0.3, 2)
  // A Gaussian: FWHM = 2.3548 σ, area = D σ √(2π), asymmetry 1.
  expect(Math.abs((width.value ?? 0) - 2.3548 * 15)).toBeLessThan(0.3)
  expect(Math.abs((area.value ?? 0) - 0.3 * 15 * Math.sqrt(2 * Math.PI))).toBeLessThan(0.2)
  expect(asymmetry.value).toBeCloseTo(1, 1)
  for (const { error } of [position, depth, width, area, asymmetry])
    expect(error).toBeGreaterThan(0)
})

test('reflectance, mean and slope of a line', () => {
  expect(only(reflectanceLeaf(1350)).value).toBeCloseTo(0.5, 9)
  expect(only(reflectanceLeaf(1350.25)).value).toBeCloseTo(0.50005, 9)
  expect(only(reflectanceLeaf(350)).value).toBeCloseTo(0.3, 9)
  expect(only(channelsLeaf('mean', [1300, 1400])).value).toBeCloseTo(0.5, 9)
  expect(only(channelsLeaf('slope', [1000, 1300])).value).toBeCloseTo(0.2, 9)
})

test('errors: one channel has the noise, a mean has less, and none is stated without noise', () => {
  expect(only(reflectanceLeaf(1350)).error).toBe(0.001)
  // The variance of a mean of correlated values is their mean covariance.
  let covariance = 0
  for (let i = 0; i < 101; i++) {
    for (let j = 0; j < 101; j++) covariance += Math.max(0, 1 - Math.abs(i - j) / NOISE_LENGTH)
  }
  const { error } = only(channelsLeaf('mean', [1300, 1400]))
  expect(error).toBeCloseTo((0.001 * Math.sqrt(covariance)) / 101, 9)
  expect(error).toBeLessThan(0.001 / 5)
  // Channels 10 nm apart are independent: the least-squares slope's textbook error.
  const spread = Array.from({ length: 31 }, (_, i) => (10 * (i - 15)) ** 2).reduce((a, b) => a + b)
  const slope = only(channelsLeaf('slope', [1000, 1300]), made(10))
  expect(slope.error).toBeCloseTo((1000 * 0.001) / Math.sqrt(spread), 9)
  expect(only(channelsLeaf('mean', [1300, 1400]), made(), null)).toMatchObject({ error: null })
})

test('gaps and ranges beyond the axis are missing for that reason', () => {
  const gap = { value: null, error: null, missing: 'gap in channels' }
  expect(only(reflectanceLeaf(2501))).toEqual(gap)
  expect(only(reflectanceLeaf(349))).toEqual(gap)
  expect(only(channelsLeaf('mean', [300, 400]))).toEqual(gap)
  expect(only(channelsLeaf('mean', [1300.2, 1300.8]))).toEqual(gap)
  expect(only(channelsLeaf('slope', [1300, 1300.5]))).toEqual(gap)
  expect(only(channelsLeaf('mean', [349.5, 400])).value).not.toBeNull()
  const holed = made()
  holed.reflectance.fill(NaN, 950, 1020)
  expect(only(reflectanceLeaf(1300), holed)).toEqual(gap)
  expect(only(channelsLeaf('mean', [1300, 1380]), holed)).toEqual(gap)
  expect(only(channelsLeaf('mean', [1200, 1400]), holed).value).toBeCloseTo(0.48, 1)
  expect(only(featureLeaf('depth', [2190, 2210], [2480, 2520]), made()).missing).toBe(
    'gap in channels',
  )
})
