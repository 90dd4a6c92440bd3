/** Heights of lamp lines on curves whose figures are known. */
import { expect, test } from 'vitest'
import { LAMP_LINES, measureLampLines } from '../../src/check/lamp-lines'

const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)

/** 0.3 with a Gaussian of a height and width (FWHM, nm) at each line. */
const bumps = (lines: readonly number[], height: number, width: number) => ({
  wavelengths,
  reflectance: wavelengths.map((nm) =>
    lines.reduce(
      (sum, line) => sum + height * Math.exp(-4 * Math.LN2 * ((nm - line) / width) ** 2),
      0.3,
    ),
  ),
})

test('lines as narrow as a lamp’s are told with their vapour', () => {
  for (const vapour of ['mercury', 'sodium'] as const) {
    const found = measureLampLines(bumps(LAMP_LINES[vapour], 0.02, 3))
    expect(found?.vapour).toBe(vapour)
    expect(found?.height).toBeGreaterThan(0.01)
  }
})

test('what a broad hump rises by is its own bend, not a line', () => {
  // Over ±1 nm a Gaussian of FWHM 40 nm stands 0.056 of its height over its level at ±5 to ±9 nm.
  const hump = measureLampLines(bumps(LAMP_LINES.mercury, 0.1, 40))
  expect(hump?.height).toBeLessThan(0.001)
})
