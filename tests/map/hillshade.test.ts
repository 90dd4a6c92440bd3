/** Hillshade against GDAL's gdaldem (Horn's method, the same light). */
import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { shade, shadePixels } from '../../src/map/hillshade'

const [COLUMNS, ROWS, CELL] = [40, 30, 25]

/** Hills of two wavelengths, metres. */
function hills(): Float32Array {
  return Float32Array.from({ length: COLUMNS * ROWS }, (_, i) => {
    const x = i % COLUMNS
    const y = Math.floor(i / COLUMNS)
    return 1000 + 60 * Math.sin(x / 5) * Math.cos(y / 7) + 15 * Math.sin(y / 2)
  })
}

const noGdal = spawnSync('gdaldem', ['--help']).error !== undefined

test.skipIf(noGdal)('agrees with gdaldem to the rounding of its bytes', () => {
  const folder = mkdtempSync(join(tmpdir(), 'hillshade-'))
  try {
    const values = hills()
    const lines = Array.from({ length: ROWS }, (_, row) =>
      values.subarray(row * COLUMNS, (row + 1) * COLUMNS).join(' '),
    )
    const head = `ncols ${COLUMNS}\nnrows ${ROWS}\nxllcorner 0\nyllcorner 0\ncellsize ${CELL}\n`
    writeFileSync(join(folder, 'dem.asc'), `${head}${lines.join('\n')}\n`)
    const out = join(folder, 'shade.asc')
    execFileSync('gdaldem', [
      'hillshade',
      ...['-az', '315', '-alt', '45', '-z', '1.6', '-of', 'AAIGrid'],
      join(folder, 'dem.asc'),
      out,
    ])
    const expected = readFileSync(out, 'utf8')
      .split('\n')
      .filter((line) => /^\s*\d+ +\d+ +\d+/.test(line))
      .map((line) => line.trim().split(/\s+/).map(Number))
    const shades = shade({ columns: COLUMNS, rows: ROWS, values, cellX: CELL, cellY: CELL }, 1.6)
    let compared = 0
    for (let row = 1; row < ROWS - 1; row++) {
      for (let column = 1; column < COLUMNS - 1; column++) {
        // gdaldem writes 1 for full shadow and 255 for full light.
        const byte = 1 + 254 * shades[row * COLUMNS + column]
        expect(Math.abs(byte - expected[row][column])).toBeLessThanOrEqual(1)
        compared++
      }
    }
    expect(compared).toBe((COLUMNS - 2) * (ROWS - 2))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
})

test('a flat ground is lit evenly, at the sine of the light’s height', () => {
  const values = new Float32Array(25).fill(7)
  const shades = shade({ columns: 5, rows: 5, values, cellX: 1, cellY: 1 })
  for (const value of shades) expect(value).toBeCloseTo(Math.SQRT1_2, 6)
})

test('where there is no elevation there is no shade, and its pixel is clear', () => {
  const values = new Float32Array(25).fill(7)
  values[12] = NaN
  const shades = shade({ columns: 5, rows: 5, values, cellX: 1, cellY: 1 })
  expect(Number.isNaN(shades[12])).toBe(true)
  const pixels = shadePixels(shades, [0, 0, 0], [255, 255, 255])
  expect(pixels[4 * 12 + 3]).toBe(0)
  expect(pixels[3]).toBe(255)
})
