/** The likeliest class from stations to files, and how surely a station is of a class. */
import { fromArrayBuffer } from 'geotiff'
import { describe, expect, test } from 'vitest'
import { planLayers } from '../../src/layers/export-all'
import { classShares, groupPresence, hasClass } from '../../src/project/class-shares'
import { layersInput } from '../../src/project/layers-input'
import { emptyProject } from '../../src/project/project'
import { Chain } from '../../src/project/chain'
import { automaticVariogram } from '../../src/surfaces/automatic-variogram'
import { consistentChances, testLikeliest } from '../../src/surfaces/likeliest'
import { leaveGroupsOut, spatialBlocks, suggestBlockSide } from '../../src/surfaces/testing'
import { placeOf, pool, recipeOf, recipeWith, run, sampleTable, source, valueAt } from './field'
import { THREE } from './pools'

const CLASSES = [
  { name: 'gold', when: '[copper] > 1e6', colour: '#E69F00', symbol: 'star' },
  { name: 'high', when: '[copper] >= 70', colour: '#CC79A7', symbol: 'triangle' },
  { name: 'middle', when: '[copper] >= 30', colour: '#0072B2', symbol: 'circle' },
]
const ALTERATION = {
  name: 'alteration',
  value: undefined,
  method: 'likeliest-class',
  classes: 'all',
  cell: 20,
  reach: 100,
}

describe('a surface of the likeliest class', () => {
  test('names the class of nearly every station, is least sure between them, and says how good it is', async () => {
    const { results, report } = await run([ALTERATION], undefined, undefined, CLASSES)
    const [{ bands, likeliest, failure, sentence }] = results.surfaces
    expect(failure).toBeNull()
    if (!bands || !likeliest) throw new Error('nothing computed')
    expect(likeliest.classes.map(({ name }) => name)).toEqual([
      'none of these',
      'gold',
      'high',
      'middle',
    ])
    const codeOf = (value: number) => (value >= 70 ? 2 : value >= 30 ? 3 : 0)
    let right = 0
    for (let i = 0; i < 64; i++) {
      const [x, y] = placeOf(i)
      const column = Math.floor((x - bands.grid.west) / 20)
      const row = Math.floor((bands.grid.north - y) / 20)
      if (bands.estimate[row * bands.grid.columns + column] === codeOf(valueAt(i))) right++
    }
    expect(right).toBeGreaterThanOrEqual(62)
    const drawn = bands.estimate.filter((code) => !Number.isNaN(code))
    expect(likeliest.classes.reduce((sum, { nodes }) => sum + nodes, 0)).toBe(drawn.length)
    expect(likeliest.classes.reduce((sum, { stations }) => sum + stations, 0)).toBe(64)
    bands.estimate.forEach((code, node) => {
      if (Number.isNaN(code)) {
        expect(likeliest.probability[node]).toBeNaN()
        return
      }
      expect(likeliest.probability[node]).toBeGreaterThanOrEqual(1 / 4)
      expect(likeliest.doubt[node]).toBeGreaterThanOrEqual(0)
      expect(likeliest.doubt[node]).toBeLessThanOrEqual(1)
    })
    expect(likeliest.classes[1]).toMatchObject({ stations: 0, nodes: 0 })
    expect(sentence).toMatch(/^Away from stations .* the likeliest class is right at \d+ %/)
    expect(sentence).toMatch(/No station is of ‘gold’\.$/)
    expect(likeliest.blocked?.right).toBeLessThanOrEqual(likeliest.single?.right ?? 0)
    expect(likeliest.single?.right).toBeGreaterThan(0.8)
    expect(report[0].class_table).toMatchObject([
      { code: 0, class: 'none of these' },
      { code: 1, class: 'gold', stations: 0, nodes: 0 },
      { code: 2, class: 'high' },
      { code: 3, class: 'middle' },
    ])
  })

  test('its raster holds code, chance and doubt, and names the classes', async () => {
    const { results, holdings } = await run([ALTERATION], undefined, undefined, CLASSES)
    const project = emptyProject('p', recipeWith(CLASSES, [ALTERATION]))
    const files = planLayers(layersInput(project, holdings, results))
    const own = files.filter(({ file }) => file.startsWith('alteration'))
    expect(own.map(({ file }) => file.slice(10))).toEqual(['.tif', '.classes.geojson', '.sld'])
    const bytes = files.find(({ file }) => file === 'alteration.tif')?.write()
    if (!bytes) throw new Error('no raster')
    const image = await (await fromArrayBuffer(bytes.slice().buffer)).getImage()
    expect(image.getSamplesPerPixel()).toBe(3)
    const [codes] = (await image.readRasters()) as unknown as Float32Array[]
    expect([...new Set(codes)].sort((a, b) => a - b)).toEqual([-9999, 0, 2, 3])
    const metadata = await image.getGDALMetadata()
    expect(metadata).toMatchObject({ CLASS_0: 'none of these', CLASS_2: 'high' })
  })

  test('is refused under twenty stations, with one class for all, and for an unknown class', async () => {
    const few = sampleTable().split('\n').slice(0, 20).join('\n') + '\n'
    const failure = async (change: object, table = sampleTable(), classes = CLASSES) => {
      const { results } = await run(
        [{ ...ALTERATION, ...change }],
        [source('samples.csv', table)],
        undefined,
        classes,
      )
      return results.surfaces[0].failure
    }
    expect(await failure({}, few)).toMatch(/needs at least 20 stations and has 19/)
    expect(await failure({ classes: ['high', 'low'] })).toMatch(/no working class ‘low’/)
    const all = [{ ...CLASSES[0], when: '[copper] > 0' }]
    expect(await failure({}, undefined, all)).toMatch(/All 64 stations .* have the same value/)
    expect(await failure({ classes: undefined, groups: ['alunite', 'kaolin'] })).toMatch(
      /No station holds the group ‘alunite’/,
    )
  })

  const COPPER = { name: 'copper', method: 'inverse-distance', cell: 20, reach: 100 }

  test('masks another surface by classes and by doubt', async () => {
    const within = async (mask: object) => {
      const masked = { ...COPPER, mask: { surface: 'alteration', ...mask } }
      return (await run([ALTERATION, masked], undefined, undefined, CLASSES)).results.surfaces
    }
    const [{ bands: codes, likeliest }, high] = await within({ classes: ['high'] })
    const [, sure] = await within({ classes: ['high', 'middle'], doubt_at_most: 0.3 })
    const [, outside] = await within({ classes: ['none of these'] })
    if (!codes || !likeliest || !high.bands || !sure.bands || !outside.bands)
      throw new Error('none')
    const drawn = [0, 0, 0]
    codes.estimate.forEach((code, node) => {
      const [a, b, c] = [high, sure, outside].map(
        (each) => !Number.isNaN(each.bands?.estimate[node]),
      )
      if (Number.isNaN(code)) return
      expect(a).toBe(code === 2)
      expect(b).toBe(code > 0 && likeliest.doubt[node] <= 0.3)
      expect(c).toBe(code === 0)
      drawn[0] += Number(a)
      drawn[1] += Number(b)
      drawn[2] += Number(c)
    })
    expect(Math.min(...drawn)).toBeGreaterThan(50)
    const failure = async (mask: object) => (await within(mask))[1].failure
    expect(await failure({ at_least: 1 })).toMatch(/holds classes and no values; say which/)
    expect(await failure({ classes: ['low'] })).toMatch(/tells no class ‘low’/)
    const wrong = (mask: object) => () => recipeOf({ ...COPPER, mask: { surface: 'a', ...mask } })
    expect(wrong({ classes: ['a'], at_least: 1 })).toThrow(/no least and no most/)
    expect(wrong({ classes: [] })).toThrow(/one class at least/)
    expect(wrong({ doubt_at_most: 2 })).toThrow(/doubt_at_most/)
    const { results } = await run([
      { ...COPPER, name: 'plain' },
      { ...COPPER, mask: { surface: 'plain', classes: ['high'] } },
    ])
    expect(results.surfaces[1].failure).toMatch(/holds values and no classes/)
  })

  test('a limit on its doubt leaves ground blank and tells how good it is within', async () => {
    expect(() => recipeOf({ ...COPPER, doubt_at_most: 0.5 })).toThrow(/likeliest-class alone/)
    const chain = new Chain(pool, THREE)
    const all = await run([ALTERATION], undefined, chain, CLASSES)
    const limited = await run([{ ...ALTERATION, doubt_at_most: 0.3 }], undefined, chain, CLASSES)
    const [plain, sure] = [all, limited].map(({ results }) => results.surfaces[0])
    const [before, after] = [plain.likeliest, sure.likeliest]
    if (!before || !after) throw new Error('nothing computed')
    let blank = 0
    before.doubt.forEach((doubt, node) => {
      if (doubt > 0.3) blank++
      expect(Number.isNaN(after.doubt[node])).toBe(!(doubt <= 0.3))
      expect(Number.isNaN(sure.bands?.estimate[node])).toBe(!(doubt <= 0.3))
    })
    const known = before.doubt.filter((doubt) => !Number.isNaN(doubt)).length
    expect(before.blank).toBeNull()
    expect(after.blank).toBeCloseTo(blank / known, 12)
    expect(after.blocked?.right).toBe(before.blocked?.right)
    expect(after.blocked?.sure?.right).toBeGreaterThan(before.blocked?.right ?? 1)
    expect(after.blocked?.sure?.count).toBeLessThan(64)
    expect(sure.sentence).toMatch(/Where its doubt was within the limit it was right at \d+ % of/)
    expect(sure.sentence).toMatch(/Its doubt is above 0.3 over \d+ % of the ground in reach/)
    expect(limited.report[0]).toMatchObject({ doubt_at_most: 0.3 })
  })

  test('is tested with all classes left out in the same blocks', async () => {
    const { results } = await run([ALTERATION], undefined, undefined, CLASSES)
    const { blocked } = results.surfaces[0].likeliest ?? {}
    const stations = Array.from({ length: 64 }, (_, i) => ({
      place: placeOf(i),
      value: valueAt(i),
    }))
    const x = Float64Array.from(stations, ({ place }) => place[0])
    const y = Float64Array.from(stations, ({ place }) => place[1])
    const of = (holds: (value: number) => boolean) =>
      Float64Array.from(stations, ({ value }) => (holds(value) ? 1 : 0))
    const observed = [of((v) => v < 30), of((v) => v >= 70), of((v) => v >= 30 && v < 70)]
    const blocks = spatialBlocks({ x, y, value: x }, suggestBlockSide({ x, y, value: x }, null))
    const predicted = observed.map((value) => {
      const points = { x, y, value }
      const { variogram } = automaticVariogram(points)
      return leaveGroupsOut(points, blocks, { method: 'kriging', variogram }).predicted
    })
    const joint = consistentChances([predicted[0], ...predicted.slice(1)])
    const own = testLikeliest(observed, joint)
    expect(blocked?.right).toBe(own?.right)
    expect(blocked?.testing.rmse).toBeCloseTo(own?.testing.rmse ?? 0, 5)
  })

  test('transforms go with kriging', () => {
    expect(recipeOf({ method: 'kriging', transform: 'log' }).surfaces[0].transform).toBe('log')
    const wrong = (change: object) => () => recipeOf(change)
    expect(wrong({ method: 'inverse-distance', transform: 'log' })).toThrow(
      /surfaces\[0\]\.transform: a transform goes with kriging alone/,
    )
    expect(wrong({ method: 'kriging', transform: 'ln' })).toThrow(/none of log, normal-score, rank/)
  })

  test('a transform is another surface, in the value’s own unit, and says so', async () => {
    const { results, report } = await run([
      { method: 'kriging', cell: 50, reach: 200 },
      { name: 'by logarithms', method: 'kriging', cell: 50, reach: 200, transform: 'log' },
    ])
    const [plain, logs] = results.surfaces
    expect(logs.failure).toBeNull()
    const middle = (surface: typeof plain) => surface.bands?.estimate.at(14 * 7)
    expect(middle(logs)).not.toBe(middle(plain))
    expect(logs.testing?.meanRmse).toBe(plain.testing?.meanRmse)
    expect(logs.sentence).toMatch(/Kriged in logarithms and brought back as a mean/)
    expect(report.map(({ transform }) => transform)).toEqual([null, 'log'])
  })

  test('limits by error and hull are checked, reported, and said where they leave nothing', async () => {
    expect(() => recipeOf({ method: 'inverse-distance', error_at_most: 3 })).toThrow(
      /surfaces\[0\]\.error_at_most: inverse-distance has no standard error/,
    )
    expect(() => recipeOf({ method: 'kriging', error_at_most: 0 })).toThrow(/error_at_most/)
    expect(() => recipeOf({ method: 'kriging', hull: -1 })).toThrow(/surfaces\[0\]\.hull/)
    const variogram = { nugget: 9, structures: [{ model: 'spherical', sill: 900, range: 300 }] }
    const { results, report } = await run([
      { method: 'kriging', cell: 20, hull: 0, variogram },
      { name: 'sure', method: 'kriging', cell: 20, error_at_most: 2, variogram },
    ])
    expect(results.surfaces[0].reach).toBeNull()
    expect(report[0]).toMatchObject({ reach: null, hull: 0, error_at_most: null })
    expect(results.surfaces[1].bands?.estimate.every(Number.isNaN)).toBe(true)
    expect(results.surfaces[1].sentence).toMatch(
      /Nothing is drawn, for its standard error is above 2 everywhere; the nugget alone makes it 3/,
    )
  })

  test('composites are a number above 0', () => {
    expect(() => recipeOf({ method: 'kriging', composite: 0 })).toThrow(/surfaces\[0\]\.composite/)
    expect(recipeOf({ method: 'kriging', composite: 2 }).surfaces[0].composite).toBe(2)
  })

  test('the recipe is checked, with its place', () => {
    const wrong = (change: object) => () => recipeOf({ ...ALTERATION, ...change })
    expect(wrong({ classes: 'some' })).toThrow(/surfaces\[0\]\.classes: "all" or a list/)
    expect(wrong({ classes: ['a'] })).toThrow(/surfaces\[0\]\.classes: 2 to 40 names/)
    expect(wrong({ classes: ['a', 'a'] })).toThrow(/‘a’ stands there twice/)
    expect(wrong({ groups: ['a', 'b'] })).toThrow(/exactly one of/)
    expect(wrong({ method: 'kriging' })).toThrow(/kriging takes a value/)
    expect(wrong({ classes: undefined, value: 'copper' })).toThrow(/likeliest-class takes classes/)
    expect(recipeOf({ ...ALTERATION, classes: ['a', 'b'] }).surfaces[0].classes).toEqual(['a', 'b'])
  })
})

describe('how surely a station is of a class', () => {
  const doubtful = { minerals: [], runnerUp: null, doubt: 'kaolinite or dickite' }
  const sure = { minerals: [], runnerUp: null, doubt: '' }
  const evidence = {
    stationClasses: ['a', 'b', 'not measurable', 'a'],
    scanClasses: ['a', 'a', 'b', 'b', 'not measurable'],
    identifications: [sure, sure, sure, doubtful, sure],
    counted: [[0, 1, 2], [3], [4], []],
    readsMinerals: true,
  }

  test('scans vote; a doubtful one gives half of its vote to the proportions of all', () => {
    const shares = classShares(evidence)
    expect(shares(0)?.get('a')).toBeCloseTo(2 / 3, 15)
    expect(shares(0)?.get('b')).toBeCloseTo(1 / 3, 15)
    // Stations 0 and 1 are known: a and b are a half each.
    expect(shares(1)?.get('b')).toBe(0.75)
    expect(shares(1)?.get('a')).toBe(0.25)
    expect(shares(2)).toBeNull()
    expect(shares(3)).toBeNull()
    expect(classShares({ ...evidence, readsMinerals: false })(1)?.get('b')).toBe(1)
    const byHand = { ...doubtful, doubt: 'Overruled by hand.' }
    const decided = { ...evidence, identifications: evidence.identifications.with(3, byHand) }
    expect(classShares(decided)(1)?.get('b')).toBe(1)
  })

  test('where no station has a scan, tables alone give classes', () => {
    const tables = { stationClasses: ['a', 'not measurable'], counted: [[], []] }
    expect([0, 1].map(hasClass(tables))).toEqual([true, false])
  })

  test('a group’s presence is null without an identified scan', () => {
    expect(groupPresence(evidence, 'kaolin')(3)).toBeNull()
    expect(groupPresence(evidence, 'kaolin')(0)).toBe(0)
  })
})
