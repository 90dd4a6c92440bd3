/** A raster as drift: against GDAL's own bilinear values, in the raster's CRS and in another. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openDrift } from '../../src/jobs/drift-raster'
import { startInlinePool } from '../../src/jobs/inline-pool'
import { openCrs } from '../../src/places/crs'
import { computeRows } from '../../src/surfaces/compute-tile'
import type { Points } from '../../src/surfaces/model'
import { scatter } from '../surfaces/scatter'

const hasGdal = spawnSync('gdal_translate', ['--version']).status === 0
if (!hasGdal) console.warn('Skipped: gdal-bin is not installed, so drifts go unchecked by GDAL.')

/** Cells of 25 m from 400000, 7001000 on, invented heights, one without a value. */
const [WEST, NORTH, CELL, SIDE] = [400_000, 7_001_000, 25, 40]
const height = (column: number, row: number) =>
  column === 20 && row === 10 ? -9999 : 1000 + 3 * column + 40 * Math.sin(row / 5) + (column % 3)

let folder = ''
let file = { path: 'ground/heights.tif', bytes: new Uint8Array() }
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'drift-'))
  if (!hasGdal) return
  const rows = Array.from({ length: SIDE }, (_, row) =>
    Array.from({ length: SIDE }, (__, column) => height(column, row).toFixed(6)).join(' '),
  )
  const head = `ncols ${SIDE}\nnrows ${SIDE}\nxllcorner ${WEST}\nyllcorner ${NORTH - SIDE * CELL}\ncellsize ${CELL}\nNODATA_value -9999\n`
  writeFileSync(join(folder, 'heights.asc'), `${head}${rows.join('\n')}\n`)
  const args = ['-q', '-ot', 'Float64', '-a_srs', 'EPSG:32719']
  const tif = join(folder, 'heights.tif')
  const run = spawnSync('gdal_translate', [...args, join(folder, 'heights.asc'), tif])
  if (run.status !== 0) throw new Error(String(run.stderr))
  file = { path: 'ground/heights.tif', bytes: new Uint8Array(readFileSync(tif)) }
})
afterAll(() => rmSync(folder, { recursive: true }))

/** GDAL's bilinear values on a grid of a CRS, NaN where it has none. */
function warpedByGdal(crs: string, extent: number[], size: [number, number]): Float64Array {
  const out = join(folder, 'warped.raw')
  const args = ['-q', '-overwrite', '-r', 'bilinear', '-et', '0', '-t_srs', crs, '-of', 'ENVI']
  const box = ['-te', ...extent.map(String), '-ts', ...size.map(String), '-dstnodata', '-9999']
  const run = spawnSync('gdalwarp', [...args, ...box, join(folder, 'heights.tif'), out])
  if (run.status !== 0) throw new Error(String(run.stderr))
  const bytes = readFileSync(out)
  const values = new Float64Array(
    bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + 8 * size[0] * size[1]),
  )
  return values.map((value) => (value === -9999 ? NaN : value))
}

describe.skipIf(!hasGdal)('a drift by a raster', () => {
  test('is bilinear between cell centres, and nowhere beyond or at a gap', async () => {
    const drift = await openDrift({ file, crs: 'EPSG:32719' })
    const middle = (column: number, row: number) =>
      [WEST + (column + 0.5) * CELL, NORTH - (row + 0.5) * CELL] as const
    expect(drift.at(...middle(7, 3))).toBeCloseTo(height(7, 3), 3)
    const [x, y] = middle(7, 3)
    const mean = (height(7, 3) + height(8, 3) + height(7, 4) + height(8, 4)) / 4
    expect(drift.at(x + CELL / 2, y - CELL / 2)).toBeCloseTo(mean, 3)
    expect(drift.at(...middle(20, 10))).toBeNaN()
    expect(drift.at(WEST - 1, y)).toBeNaN()
  })

  test('agrees with GDAL’s warp into another CRS', async () => {
    const crs = 'EPSG:32718'
    const drift = await openDrift({ file, crs })
    const [working, raster] = [openCrs(crs), openCrs('EPSG:32719')]
    const degrees = raster.toGeographic(WEST + 500, NORTH - 500)
    const centre = degrees && working.fromGeographic(...degrees)
    if (!centre) throw new Error('no place')
    const [west, north] = [
      Math.round(centre[0] / 10) * 10 - 300,
      Math.round(centre[1] / 10) * 10 + 300,
    ]
    const grid = { west, north, cell: 10, columns: 60, rows: 60 }
    const found = drift.onGrid(grid)
    const expected = warpedByGdal(crs, [west, north - 600, west + 600, north], [60, 60])
    let compared = 0
    for (let i = 0; i < found.length; i++) {
      // Beside the gap GDAL goes on with the cells that it has; here there is no value.
      if (Number.isNaN(found[i])) continue
      compared++
      expect(Math.abs(found[i] - expected[i])).toBeLessThan(0.01)
    }
    expect(compared).toBeGreaterThan(3000)
  })

  test('leaves out stations that it does not cover, draws nothing there, and helps elsewhere', async () => {
    const drift = await openDrift({ file, crs: 'EPSG:32719' })
    const plain = scatter(80, 990)
    const x = plain.x.map((v) => WEST + v + 40)
    const y = plain.y.map((v) => NORTH - 995 + v)
    // A value that follows the height, with a little of its own.
    const value = x.map((east, i) => {
      const there = drift.at(east, y[i])
      return (Number.isNaN(there) ? 1000 : there) / 10 + 0.3 * plain.value[i]
    })
    const points: Points = { x, y, value }
    const outside = Array.from(x.keys()).filter((i) => Number.isNaN(drift.at(x[i], y[i])))
    expect(outside.length).toBeGreaterThan(0)
    const pool = startInlinePool()
    const rule = { name: 'd', value: 'v', method: 'kriging' as const, cell: 20, drift: file.path }
    const input = { rule, points, grid: null }
    const plan = await pool.run('plan surface', {
      ...input,
      drift: { file, crs: 'EPSG:32719' },
    })
    const without = await pool.run('plan surface', {
      ...input,
      rule: { ...rule, drift: undefined },
    })
    expect(plan.drift?.without).toEqual(outside)
    expect(plan.blocked?.rmse).toBeLessThan(0.6 * (without.blocked?.rmse ?? 0))
    const { estimate } = computeRows(plan, [0, plan.grid.rows])
    plan.drift?.nodes.forEach((there, node) => {
      if (Number.isNaN(there)) expect(estimate[node]).toBeNaN()
    })
    expect(estimate.filter((z) => !Number.isNaN(z)).length).toBeGreaterThan(1000)
    const far = { ...points, x: x.map((v) => v + 50_000) }
    await expect(
      pool.run('plan surface', { ...input, points: far, drift: { file, crs: 'EPSG:32719' } }),
    ).rejects.toThrow('has a value at 0 of the 80 stations of "d"')
    pool.close()
  })

  test('knows cells without a value by a number that is written with fewer digits', async () => {
    const none = '-3.4028234663852886e+38'
    const head = `ncols 3\nnrows 3\nxllcorner 0\nyllcorner 0\ncellsize 1\nNODATA_value ${none}\n`
    const [asc, tif] = ['least.asc', 'least.tif'].map((name) => join(folder, name))
    writeFileSync(asc, `${head}1 2 3.5\n4 ${none} 6\n7 8 9\n`)
    const args = ['-q', '-ot', 'Float32', '-a_srs', 'EPSG:32719', asc, tif]
    expect(spawnSync('gdal_translate', args).status).toBe(0)
    const bytes = readFileSync(tif)
    const at = bytes.indexOf(none)
    expect(at).toBeGreaterThan(0)
    bytes.write('-3.4028234700000000e+38', at, 'latin1')
    const least = { path: 'least.tif', bytes: new Uint8Array(bytes) }
    const drift = await openDrift({ file: least, crs: 'EPSG:32719' })
    expect(drift.at(1.5, 1.5)).toBeNaN()
    expect(drift.at(2.5, 2.5)).toBe(3.5)
  })

  test('of one column of cells takes each row by itself', async () => {
    const [asc, tif] = ['lone.asc', 'lone.tif'].map((name) => join(folder, name))
    const head = 'ncols 1\nnrows 3\nxllcorner 0\nyllcorner 0\ncellsize 1\n'
    writeFileSync(asc, `${head}10\n20\n40\n`)
    const args = ['-q', '-ot', 'Float64', '-a_srs', 'EPSG:32719', asc, tif]
    expect(spawnSync('gdal_translate', args).status).toBe(0)
    const lone = { path: 'lone.tif', bytes: new Uint8Array(readFileSync(tif)) }
    const drift = await openDrift({ file: lone, crs: 'EPSG:32719' })
    expect([2.5, 2, 1.5, 0.5].map((y) => drift.at(0.9, y))).toEqual([10, 15, 20, 40])
  })

  test('that is none is told of', async () => {
    const none = { path: 'notes.tif', bytes: new TextEncoder().encode('no raster') }
    await expect(openDrift({ file: none, crs: 'EPSG:32719' })).rejects.toThrow(
      'notes.tif cannot be read as a GeoTIFF',
    )
    await expect(openDrift({ file, crs: 'local:m' })).rejects.toThrow('tied to nothing')
  })
})
