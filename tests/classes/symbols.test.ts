/** Symbols: the same weight on the map, and told apart by shape alone at 10 pixels. */
import { describe, expect, test } from 'vitest'
import {
  nextSymbol,
  SYMBOLS,
  withOwnSymbols,
  type ClassRule,
  type SymbolShape,
} from '../../src/classes/rule'
import { signedArea, symbolPath, symbolSvg } from '../../src/classes/symbols'

test.each(SYMBOLS)('a %s covers the area of its circle and lies about its middle', (shape) => {
  const path = symbolPath(shape, 5)
  expect(Math.abs(signedArea(path))).toBeCloseTo(Math.PI * 25, 9)
  let x = 0
  let y = 0
  const area = signedArea(path)
  for (let i = 0; i < path.length; i += 2) {
    const next = (i + 2) % path.length
    const part = path[i] * path[next + 1] - path[next] * path[i + 1]
    x += ((path[i] + path[next]) * part) / (6 * area)
    y += ((path[i + 1] + path[next + 1]) * part) / (6 * area)
  }
  expect(x).toBeCloseTo(0, 9)
  expect(y).toBeCloseTo(0, 9)
  expect(Math.max(...path.map(Math.abs))).toBeLessThan(5 * 1.7)
})

/** The share of each pixel that a symbol 10 pixels across covers, sampled 8 × 8 a pixel. */
function drawn(shape: SymbolShape): Float64Array {
  const path = symbolPath(shape, 5)
  const pixels = new Float64Array(18 * 18)
  for (let row = 0; row < 18 * 8; row++) {
    for (let column = 0; column < 18 * 8; column++) {
      const inside = isInside(path, (column + 0.5) / 8 - 9, (row + 0.5) / 8 - 9)
      if (inside) pixels[Math.floor(row / 8) * 18 + Math.floor(column / 8)] += 1 / 64
    }
  }
  return pixels
}

/** Even–odd rule. */
function isInside(path: Float64Array, x: number, y: number): boolean {
  let inside = false
  for (let i = 0; i < path.length; i += 2) {
    const j = (i + 2) % path.length
    const [x1, y1, x2, y2] = [path[i], path[i + 1], path[j], path[j + 1]]
    if (y1 > y !== y2 > y && x < x1 + ((y - y1) / (y2 - y1)) * (x2 - x1)) inside = !inside
  }
  return inside
}

describe('at 10 pixels', () => {
  const pictures = new Map(SYMBOLS.map((shape) => [shape, drawn(shape)]))
  const pairs = SYMBOLS.flatMap((a, i) => SYMBOLS.slice(i + 1).map((b) => [a, b] as const))
  test.each(pairs)('%s and %s differ in over an eighth of their ink', (a, b) => {
    const [first, second] = [pictures.get(a), pictures.get(b)]
    if (!first || !second) throw new Error('not drawn')
    const ink = first.reduce((sum, value) => sum + value, 0)
    const differing = first.reduce((sum, value, i) => sum + Math.abs(value - second[i]), 0)
    expect(differing / ink).toBeGreaterThan(1 / 8)
  })
})

test('an SVG path is closed and has a corner for each corner', () => {
  expect(symbolSvg('square', 10)).toBe('M-8.86 -8.86L8.86 -8.86L8.86 8.86L-8.86 8.86Z')
  expect(symbolSvg('hexagon', 3).split('L')).toHaveLength(6)
})

describe('a symbol for each class', () => {
  const rule = (name: string, symbol: SymbolShape): ClassRule => ({
    name,
    when: 'true',
    colour: '#0072B2',
    symbol,
  })
  test('the first with a symbol keeps it, whatever a later one has to take', () => {
    const classes = [rule('a', 'star'), rule('b', 'star'), rule('c', 'circle'), rule('d', 'star')]
    expect(withOwnSymbols(classes).map(({ symbol }) => symbol)).toEqual([
      'star',
      'square',
      'circle',
      'triangle',
    ])
  })

  test('past the last symbol they are taken in turn', () => {
    expect(nextSymbol(['circle', 'triangle'])).toBe('square')
    const many = Array.from({ length: SYMBOLS.length + 2 }, (_, i) => rule(`${i}`, 'cross'))
    const symbols = withOwnSymbols(many).map(({ symbol }) => symbol)
    expect(new Set(symbols).size).toBe(SYMBOLS.length)
  })
})
