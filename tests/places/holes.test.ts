import { describe, expect, test } from 'vitest'
import { atDepth, holePath, minimumCurvature } from '../../src/places/holes'

describe('minimum curvature', () => {
  // Sawaryn and Thorogood 2005, SPE 84246; the figures recomputed by hand.
  test('100 from inclination 15°, azimuth 20° to 25°, 45°: north 27.22, east 19.45, down 94.01', () => {
    const step = minimumCurvature(
      { depth: 0, inclination: 15, azimuth: 20 },
      { depth: 100, inclination: 25, azimuth: 45 },
    )
    expect(step.north).toBeCloseTo(27.22, 2)
    expect(step.east).toBeCloseTo(19.45, 2)
    expect(step.down).toBeCloseTo(94.01, 2)
  })

  test('a quarter circle from straight down to level ends one radius out and one down', () => {
    const radius = 200
    const length = (radius * Math.PI) / 2
    const path = holePath([
      { depth: 0, inclination: 0, azimuth: 90 },
      { depth: length, inclination: 90, azimuth: 90 },
    ])
    for (const part of [0, 0.1, 0.5, 0.9, 1]) {
      const there = atDepth(path, part * length)
      const angle = (part * Math.PI) / 2
      expect(there.north).toBeCloseTo(0, 9)
      expect(there.east).toBeCloseTo(radius * (1 - Math.cos(angle)), 9)
      expect(there.down).toBeCloseTo(radius * Math.sin(angle), 9)
    }
  })

  test('a straight hole is straight, before, between and past its surveys', () => {
    const path = holePath([
      { depth: 60, inclination: 30, azimuth: 250 },
      { depth: 20, inclination: 30, azimuth: 250 },
    ])
    for (const depth of [0, 10, 40, 60, 100]) {
      const there = atDepth(path, depth)
      expect(there.down).toBeCloseTo(depth * Math.cos(Math.PI / 6), 9)
      expect(Math.hypot(there.north, there.east)).toBeCloseTo(depth / 2, 9)
      expect(there.beyond).toBeCloseTo(Math.max(0, depth - 60), 9)
    }
    expect(Math.atan2(atDepth(path, 40).east, atDepth(path, 40).north)).toBeCloseTo(
      (-110 * Math.PI) / 180,
      9,
    )
  })

  test('the arc keeps its length when it is cut in two', () => {
    const a = { depth: 0, inclination: 15, azimuth: 20 }
    const b = { depth: 100, inclination: 25, azimuth: 45 }
    const path = holePath([a, b])
    const steps = 1000
    let length = 0
    let last = atDepth(path, 0)
    for (let i = 1; i <= steps; i++) {
      const next = atDepth(path, (100 * i) / steps)
      length += Math.hypot(next.north - last.north, next.east - last.east, next.down - last.down)
      last = next
    }
    expect(length).toBeCloseTo(100, 4)
    expect(last.north).toBeCloseTo(minimumCurvature(a, b).north, 9)
  })

  test('surveys that cannot be are refused', () => {
    expect(() => holePath([])).toThrow(/no survey/)
    expect(() => holePath([{ depth: 0, inclination: 190, azimuth: 0 }])).toThrow(/beyond straight/)
    expect(() => holePath([{ depth: 0, inclination: 10, azimuth: 400 }])).toThrow(/azimuth 400/)
    expect(() =>
      holePath([
        { depth: 50, inclination: 10, azimuth: 0 },
        { depth: 50, inclination: 40, azimuth: 0 },
      ]),
    ).toThrow(/two different surveys at 50 m/)
    expect(() =>
      holePath([
        { depth: 0, inclination: 90, azimuth: 0 },
        { depth: 50, inclination: 90, azimuth: 180 },
      ]),
    ).toThrow(/opposite/)
  })
})

test('two surveys of one depth count once where they agree to a tenth of a degree, else neither', () => {
  const at20 = (inclination: number) => ({ depth: 20, inclination, azimuth: 0 })
  const top = { depth: 0, inclination: 30, azimuth: 0 }
  expect(holePath([top, at20(30), at20(30.05)]).surveys).toHaveLength(2)
  expect(() => holePath([top, at20(30), at20(30.2)])).toThrow('two different surveys at 20 m')
})
