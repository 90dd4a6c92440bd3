/** From a project's stations to surfaces: what is told of how far each can be believed. */
import { describe, expect, test } from 'vitest'
import { isStopped } from '../../src/jobs/pool'
import { openCrs } from '../../src/places/crs'
import { detectionLimit } from '../../src/project/below-detection'
import { Activities } from '../../src/project/activity'
import { Chain } from '../../src/project/chain'
import { compareOn } from '../../src/project/comparing'
import { pool, sampleTable, valueAt, source, recipeOf, run } from './field'
import { THREE } from './pools'

test('the figure of whole blocks left out comes first, in the sentence and in the report', async () => {
  const { results, report } = await run([{ method: 'kriging' }])
  const [surface] = results.surfaces
  expect(surface.failure).toBeNull()
  expect(surface.sentence).toMatch(/^Away from stations \(whole blocks left out\) it is off by/)
  expect(surface.blocked?.rmse).toBeGreaterThan(surface.testing?.rmse ?? Infinity)
  const figures = report[0].leave_blocks_out as Record<string, number>
  expect(figures.rmse).toBe(surface.blocked?.rmse)
  expect(figures.inside_90_percent_interval).toBe(surface.blocked?.coverage90)
  expect(figures.inside_90_percent_interval_error).toBe(surface.blocked?.coverage90Error)
  expect(surface.blocked?.coverage90Error).toBeGreaterThan(0)
  const single = report[0].leave_one_out as Record<string, number | null>
  expect(single.inside_90_percent_interval_error).toBeNull()
  const keys = Object.keys(report[0])
  expect(keys.indexOf('leave_blocks_out')).toBeLessThan(keys.indexOf('leave_one_out'))
})

test('residuals name their stations, the farthest off first, and make up the RMSE', async () => {
  const { results } = await run([{ method: 'kriging' }])
  const [{ residuals = [], blocked, testing }] = results.surfaces
  const sizes = residuals.map((each) => Math.abs(each.blocked ?? NaN))
  expect(sizes).toHaveLength(64)
  expect([...sizes].sort((a, b) => b - a)).toEqual(sizes)
  const rms = (list: readonly number[]) =>
    Math.sqrt(list.reduce((sum, each) => sum + each * each, 0) / list.length)
  expect(rms(sizes)).toBeCloseTo(blocked?.rmse ?? NaN, 10)
  expect(rms(residuals.map(({ single }) => single))).toBeCloseTo(testing?.rmse ?? NaN, 10)
  for (const { stations, value } of residuals) {
    const [measured] = stations.map((station) => results.indices[0].stations[station].value)
    expect(measured).toBe(value)
  }
})

test('a station with its coordinates swapped stretches no surface, and the sentence says so', async () => {
  const swapped = sampleTable() + 'N64,7200000,500000,50\n'
  const [{ results }, plain] = await Promise.all([
    run([{ method: 'kriging' }], [source('samples.csv', swapped)]),
    run([{ method: 'kriging' }]),
  ])
  const [surface] = results.surfaces
  expect(surface.bands?.grid).toEqual(plain.results.surfaces[0].bands?.grid)
  expect(surface.stations).toBe(64)
  expect(surface.sentence).toMatch(
    /1 station lies more than 100 km from the others and was left out/,
  )
  expect(plain.results.surfaces[0].sentence).not.toMatch(/100 km/)
})

test('a trend is another surface, not the remembered one', async () => {
  const chain = new Chain(pool, THREE)
  const plain = await run([{ method: 'kriging', reach: 2000, cell: 50 }], undefined, chain)
  const trend = await run(
    [{ method: 'kriging', reach: 2000, cell: 50, trend: 1 }],
    undefined,
    chain,
  )
  const far = ({ results }: typeof plain) => results.surfaces[0].bands?.estimate.at(40 * 30)
  expect(far(trend)).toBeGreaterThan(-Infinity)
  expect(far(trend)).not.toBe(far(plain))
  expect([plain.report[0].trend, trend.report[0].trend]).toEqual([0, 1])
})

test('a trend goes with kriging alone, of degree 0 to 2', () => {
  expect(() => recipeOf({ method: 'inverse-distance', trend: 1 })).toThrow(/surfaces\[0\]\.trend/)
  expect(() => recipeOf({ method: 'kriging', trend: 3 })).toThrow(/surfaces\[0\]\.trend/)
  expect(recipeOf({ method: 'kriging', trend: 2 }).surfaces[0].trend).toBe(2)
})

test('a drift goes with kriging alone, not with ranks, and names a file of the project', async () => {
  expect(() => recipeOf({ method: 'inverse-distance', drift: 'd.tif' })).toThrow(/kriging alone/)
  for (const mean of [{ drift: 'd.tif' }, { trend: 1 }])
    expect(() => recipeOf({ method: 'kriging', transform: 'rank', ...mean })).toThrow(
      /ranks end at 0 and 1/,
    )
  const both = { method: 'kriging', drift: 'd.tif', trend: 1, transform: 'log' }
  expect(recipeOf(both).surfaces[0]).toMatchObject(both)
  const { results } = await run([{ method: 'kriging', drift: 'heights.tif' }])
  expect(results.surfaces[0].failure).toContain('no raster ‘heights.tif’')
})

test('scores are declustered by choice, and the sentence says either way', async () => {
  expect(() => recipeOf({ method: 'kriging', transform: 'log', declustered: true })).toThrow(
    /normal-score.*chance-above/,
  )
  const scores = { method: 'kriging', transform: 'normal-score', cell: 50 }
  const plain = await run([scores])
  const fair = await run([{ ...scores, declustered: true }])
  expect(plain.results.surfaces[0].sentence).toContain('All stations count alike in the scores')
  expect(fair.results.surfaces[0].sentence).toMatch(
    /by cells of [\d.]+ m in the scores: their mean is/,
  )
  expect([plain.report[0].declustered, fair.report[0].declustered]).toEqual([false, true])
})

test('methods are compared one task each, with progress, and can be stopped', async () => {
  const { results } = await run([{ method: 'kriging' }])
  const { points } = results.surfaces[0]
  if (!points) throw new Error('no points')
  const seen: string[] = []
  const activities = new Activities(() =>
    seen.push(...activities.list.map(({ done, total }) => `${done}/${total}`)),
  )
  const table = await compareOn(pool, activities, 'copper', points, {})
  expect(table).toHaveLength(5)
  expect(seen).toContain('3/5')
  const stopping = compareOn(pool, activities, 'copper', points, {})
  activities.stop()
  await expect(stopping).rejects.toSatisfy(isStopped)
})

describe('boundaries from GeoJSON', () => {
  const crs = openCrs('EPSG:32719')
  const degrees = (x: number, y: number) => crs.toGeographic(x, y)
  const ring = (x0: number, y0: number, x1: number, y1: number) =>
    [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
      [x0, y0],
    ].map(([x, y]) => degrees(x, y))
  const geojson = (path: string, ...geometries: object[]) =>
    source(
      path,
      JSON.stringify({
        type: 'FeatureCollection',
        features: geometries.map((geometry) => ({ type: 'Feature', properties: {}, geometry })),
      }),
    )
  const table = source('samples.csv', sampleTable())
  const plain = { method: 'inverse-distance', cell: 20, reach: 300 }

  test('a surface is drawn inside the polygons of its file alone', async () => {
    const licence = geojson('ground/licence.geojson', {
      type: 'Polygon',
      coordinates: [ring(500100, 7200100, 500500, 7200500), ring(500200, 7200200, 500300, 7200300)],
    })
    const { results, report } = await run(
      [{ ...plain, within: 'licence.geojson' }],
      [table, licence],
    )
    const [{ bands, failure }] = results.surfaces
    expect(failure).toBeNull()
    expect(report[0].within).toBe('licence.geojson')
    // 20 × 20 nodes in the square less 5 × 5 in its hole.
    expect(bands?.estimate.filter((value) => !Number.isNaN(value))).toHaveLength(375)
  })

  test('nothing is used across the lines of a file, and a changed file is heard', async () => {
    const chain = new Chain(pool, THREE)
    const fault = (x: number) =>
      geojson('ground/faults.geojson', {
        type: 'LineString',
        coordinates: [degrees(x, 7199000), degrees(x, 7202000)],
      })
    const rule = { ...plain, barriers: 'ground/faults.geojson' }
    const drawn: Float64Array[] = []
    for (const x of [500350, 500550]) {
      const { results } = await run([rule], [table, fault(x)], chain)
      expect(results.surfaces[0].failure).toBeNull()
      drawn.push(results.surfaces[0].bands?.estimate ?? new Float64Array(0))
    }
    expect(drawn[0]).not.toEqual(drawn[1])
    const { results } = await run([{ ...plain, name: 'open' }], [table], chain)
    expect(results.surfaces[0].bands?.estimate).not.toEqual(drawn[0])
  })

  test('a chance keeps to the lines of a file, and ends where no station within reach is seen', async () => {
    // A pocket without stations, walled in.
    const pocket = { type: 'LineString', coordinates: ring(500395, 7200395, 500445, 7200445) }
    const rule = { method: 'chance-above', above: 50, cell: 10, reach: 300, realisations: 20 }
    const walled = { ...rule, name: 'walled', barriers: 'pocket.geojson' }
    const { results } = await run([rule, walled], [table, geojson('pocket.geojson', pocket)])
    const [open, closed] = results.surfaces
    expect(closed.failure).toBeNull()
    expect(closed.sentence).toContain('used across its barriers')
    expect(open.sentence).not.toContain('barriers')
    const bands = [open, closed].map((each) => each.bands ?? { grid: null, estimate: null })
    const { grid } = bands[0]
    if (!grid) throw new Error('nothing drawn')
    let inside = 0
    bands[1].estimate?.forEach((chance, node) => {
      const x = grid.west + (0.5 + (node % grid.columns)) * grid.cell
      const y = grid.north - (0.5 + Math.floor(node / grid.columns)) * grid.cell
      const within = x > 500396 && x < 500444 && y > 7200396 && y < 7200444
      if (within) inside++
      if (within) expect(chance).toBeNaN()
      if (within) expect(bands[0].estimate?.[node]).toBeGreaterThanOrEqual(0)
    })
    expect(inside).toBeGreaterThan(10)
  })

  test('a map’s lines are barriers; outlines are where it has no lines', async () => {
    const line = {
      type: 'LineString',
      coordinates: [degrees(500350, 7199000), degrees(500350, 7202000)],
    }
    const unit = { type: 'Polygon', coordinates: [ring(500100, 7200100, 500500, 7200500)] }
    const rules = ['line', 'both', 'unit'].map((name) => ({
      ...plain,
      name,
      barriers: `${name}.geojson`,
    }))
    const { results } = await run(rules, [
      table,
      geojson('line.geojson', line),
      geojson('both.geojson', unit, line),
      geojson('unit.geojson', unit),
    ])
    const [alone, both, outline] = results.surfaces.map(({ bands }) => bands?.estimate)
    expect(both).toEqual(alone)
    expect(outline).not.toEqual(alone)
  })

  test('what is wrong with a file is said in words, and other surfaces go on', async () => {
    const point = geojson('spots.geojson', { type: 'Point', coordinates: [-69, -25] })
    const metres = geojson('metres.geojson', {
      type: 'LineString',
      coordinates: [
        [500000, 7200000],
        [500500, 7200000],
      ],
    })
    const { results } = await run(
      [
        { ...plain, name: 'a', within: 'nowhere.geojson' },
        { ...plain, name: 'b', within: 'spots.geojson' },
        { ...plain, name: 'c', barriers: 'metres.geojson' },
        { ...plain, name: 'd' },
      ],
      [table, point, metres],
    )
    expect(results.surfaces.map(({ failure }) => failure)).toEqual([
      expect.stringContaining('no GeoJSON file ‘nowhere.geojson’'),
      expect.stringContaining('spots.geojson holds no polygons'),
      expect.stringContaining('metres.geojson has a corner [500000,7200000]'),
      null,
    ])
  })
})

describe('cells below detection', () => {
  const low = (i: number) => valueAt(i) < 20
  const table = source(
    'samples.csv',
    sampleTable((i) => (low(i) ? '<20' : valueAt(i).toFixed(3))),
  )
  const count = Array.from({ length: 64 }, (_, i) => i).filter(low).length

  test('are left out unless a rule is chosen, which is told', async () => {
    const rules = [undefined, 'leave out', 'half', 'zero', 'limit'] as const
    const { results } = await run(
      rules.map((rule, i) => ({
        name: `s${i}`,
        method: 'inverse-distance',
        below_detection: rule,
      })),
      [table],
    )
    expect(count).toBeGreaterThan(5)
    expect(results.surfaces.map(({ stations }) => stations)).toEqual([
      64 - count,
      64 - count,
      64,
      64,
      64,
    ])
    expect(results.surfaces.map(({ belowDetection }) => belowDetection)).toEqual([
      0,
      0,
      count,
      count,
      count,
    ])
    const lowest = results.surfaces.map(({ points }) => Math.min(...(points?.value ?? [])))
    expect(lowest.slice(2)).toEqual([10, 0, 20])
    expect(results.surfaces[2].sentence).toContain(
      `${count} stations below detection count as half the limit`,
    )
  })

  test('are a number after a less-than sign and nothing else', () => {
    const cells = ['<5', ' < 0.05 ', '<0,5', '<.5', '< 5 ppm', '5', '<', '-5', 5, null]
    expect(cells.map(detectionLimit)).toEqual([
      5,
      0.05,
      0.5,
      0.5,
      null,
      null,
      null,
      null,
      null,
      null,
    ])
  })

  test('go with a value alone', () => {
    const chance = { value: undefined, class: 'x', method: 'class-probability' }
    expect(() => recipeOf({ ...chance, below_detection: 'half' })).toThrow(/below_detection/)
  })
})
