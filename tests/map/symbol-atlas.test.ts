/** The map's symbols are those of the legend. */
import { expect, test } from 'vitest'
import { SYMBOLS } from '../../src/classes/rule'
import { symbolPath } from '../../src/classes/symbols'
import {
  EXTENTS,
  RING,
  SHAPES,
  SLASHED_RING,
  symbolAtlas,
  SYMBOL_REACH,
  SYMBOL_TEXELS,
} from '../../src/map/symbol-atlas'

const atlas = symbolAtlas()

/** The part of a symbol's square that is inside its outline. */
function inkOf(index: number): number {
  let inside = 0
  for (let row = 0; row < SYMBOL_TEXELS; row++) {
    for (let column = 0; column < SYMBOL_TEXELS; column++) {
      if (atlas.bytes[row * atlas.width + index * SYMBOL_TEXELS + column] < 128) inside++
    }
  }
  return inside / SYMBOL_TEXELS ** 2
}

function areaOf(corners: Float64Array): number {
  let twice = 0
  for (let i = 0; i < corners.length; i += 2) {
    const j = (i + 2) % corners.length
    twice += corners[i] * corners[j + 1] - corners[j] * corners[i + 1]
  }
  return Math.abs(twice) / 2
}

test.each(SYMBOLS.map((shape, index) => [shape, index] as const))(
  'the %s covers the area of its outline',
  (shape, index) => {
    const square = (2 * SYMBOL_REACH) ** 2
    // A texel is 0.4 % of a symbol's area, so an outline is good to a few of them.
    const ink = (inkOf(index) * square) / areaOf(symbolPath(shape, 1))
    expect(Math.abs(ink - 1)).toBeLessThan(0.05)
  },
)

test.each([
  ['ring', RING, Math.PI * (0.8 ** 2 - 0.44 ** 2)],
  // Of the bar only what lies within the ring's hole adds to it, a chord of some 0.26 by 0.85.
  ['slashed ring', SLASHED_RING, Math.PI * (0.8 ** 2 - 0.44 ** 2) + 0.226],
] as const)('the %s covers its area', (_, index, area) => {
  const ink = (inkOf(index) * (2 * SYMBOL_REACH) ** 2) / area
  expect(Math.abs(ink - 1)).toBeLessThan(0.05)
})

test('a shape has no ink beyond its extent, and some at it', () => {
  EXTENTS.forEach((extent, index) => {
    let most = 0
    for (let row = 0; row < SYMBOL_TEXELS; row++) {
      for (let column = 0; column < SYMBOL_TEXELS; column++) {
        if (atlas.bytes[row * atlas.width + index * SYMBOL_TEXELS + column] >= 128) continue
        for (const texel of [row, column])
          most = Math.max(most, Math.abs((texel + 0.5) / SYMBOL_TEXELS - 0.5) * 2 * SYMBOL_REACH)
      }
    }
    const texel = (2 * SYMBOL_REACH) / SYMBOL_TEXELS
    expect(most).toBeLessThanOrEqual(extent + texel / 2)
    expect(most).toBeGreaterThan(extent - 2.5 * texel)
  })
})

test('no outline touches the edge of its square', () => {
  for (let index = 0; index < SHAPES; index++) {
    for (let i = 0; i < SYMBOL_TEXELS; i++) {
      const row = index * SYMBOL_TEXELS + i
      expect(atlas.bytes[row]).toBeGreaterThan(128)
      expect(atlas.bytes[(SYMBOL_TEXELS - 1) * atlas.width + row]).toBeGreaterThan(128)
      expect(atlas.bytes[i * atlas.width + index * SYMBOL_TEXELS]).toBeGreaterThan(128)
    }
  }
})
