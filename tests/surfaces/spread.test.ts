/** Spread and planes of stations against R's figures and a published exhaustive data set. */
import { expect, test } from 'vitest'
import { decluster } from '../../src/surfaces/declustering'
import { planeTest } from '../../src/surfaces/plane-test'
import { spreadWith } from '../../src/surfaces/spread'
import { scatter } from './scatter'
import { meuseLogZinc, noSpatial, spatial } from './shared-data'

test.skipIf(noSpatial)(
  'plain spread is R 4.2’s mean, sd and quantile on log(zinc) of Meuse',
  () => {
    const { mean, sd, quantiles, skewness } = spreadWith(meuseLogZinc().value, null)
    expect(mean).toBeCloseTo(5.885775852175, 11)
    expect(sd).toBeCloseTo(0.721881056753, 11)
    // mean((z - mean(z))^3) / mean((z - mean(z))^2)^1.5
    expect(skewness).toBeCloseTo(0.3258816365, 9)
    const expected = [
      5.029109353473, 5.288267030695, 5.786897381367, 6.513969202844, 6.893072142797,
    ]
    quantiles.forEach((quantile, i) => expect(quantile).toBeCloseTo(expected[i], 11))
  },
)

test('equal weights, whatever their size, change nothing; a double weight is a value twice', () => {
  const values = Float64Array.of(3, 9, 4, 1, 7)
  const plain = spreadWith(values, null)
  const equal = spreadWith(values, new Float64Array(5).fill(0.7))
  expect(equal.sd).toBeCloseTo(plain.sd, 12)
  equal.quantiles.forEach((quantile, i) => expect(quantile).toBeCloseTo(plain.quantiles[i], 12))
  const twice = spreadWith(Float64Array.of(3, 9, 9), null)
  expect(spreadWith(Float64Array.of(3, 9), Float64Array.of(1, 2)).mean).toBe(twice.mean)
  expect(spreadWith(Float64Array.of(5), null)).toMatchObject({ mean: 5, sd: 0, skewness: 0 })
})

test.skipIf(noSpatial)(
  'Walker Lake: declustered median and spread come nearer the exhaustive',
  () => {
    // Isaaks and Srivastava 1989: of all 78,000 values of V the mean is 277.98; median 221.3 and
    // standard deviation 249.9 from memory.
    const { X, Y, V } = spatial('walker.csv')
    const { weights, mean } = decluster({ x: X, y: Y, value: V }, 'told')
    expect(mean).toBe(decluster({ x: X, y: Y, value: V }, 'low').mean)
    const plain = spreadWith(V, null)
    const fair = spreadWith(V, weights)
    const nearer = (f: number, p: number, truth: number) =>
      expect(Math.abs(f - truth)).toBeLessThan(0.35 * Math.abs(p - truth))
    nearer(fair.mean, plain.mean, 277.98)
    nearer(fair.quantiles[2], plain.quantiles[2], 221.3)
    expect(Math.abs(fair.sd - 249.9)).toBeLessThan(Math.abs(plain.sd - 249.9))
  },
)

test.skipIf(noSpatial)('the plane through log(zinc) of Meuse is that of R’s lm(z ~ x + y)', () => {
  const plane = planeTest(meuseLogZinc())
  expect(plane?.rSquared).toBeCloseTo(0.267280547113, 10)
  expect(plane?.pIfIndependent).toBeCloseTo(5.43584233069e-11, 18)
  const [east, north] = [-9.45016979484e-4, 6.59952872725e-4]
  expect(plane?.slope).toBeCloseTo(Math.hypot(east, north), 13)
  expect(plane?.azimuth).toBeCloseTo((Math.atan2(east, north) * 180) / Math.PI + 360, 7)
})

test('a plane is worth much where there is one, nothing where there is none', () => {
  const points = scatter(200, 1000)
  const tilted = { ...points, value: points.x.map((x, i) => 0.02 * x + Math.sin(7919 * i)) }
  const flat = { ...points, value: points.x.map((_, i) => Math.sin(7919 * i)) }
  expect(planeTest(tilted)?.blockedGain).toBeGreaterThan(0.7)
  expect(planeTest(tilted)?.azimuth).toBeCloseTo(90, -0.5)
  expect(planeTest(flat)?.blockedGain).toBeLessThan(0.02)
  const line = { x: points.x, y: points.x.map((x) => 2 * x), value: points.value }
  expect(planeTest(line)).toBeNull()
})
