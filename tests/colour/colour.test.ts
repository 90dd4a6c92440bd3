/** Colours against published values. */
import { paint, placeOnScale } from '../../src/colour/paint'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  contrastRatio,
  readableOn,
  relativeLuminance,
  TEXT_CONTRAST,
} from '../../src/colour/contrast'
import { nextColour, OKABE_ITO } from '../../src/colour/palettes'
import { RAMPS, RAMP_TABLES, type RampName } from '../../src/colour/ramp-tables'
import { rampColour, rampLookup } from '../../src/colour/ramps'
import { colourText, parseColour } from '../../src/colour/rgb'
import {
  breakDecimals,
  niceBreaks,
  percentiles,
  percentileStretch,
  placeAmong,
  placeInStretch,
} from '../../src/colour/stretch'

/*
 * Entries of the published tables: viridis and cividis from matplotlib 3.6.3 (256 colours);
 * the others from Scientific colour maps 7.0.1 (Crameri 2021, doi:10.5281/zenodo.5501399).
 */
const PUBLISHED: Record<RampName, (readonly [t: number, r: number, g: number, b: number])[]> = {
  viridis: [
    [0, 68, 1, 84],
    [0.145098, 70, 51, 127],
    [0.392157, 42, 118, 142],
    [0.784314, 112, 207, 87],
    [1, 253, 231, 37],
  ],
  cividis: [
    [0, 0, 34, 78],
    [0.145098, 35, 60, 110],
    [0.392157, 101, 104, 112],
    [0.784314, 196, 180, 104],
    [1, 254, 232, 56],
  ],
  batlow: [
    [0, 1, 25, 89],
    [0.145098, 18, 72, 97],
    [0.392157, 83, 117, 73],
    [0.784314, 249, 163, 128],
    [1, 250, 204, 250],
  ],
  lajolla: [
    [0, 255, 255, 204],
    [0.145098, 250, 228, 137],
    [0.392157, 232, 150, 82],
    [0.784314, 111, 55, 45],
    [1, 26, 26, 1],
  ],
  oslo: [
    [0, 1, 1, 1],
    [0.145098, 15, 33, 53],
    [0.392157, 42, 91, 147],
    [0.784314, 173, 184, 203],
    [1, 255, 255, 255],
  ],
  vik: [
    [0, 0, 18, 97],
    [0.145098, 4, 76, 134],
    [0.392157, 160, 197, 216],
    [0.788235, 187, 96, 45],
    [1, 89, 0, 8],
  ],
}

describe('ramps', () => {
  test.each(RAMPS)('%s has the published colours to 2 in 255', (name) => {
    for (const [t, ...published] of PUBLISHED[name]) {
      const colour = rampColour(name, t)
      published.forEach((channel, c) =>
        expect(Math.abs(colour[c] - channel)).toBeLessThanOrEqual(2),
      )
    }
  })

  test.each(RAMPS.filter((name) => RAMP_TABLES[name].kind === 'sequential'))(
    '%s runs one way in lightness',
    (name) => {
      const light = Array.from({ length: 33 }, (_, i) =>
        relativeLuminance(rampColour(name, i / 32)),
      )
      const rises = light.slice(1).map((value, i) => value - light[i])
      const direction = Math.sign(light[32] - light[0])
      for (const rise of rises) expect(rise * direction).toBeGreaterThan(-0.002)
    },
  )

  test('vik is lightest in the middle and dark at both ends', () => {
    const light = [0, 0.5, 1].map((t) => relativeLuminance(rampColour('vik', t)))
    expect(light[1]).toBeGreaterThan(0.7)
    expect(Math.max(light[0], light[2])).toBeLessThan(0.05)
  })

  test('places beyond the ends are held, and a lookup table agrees', () => {
    expect(rampColour('viridis', -1)).toEqual(rampColour('viridis', 0))
    expect(rampColour('viridis', 2)).toEqual(rampColour('viridis', 1))
    expect(rampColour('viridis', NaN)).toEqual(rampColour('viridis', 0))
    const lookup = rampLookup('batlow', 5)
    expect([...lookup.slice(6, 9)]).toEqual([...rampColour('batlow', 0.5)])
    expect([...lookup.slice(12)]).toEqual([...rampColour('batlow', 1)])
  })
})

describe('the palette', () => {
  test('is Okabe and Ito’s table in 8-bit RGB', () => {
    // Their table, in the order in which it is printed.
    expect(OKABE_ITO.map(({ colour }) => parseColour(colour))).toEqual([
      [0, 0, 0],
      [230, 159, 0],
      [86, 180, 233],
      [0, 158, 115],
      [240, 228, 66],
      [0, 114, 178],
      [213, 94, 0],
      [204, 121, 167],
    ])
  })
  test('a new class gets a colour that none has', () => {
    expect(nextColour([])).toBe('#E69F00')
    expect(nextColour(['#e69f00', '#56B4E9'])).toBe('#009E73')
    const all = OKABE_ITO.map(({ colour }) => colour)
    expect(all).toContain(nextColour(all))
  })
})

describe('contrast (WCAG 2.2)', () => {
  const ratio = (a: string, b: string) => contrastRatio(parseColour(a), parseColour(b))
  test('black on white is 21 and a colour on itself 1', () => {
    expect(ratio('#000000', '#ffffff')).toBeCloseTo(21, 10)
    expect(ratio('#0072B2', '#0072B2')).toBe(1)
  })
  test('the well-known greys on either side of 4.5 on white', () => {
    // #767676 is the lightest grey that passes AA on white, at 4.54; #777777 is 4.48.
    expect(ratio('#767676', '#ffffff')).toBeCloseTo(4.54, 2)
    expect(ratio('#ffffff', '#777777')).toBeCloseTo(4.48, 2)
  })
  test('the readable one of black and white always has at least 4.5', () => {
    const channel = fc.integer({ min: 0, max: 255 })
    fc.assert(
      fc.property(channel, channel, channel, (r, g, b) => {
        expect(contrastRatio(readableOn([r, g, b]), [r, g, b])).toBeGreaterThan(TEXT_CONTRAST)
      }),
    )
  })
})

describe('stretch', () => {
  test('percentiles as numpy.percentile gives them (type 7)', () => {
    // numpy.percentile([1, 2, 3, 4, 10], [10, 50, 90]) = 1.4, 3, 7.6
    const [low, high] = percentileStretch([10, NaN, 1, 3, 2, 4, Infinity], 10, 90) ?? []
    expect(low).toBeCloseTo(1.4, 12)
    expect(high).toBeCloseTo(7.6, 12)
    expect(percentileStretch([10, 1, 3, 2, 4], 50, 50)).toEqual([3, 3])
    expect(percentileStretch([10, 1, 3, 2, 4], 0, 100)).toEqual([1, 10])
    expect(percentileStretch([7])).toEqual([7, 7])
    expect(percentileStretch([NaN])).toBeNull()
  })
  test('places in a stretch', () => {
    expect([0, 5, 10, -3, 12].map((value) => placeInStretch(value, [0, 10]))).toEqual([
      0, 0.5, 1, 0, 1,
    ])
    expect(placeInStretch(3, [3, 3])).toBe(0.5)
    expect(placeInStretch(NaN, [0, 1])).toBeNaN()
  })
  test.each([
    [2188, 2220, 5, [2190, 2200, 2210, 2220]],
    [0, 1, 5, [0, 0.2, 0.4, 0.6, 0.8, 1]],
    [0.03, 0.31, 4, [0.1, 0.2, 0.3]],
    [-1.5, 1.5, 4, [-1, 0, 1]],
    [0, 1e-6, 3, [0, 5e-7, 1e-6]],
    [5, 5, 5, [5]],
    [1, 0, 3, [0, 0.5, 1]],
    [0, NaN, 3, []],
  ])('breaks from %d to %d', (from, to, count, expected) => {
    expect(niceBreaks(from, to, count)).toEqual(expected)
  })
  test('breaks lie inside, ascend, and are few', () => {
    const number = fc.double({ min: -1e6, max: 1e6, noNaN: true })
    fc.assert(
      fc.property(number, number, fc.integer({ min: 2, max: 12 }), (a, b, count) => {
        fc.pre(Math.abs(a - b) > 1e-3)
        const breaks = niceBreaks(a, b, count)
        const slack = Math.abs(a - b) * 1e-6
        expect(breaks.length).toBeLessThanOrEqual(2 * count + 1)
        for (const [i, value] of breaks.entries()) {
          expect(value).toBeGreaterThanOrEqual(Math.min(a, b) - slack)
          expect(value).toBeLessThanOrEqual(Math.max(a, b) + slack)
          if (i > 0) expect(value).toBeGreaterThan(breaks[i - 1])
        }
      }),
    )
  })
  test('decimals that a step needs', () => {
    expect([20, 1, 0.5, 0.2, 0.05, 0.001].map(breakDecimals)).toEqual([0, 0, 1, 1, 2, 3])
  })
})

test('colours as text', () => {
  expect(parseColour('#CC79A7')).toEqual([204, 121, 167])
  expect(colourText([204, 121.4, 167])).toBe('#cc79a7')
  expect(colourText([-5, 300, 15])).toBe('#00ff0f')
  expect(() => parseColour('red')).toThrow('six hexadecimal digits')
})

describe('by histogram', () => {
  const values = Float64Array.from({ length: 1001 }, (_, i) => (i / 1000) ** 4)
  const table = percentiles(values)

  test('percentiles are those of the values, gaps left out', () => {
    expect(table).toHaveLength(101)
    expect(table?.[50]).toBeCloseTo(0.5 ** 4, 12)
    expect(table?.[100]).toBe(1)
    expect(percentiles(Float64Array.from([NaN, 3, 1, NaN, 2]))?.[50]).toBe(2)
    expect(percentiles(new Float64Array([NaN]))).toBeNull()
  })

  test('a value stands at the part of the values below it', () => {
    if (!table) throw new Error('no percentiles')
    for (const part of [0, 0.13, 0.5, 0.98, 1])
      expect(placeAmong(part ** 4, table)).toBeCloseTo(part, 2)
    expect([placeAmong(-1, table), placeAmong(2, table)]).toEqual([0, 1])
    expect(placeAmong(NaN, table)).toBeNaN()
  })

  test('values that are alike stand in the middle of their steps', () => {
    const half = percentiles(Float64Array.from([0, 0, 0, 0, 0, 1, 2, 3, 4, 5]))
    if (!half) throw new Error('no percentiles')
    expect(placeAmong(0, half)).toBeCloseTo(0.22, 2)
  })

  test('painting gives each colour the same part of the values; a gap is clear', () => {
    const scale = { ramp: 'batlow' as const, stretch: [0, 1] as const, percentiles: table }
    const pixels = paint(Float32Array.from([0.5 ** 4, NaN, 2]), scale)
    expect([...pixels.slice(0, 4)]).toEqual([...rampColour('batlow', 128 / 255), 255])
    expect(pixels[7]).toBe(0)
    expect([...pixels.slice(8, 11)]).toEqual([...rampColour('batlow', 1)])
  })
})

test('in bands a value has its band’s colour, whose ends are the levels', () => {
  const scale = { ramp: 'batlow', stretch: [0, 10], percentiles: null, levels: [2, 5] } as const
  const places = [-100, 1.9, 2, 4.9, 5, 100].map((value) => placeOnScale(value, scale))
  expect(places).toEqual([0, 0, 0.5, 0.5, 1, 1])
  expect(placeOnScale(NaN, scale)).toBeNaN()
  expect(placeOnScale(5, { ...scale, levels: [] })).toBe(0.5)
})
