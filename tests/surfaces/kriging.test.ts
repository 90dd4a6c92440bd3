import { describe, expect, test } from 'vitest'
import { krigeAt, krigeRows } from '../../src/surfaces/kriging'
import { inverseDistanceAt, inverseDistanceRows } from '../../src/surfaces/inverse-distance'
import type { Grid, Points, Variogram } from '../../src/surfaces/model'
import { leaveOneOut } from '../../src/surfaces/testing'
import { covariance, gammaAt, maternCorrelation } from '../../src/surfaces/variogram-models'
import { scatter } from './scatter'

/** Isaaks and Srivastava 1989, chapter 12: seven samples of Walker Lake's V. */
const SEVEN: Points = {
  x: Float64Array.of(61, 63, 64, 68, 71, 73, 75),
  y: Float64Array.of(139, 140, 129, 128, 140, 141, 128),
  value: Float64Array.of(477, 696, 227, 646, 606, 791, 783),
}
/** Covariance 10 exp(−0.3 h): the practical range is 3 / 0.3. */
const SEVEN_MODEL: Variogram = {
  nugget: 0,
  structures: [{ model: 'exponential', sill: 10, range: 10 }],
}
const TARGET = { x: Float64Array.of(65), y: Float64Array.of(137) }

const SPHERICAL: Variogram = {
  nugget: 0.1,
  structures: [{ model: 'spherical', sill: 1, range: 30 }],
}

describe('ordinary kriging', () => {
  test('the seven-point example, to its printed digits', () => {
    const { estimate, variance } = krigeAt(SEVEN, SEVEN_MODEL, TARGET)
    expect(estimate[0].toFixed(1)).toBe('592.7')
    expect(variance[0].toFixed(2)).toBe('8.96')
    const weights = [0, 1, 2, 3, 4, 5, 6].map((i) => {
      const value = new Float64Array(7)
      value[i] = 1
      return krigeAt({ ...SEVEN, value }, SEVEN_MODEL, TARGET).estimate[0].toFixed(3)
    })
    expect(weights).toEqual(['0.173', '0.318', '0.129', '0.086', '0.151', '0.057', '0.086'])
  })

  test('a station gets its own value and no variance; with an error of its own it does not', () => {
    const points = scatter(40, 100)
    const at = { x: points.x.slice(7, 8), y: points.y.slice(7, 8) }
    const exact = krigeAt(points, SPHERICAL, at)
    expect(exact.estimate[0]).toBeCloseTo(points.value[7], 12)
    expect(exact.variance[0]).toBeCloseTo(0, 12)
    const error = new Float64Array(40).fill(0.5)
    const filtered = krigeAt({ ...points, error }, SPHERICAL, at)
    expect(Math.abs(filtered.estimate[0] - points.value[7])).toBeGreaterThan(1e-3)
    expect(filtered.variance[0]).toBeGreaterThan(0.01)
  })

  test('equal errors of stations are a nugget that is filtered (Cressie 1993)', () => {
    const points = scatter(40, 100)
    const at = { x: Float64Array.of(31.5, 70.2), y: Float64Array.of(44.4, 12.9) }
    const error = new Float64Array(40).fill(0.4)
    const filtered = krigeAt({ ...points, error }, SPHERICAL, at)
    const nugget = krigeAt(points, { ...SPHERICAL, nugget: 0.1 + 0.16 }, at)
    for (let i = 0; i < 2; i++) {
      expect(filtered.estimate[i]).toBeCloseTo(nugget.estimate[i], 12)
      // The nugget's variance is not part of what is predicted.
      expect(filtered.variance[i]).toBeCloseTo(nugget.variance[i] - 0.16, 12)
    }
  })

  test('duplicates count as one station with their mean', () => {
    const points = scatter(20, 100)
    const twice: Points = {
      x: Float64Array.of(...points.x, points.x[3]),
      y: Float64Array.of(...points.y, points.y[3]),
      value: Float64Array.of(...points.value, points.value[3] + 2),
    }
    const once = { ...points, value: points.value.slice() }
    once.value[3] += 1
    const at = { x: Float64Array.of(50), y: Float64Array.of(50) }
    expect(krigeAt(twice, SPHERICAL, at)).toEqual(krigeAt(once, SPHERICAL, at))
  })

  test('a near-singular system stays sane: a gaussian without nugget on close stations', () => {
    const points = scatter(60, 10)
    const smooth: Points = {
      ...points,
      value: points.x.map((x, i) => Math.sin(x / 5) + points.y[i] / 9),
    }
    const model: Variogram = {
      nugget: 0,
      structures: [{ model: 'gaussian', sill: 1, range: 60 }],
    }
    const at = { x: Float64Array.of(5.1, 2.2), y: Float64Array.of(4.9, 8.3) }
    const { estimate, variance } = krigeAt(smooth, model, at)
    for (let i = 0; i < 2; i++) {
      expect(Math.abs(estimate[i] - (Math.sin(at.x[i] / 5) + at.y[i] / 9))).toBeLessThan(0.01)
      expect(variance[i]).toBeGreaterThanOrEqual(0)
    }
  })

  test('a linear field comes back exactly with a trend, even far outside', () => {
    const points = scatter(30, 100)
    const plane: Points = {
      ...points,
      value: points.x.map((x, i) => 3 + 0.2 * x - 0.1 * points.y[i]),
    }
    const at = { x: Float64Array.of(50, 300), y: Float64Array.of(50, -200) }
    const { estimate } = krigeAt(plane, SPHERICAL, at, { trend: 1 })
    expect(estimate[0]).toBeCloseTo(3 + 10 - 5, 9)
    expect(estimate[1]).toBeCloseTo(3 + 60 + 20, 9)
  })
})

describe('rows of a grid', () => {
  const grid: Grid = { west: -10, north: 110, cell: 2, columns: 61, rows: 57 }
  const nodes = {
    x: Float64Array.from({ length: 61 * 57 }, (_, i) => -10 + ((i % 61) + 0.5) * 2),
    y: Float64Array.from({ length: 61 * 57 }, (_, i) => 110 - (Math.floor(i / 61) + 0.5) * 2),
  }

  for (const neighbours of [12, null]) {
    test(`are the same bytes however cut, ${neighbours ?? 'all'} neighbours`, () => {
      const points = scatter(150, 100)
      const anisotropic = { ...SPHERICAL, azimuth: 30, ratio: 0.5 }
      const whole = krigeRows(points, anisotropic, grid, [0, 57], { neighbours })
      const targets = krigeAt(points, anisotropic, nodes, { neighbours })
      expect(targets).toEqual(whole)
      const weighed = inverseDistanceRows(points, grid, [0, 57], { neighbours })
      expect(inverseDistanceAt(points, nodes, { neighbours })).toEqual(weighed)
      for (const [from, to] of [
        [0, 5],
        [5, 6],
        [6, 57],
      ] as const) {
        const part = krigeRows(points, anisotropic, grid, [from, to], { neighbours })
        expect(part.estimate).toEqual(whole.estimate.slice(from * 61, to * 61))
        expect(part.variance).toEqual(whole.variance.slice(from * 61, to * 61))
        const partWeighed = inverseDistanceRows(points, grid, [from, to], { neighbours })
        expect(partWeighed).toEqual(weighed.slice(from * 61, to * 61))
      }
    })
  }

  test('nearest neighbours are those of a plain search, on a lattice full of ties', () => {
    const lattice = 12
    const points: Points = {
      x: Float64Array.from({ length: lattice ** 2 }, (_, i) => (i % lattice) * 8),
      y: Float64Array.from({ length: lattice ** 2 }, (_, i) => Math.floor(i / lattice) * 8),
      value: scatter(lattice ** 2, 1).value,
    }
    const found = krigeRows(points, SPHERICAL, grid, [20, 24], { neighbours: 7 })
    for (let node = 0; node < 4 * 61; node++) {
      const x = nodes.x[20 * 61 + node]
      const y = nodes.y[20 * 61 + node]
      const order = Array.from(points.x, (_, i) => i).sort(
        (a, b) =>
          (points.x[a] - x) ** 2 +
            (points.y[a] - y) ** 2 -
            (points.x[b] - x) ** 2 -
            (points.y[b] - y) ** 2 || b - a,
      )
      const near = order.slice(0, 7)
      const subset: Points = {
        x: Float64Array.from(near, (i) => points.x[i]),
        y: Float64Array.from(near, (i) => points.y[i]),
        value: Float64Array.from(near, (i) => points.value[i]),
      }
      const direct = krigeAt(subset, SPHERICAL, { x: Float64Array.of(x), y: Float64Array.of(y) })
      expect(found.estimate[node]).toBeCloseTo(direct.estimate[0], 9)
    }
  })
})

describe('leave-one-out', () => {
  test('the shortcut equals leaving out one by one', () => {
    const points = scatter(40, 100)
    const quick = leaveOneOut(points, { method: 'kriging', variogram: SPHERICAL })
    for (const left of [0, 17, 39]) {
      const keep = (_: number, i: number) => i !== left
      const others = {
        x: points.x.filter(keep),
        y: points.y.filter(keep),
        value: points.value.filter(keep),
      }
      const at = { x: points.x.slice(left, left + 1), y: points.y.slice(left, left + 1) }
      const slow = krigeAt(others, SPHERICAL, at)
      expect(quick.predicted[left]).toBeCloseTo(slow.estimate[0], 10)
      expect(quick.variance?.[left]).toBeCloseTo(slow.variance[0], 10)
    }
  })
})

describe('models', () => {
  test('reach 95 % of their sill at the range, the spherical all of it', () => {
    for (const model of ['exponential', 'gaussian', 'matern'] as const) {
      for (const smoothness of [0.7, 1.5, 2.5]) {
        const variogram: Variogram = {
          nugget: 0,
          structures: [{ model, sill: 2, range: 50, smoothness }],
        }
        expect(gammaAt(variogram, 30, 40) / 2).toBeCloseTo(0.95, 3)
      }
    }
    expect(
      gammaAt({ nugget: 1, structures: [{ model: 'spherical', sill: 2, range: 50 }] }, 30, 40),
    ).toBe(3)
  })

  test('anisotropy: the major direction is clockwise from north', () => {
    const variogram: Variogram = { ...SPHERICAL, azimuth: 90, ratio: 0.5 }
    expect(covariance(variogram, 10, 0)).toBeCloseTo(covariance(SPHERICAL, 10, 0), 12)
    expect(covariance(variogram, 0, 10)).toBeCloseTo(covariance(SPHERICAL, 20, 0), 12)
  })

  test('Matérn by the Bessel function agrees with its closed forms', () => {
    for (const x of [1e-6, 0.01, 0.5, 1, 3, 10, 40]) {
      for (const nu of [0.5, 1.5, 2.5]) {
        // A smoothness a hair off takes the general way.
        expect(maternCorrelation(nu + 1e-12, x)).toBeCloseTo(maternCorrelation(nu, x), 9)
      }
    }
    // K₁(1) = 0.601907230197 (Abramowitz and Stegun 1964, table 9.8; from memory).
    expect(maternCorrelation(1, 1)).toBeCloseTo(0.601907230197, 10)
  })
})
