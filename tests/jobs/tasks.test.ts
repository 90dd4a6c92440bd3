/** What workers do, asked through the pool that clones messages as a worker would have them. */
import { zipSync } from 'fflate'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { isStopped, type Pool } from '../../src/jobs/pool'
import { startInlinePool } from '../../src/jobs/inline-pool'
import { unpackRecord, unpackRecords } from '../../src/jobs/packed-records'
import { mapFrame } from '../../src/jobs/map-frame'
import { knownMinerals } from '../../src/jobs/references'
import { REFERENCES } from '../../src/jobs/tasks'
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { modelReflectance } from '../../src/minerals/model'
import type { ReferenceSet } from '../../src/minerals/reference'
import { zipEntries } from '../../src/readers/zip'
import { planSurface } from '../../src/surfaces/compute'
import { computeSurface } from '../../src/surfaces/compute-tile'
import type { SurfaceRule } from '../../src/surfaces/model'
import { assemble, tilesOf, type Part, type SurfaceTile } from '../../src/surfaces/tiles'

let pool: Pool
let set: ReferenceSet
beforeAll(async () => {
  pool = startInlinePool()
  set = await loadBuiltInSet()
})
afterAll(() => pool.close())

const bytesOf = (text: string) => new TextEncoder().encode(text)
const NOTHING = { axes: [], bandwidths: [] }

describe('read', () => {
  const scan = (from: number) =>
    bytesOf(Array.from({ length: 60 }, (_, i) => `${from + i}\t0.${from + i}`).join('\n'))

  test('scans of two axes come back end to end, each with its axis; a broken file says why', async () => {
    const files = [
      { path: 'a.txt', bytes: scan(400) },
      { path: 'broken.txt', bytes: bytesOf('') },
      { path: 'b.txt', bytes: scan(500) },
      { path: 'c.txt', bytes: scan(400) },
    ]
    const output = await pool.run('read', { files, companions: NOTHING, corrections: [] })
    expect(output.files.map(({ scans }) => scans.map(({ axis }) => axis))).toEqual([
      [0],
      [],
      [1],
      [0],
    ])
    expect(output.axes.map((axis) => axis[0])).toEqual([400, 500])
    expect(output.values).toHaveLength(180)
    expect(output.values[60]).toBeCloseTo(0.5, 6)
    expect(output.files[1].problems[0].problem).toMatch(/empty/)
  })

  test('a file out of an archive is unpacked by the worker; one that is damaged is a problem', async () => {
    const entries = zipEntries(zipSync({ 'a.txt': scan(400), 'b.txt': scan(500) }))
    if (typeof entries === 'string') throw new Error(entries)
    const [a, b] = entries.map(({ name, size, packed }) => {
      const at = packed()
      if (typeof at === 'string') throw new Error(at)
      return { path: name, size, at }
    })
    const damaged = { ...b, at: { ...b.at, crc: b.at.crc ^ 1 } }
    const files = [a, damaged]
    const output = await pool.run('read', { files, companions: NOTHING, corrections: [] })
    expect(output.files.map(({ path, size }) => [path, size])).toEqual([
      ['a.txt', scan(400).length],
    ])
    expect(output.unread[0]).toMatchObject({ file: 'b.txt', line: null })
    expect(output.unread[0].problem).toMatch(/its checksum is wrong/)
  })

  test('the digest is SHA-256: FIPS 180-4’s “abc”', async () => {
    const files = [{ path: 'abc', bytes: bytesOf('abc') }]
    const output = await pool.run('read', { files, companions: NOTHING, corrections: [] })
    expect(output.files[0].sha256).toBe(
      'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    )
  })
})

describe('examine', () => {
  const wavelengths = Float64Array.from({ length: 2101 }, (_, i) => 400 + i)
  const input = () => {
    const alunite = set.references.find(({ group }) => group === 'alunite')
    if (!alunite) throw new Error('no alunite in the set')
    const values = Float32Array.from(modelReflectance(alunite, wavelengths))
    return { wavelengths, values, count: 1, check: true, identify: true, leaves: [] }
  }

  test('without references it checks and identifies nothing', async () => {
    const own = startInlinePool()
    const output = await own.run('examine', input())
    expect(unpackRecords(output.measures)).toHaveLength(1)
    expect(unpackRecords(output.identifications)).toEqual([])
  })

  test('with references provided it names the mineral; withdrawn, it names none', async () => {
    const own = startInlinePool()
    own.provide(REFERENCES, { sets: [set], measured: [], off: [], ranges: {} })
    const output = await own.run('examine', input())
    expect(unpackRecord(output.identifications, 0).minerals[0].group).toBe('alunite')
    own.withdraw(REFERENCES)
    expect(unpackRecords((await own.run('examine', input())).identifications)).toEqual([])
  })

  test('records that are switched off are not used', async () => {
    const own = startInlinePool()
    const off = set.references
      .filter(({ group }) => group === 'alunite')
      .map(({ record }) => record)
    own.provide(REFERENCES, { sets: [set], measured: [], off, ranges: {} })
    const { identifications } = await own.run('examine', input())
    const found = unpackRecord(identifications, 0)
    expect(found.minerals.map(({ group }) => group)).not.toContain('alunite')
  })
})

describe('surfaces', () => {
  const x = Float64Array.from({ length: 30 }, (_, i) => 100 * (i % 6))
  const y = Float64Array.from({ length: 30 }, (_, i) => 100 * Math.floor(i / 6))
  const value = x.map((east, i) => Math.sin(east / 150) + y[i] / 300)
  const rule: SurfaceRule = { name: 'test', value: 'v', method: 'kriging', cell: 20, reach: 150 }

  test('tiles from the pool join to what one thread computes, whatever their order', async () => {
    const points = { x, y, value }
    const plan = await pool.run('plan surface', { rule, points, grid: null })
    pool.provide('p', plan)
    const compute = async (part: Part): Promise<SurfaceTile[]> => {
      const { tiles, left } = await pool.run('surface tile', { plan: 'p', part })
      return [...tiles, ...(await Promise.all(left.map(compute))).flat()]
    }
    const tiles = (await Promise.all(tilesOf(plan).reverse().map(compute))).flat()
    const whole = computeSurface(planSurface(rule, points))
    expect(assemble(plan, tiles)).toEqual(whole)
  })

  test('a plan that was withdrawn is missed in words', async () => {
    pool.withdraw('p')
    await expect(
      pool.run('surface tile', { plan: 'p', part: { from: 0, to: 1, left: 0, right: 1 } }),
    ).rejects.toThrow(/no ‘p’ in this worker/)
  })

  test('a surface that cannot be planned rejects in words, not as a stop', async () => {
    const points = { x: x.slice(0, 2), y: y.slice(0, 2), value: value.slice(0, 2) }
    const error: unknown = await pool
      .run('plan surface', { rule, points, grid: null })
      .catch((reason: unknown) => reason)
    expect(isStopped(error)).toBe(false)
    expect((error as Error).message).toMatch(/at least|needs/)
  })
})

describe('the map’s frame', () => {
  test('of a projected CRS is that of PROJ: EPSG:32719, central meridian', () => {
    // 500 000 E on the equator's false northing is 69° W, 0° by the definition of zone 19 south.
    const frame = mapFrame('EPSG:32719', [0, 0])
    const [longitude, latitude] = frame.toDegrees(500_000, 10_000_000) ?? [NaN, NaN]
    expect(longitude).toBeCloseTo(-69, 9)
    expect(latitude).toBeCloseTo(0, 9)
  })

  test('of a local grid lays its centre at 0, 0 and goes back', () => {
    const frame = mapFrame('local:ft', [1000, 2000])
    expect(frame.toDegrees(1000, 2000)).toEqual([0, 0])
    const there = frame.toDegrees(1300, 1700) ?? [NaN, NaN]
    const back = frame.fromDegrees(...there) ?? [NaN, NaN]
    expect(back[0]).toBeCloseTo(1300, 6)
    expect(back[1]).toBeCloseTo(1700, 6)
  })
})

test('known minerals: each once, tables and measured records alike', () => {
  const measured = ['Alunite_X', 'Alunite_Y', 'Unobtainium_1'].map((name) => ({
    name,
    wavelengths: new Float64Array(),
    reflectance: new Float32Array(),
  }))
  expect(knownMinerals({ sets: [], measured, off: [], ranges: {} })).toEqual([
    { mineral: 'alunite', group: 'alunite' },
    { mineral: 'unobtainium', group: 'unobtainium' },
  ])
})
