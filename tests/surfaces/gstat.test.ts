/** Surfaces against what gstat 2.1 computes of the Meuse samples (see ../shared/README.md). */
import { describe, expect, test } from 'vitest'
import { experimentalVariogram, defaultLags } from '../../src/surfaces/experimental'
import { fitVariogram } from '../../src/surfaces/fit-variogram'
import { inverseDistanceAt } from '../../src/surfaces/inverse-distance'
import { krigeAt } from '../../src/surfaces/kriging'
import type { Variogram } from '../../src/surfaces/model'
import { leaveOneOut } from '../../src/surfaces/testing'
import { largestDifference, meuseLogZinc, noSpatial, spatial } from './shared-data'

const SPHERICAL: Variogram = {
  nugget: 0.0507,
  structures: [{ model: 'spherical', sill: 0.5906, range: 897 }],
}

describe.skipIf(noSpatial)('Meuse against gstat', () => {
  test('Matheron and Cressie–Hawkins variograms', () => {
    const files = [
      ['meuse-variogram.csv', 'matheron'],
      ['meuse-variogram-robust.csv', 'cressie-hawkins'],
    ] as const
    for (const [file, estimator] of files) {
      const expected = spatial(file)
      const found = experimentalVariogram(
        meuseLogZinc(),
        { cutoff: 1500, width: 100 },
        { estimator },
      )
      expect(found.map((lag) => lag.pairs)).toEqual([...expected.np])
      expect(
        largestDifference(
          found.map((l) => l.distance),
          expected.dist,
        ),
      ).toBeLessThan(1e-6)
      expect(
        largestDifference(
          found.map((l) => l.gamma),
          expected.gamma,
        ),
      ).toBeLessThan(1e-6)
    }
  })

  test('directional variograms', () => {
    const expected = spatial('meuse-variogram-directional.csv')
    const found = [0, 45, 90, 135].flatMap((azimuth) =>
      experimentalVariogram(
        meuseLogZinc(),
        { cutoff: 1500, width: 150 },
        { azimuth, tolerance: 22.5 },
      ),
    )
    expect(found.map((lag) => lag.pairs)).toEqual([...expected.np])
    expect(
      largestDifference(
        found.map((l) => l.distance),
        expected.dist,
      ),
    ).toBeLessThan(1e-6)
    expect(
      largestDifference(
        found.map((l) => l.gamma),
        expected.gamma,
      ),
    ).toBeLessThan(1e-6)
  })

  test('default lags, and the fit of a spherical model to them', () => {
    const lags = defaultLags(meuseLogZinc())
    expect(lags.cutoff).toBeCloseTo(1596.623, 3)
    const found = experimentalVariogram(meuseLogZinc(), lags)
    const expected = spatial('meuse-variogram-fitted.csv')
    expect(
      largestDifference(
        found.map((l) => l.gamma),
        expected.gamma,
      ),
    ).toBeLessThan(1e-6)
    const { nugget, structures } = fitVariogram(found, {
      shapes: [{ model: 'spherical' }],
    }).variogram
    expect(Math.abs(nugget / 0.05066 - 1)).toBeLessThan(0.005)
    expect(Math.abs(structures[0].sill / 0.59061 - 1)).toBeLessThan(0.005)
    expect(Math.abs(structures[0].range / 897.02 - 1)).toBeLessThan(0.005)
  })

  test('the fit to lags of 100 m to 1500 m', () => {
    const found = experimentalVariogram(meuseLogZinc(), { cutoff: 1500, width: 100 })
    const { nugget, structures } = fitVariogram(found, {
      shapes: [{ model: 'spherical' }],
    }).variogram
    expect(Math.abs(nugget / 0.0616 - 1)).toBeLessThan(0.005)
    expect(Math.abs(structures[0].sill / 0.58982 - 1)).toBeLessThan(0.005)
    expect(Math.abs(structures[0].range / 942.52 - 1)).toBeLessThan(0.005)
  })

  test('ordinary kriging with all data and with the nearest 24, and inverse distance', () => {
    const expected = spatial('meuse-expected.csv')
    const all = krigeAt(meuseLogZinc(), SPHERICAL, { x: expected.x, y: expected.y })
    expect(largestDifference(all.estimate, expected.ok)).toBeLessThan(1e-6)
    expect(largestDifference(all.variance, expected.ok_variance)).toBeLessThan(1e-6)
    const near = krigeAt(
      meuseLogZinc(),
      SPHERICAL,
      { x: expected.x, y: expected.y },
      { neighbours: 24 },
    )
    expect(largestDifference(near.estimate, expected.ok24)).toBeLessThan(1e-6)
    expect(largestDifference(near.variance, expected.ok24_variance)).toBeLessThan(1e-6)
    const weighed = inverseDistanceAt(meuseLogZinc(), { x: expected.x, y: expected.y })
    expect(largestDifference(weighed, expected.idw2)).toBeLessThan(1e-6)
  })

  test('anisotropic kriging', () => {
    const expected = spatial('meuse-anisotropic-expected.csv')
    const variogram: Variogram = {
      nugget: 0.05,
      structures: [{ model: 'spherical', sill: 0.59, range: 1200 }],
      azimuth: 45,
      ratio: 0.4,
    }
    const found = krigeAt(meuseLogZinc(), variogram, { x: expected.x, y: expected.y })
    expect(largestDifference(found.estimate, expected.ok)).toBeLessThan(1e-6)
    expect(largestDifference(found.variance, expected.ok_variance)).toBeLessThan(1e-6)
  })

  test('an indicator, nearest 40', () => {
    const expected = spatial('meuse-indicator-expected.csv')
    const { x, y, zinc } = spatial('meuse.csv')
    const points = { x, y, value: zinc.map((z) => (z > 500 ? 1 : 0)) }
    const variogram: Variogram = {
      nugget: 0.03,
      structures: [{ model: 'exponential', sill: 0.18, range: 1200 }],
    }
    const found = krigeAt(points, variogram, { x: expected.x, y: expected.y }, { neighbours: 40 })
    expect(largestDifference(found.estimate, expected.probability_raw)).toBeLessThan(1e-6)
  })

  test('leave-one-out', () => {
    const expected = spatial('meuse-leave-one-out.csv')
    const found = leaveOneOut(meuseLogZinc(), { method: 'kriging', variogram: SPHERICAL })
    expect(largestDifference(found.predicted, expected.predicted)).toBeLessThan(1e-6)
    expect(largestDifference(found.variance ?? [], expected.variance)).toBeLessThan(1e-6)
    expect(found.testing.meanError).toBeCloseTo(-0.0000211, 6)
    expect(found.testing.rmse).toBeCloseTo(0.391805, 6)
    expect(found.testing.meanSquaredStandardised).toBeCloseTo(0.818326, 6)
    const near = leaveOneOut(meuseLogZinc(), {
      method: 'kriging',
      variogram: SPHERICAL,
      neighbours: 154,
    })
    expect(largestDifference(near.predicted, expected.predicted)).toBeLessThan(1e-6)
  })
})
