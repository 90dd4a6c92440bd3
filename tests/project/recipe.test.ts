/** Recipes and decisions: the design's own example, and every kind of mistake named at its path. */
import { existsSync, readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  latestDecisions,
  NO_DECISIONS,
  parseDecisions,
  scanKey,
  writeDecisions,
} from '../../src/project/decisions'
import { RecipeError } from '../../src/project/json-cursor'
import { EMPTY_RECIPE, parseRecipe, writeRecipe } from '../../src/project/recipe'
import { startingRecipe } from '../../src/project/starting-recipe'

/** The example of the design's “File contracts”, by hand. */
const EXAMPLE = {
  recipe: 1,
  crs: 'auto',
  places: [
    { file: 'samples.csv', crs: 'EPSG:32719', x: 'East', y: 'North', name: 'SampleID' },
    { file: 'day1.gpx', clock_offset_s: 1380 },
  ],
  targets: ['matrix'],
  indices: [
    {
      name: 'white mica position',
      formula: 'position(2185, 2225, 2120, 2245)',
      unit: 'nm',
      where: 'group("white mica") >= 0.3 and depth(2185, 2225, 2120, 2245) > 0.03',
    },
    { name: 'copper', formula: 'column("Cu_ppm")', unit: 'ppm' },
  ],
  classes: [
    { name: 'alunite', when: 'group("alunite") >= 0.3', colour: '#CC79A7', symbol: 'triangle' },
    {
      name: 'long white mica',
      when: '[white mica position] >= 2208',
      colour: '#0072B2',
      symbol: 'circle',
    },
  ],
  surfaces: [
    {
      name: 'white mica chance',
      group: 'white mica',
      method: 'class-probability',
      cell: 20,
    },
    {
      name: 'mica',
      value: 'white mica position',
      method: 'kriging',
      cell: 20,
      neighbours: 24,
      variogram: 'fit',
      reach: 250,
      mask: { surface: 'white mica chance', at_least: 0.5 },
    },
    {
      name: 'copper',
      value: 'copper',
      method: 'inverse-distance',
      power: 2,
      cell: 20,
      support: ['outcrop', 'soil'],
    },
  ],
}
const VARIOGRAM = {
  nugget: 1,
  structures: [{ model: 'matern', sill: 30, range: 4000, smoothness: 1.5 }],
  azimuth: 45,
  ratio: 0.4,
}

/** The same through JSON, which drops what is undefined. */
function plain(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value))
}

/** What a text is refused for. */
function refusal(text: string, parse: (text: string) => unknown = parseRecipe): RecipeError {
  try {
    parse(text)
  } catch (error) {
    if (error instanceof RecipeError) return error
    throw error
  }
  throw new Error('it was taken')
}

type Json = Record<string, unknown>

/** The example with one value changed, or taken out where `value` is undefined. */
function changed(path: readonly (string | number)[], value: unknown): string {
  const copy = structuredClone(EXAMPLE) as Json
  let at: Json = copy
  for (const key of path.slice(0, -1)) at = at[key] as Json
  at[path[path.length - 1]] = value
  return JSON.stringify(copy)
}

describe('a recipe that is right', () => {
  test('the design’s example is read as it stands', () => {
    expect(plain(parseRecipe(JSON.stringify(EXAMPLE)))).toEqual(EXAMPLE)
  })

  const SHARED = '../shared/design.md'
  test.skipIf(!existsSync(SHARED))(
    `the one in ${SHARED} is the same (skipped where absent)`,
    () => {
      const found = /```json\n(\{\n {2}"recipe"[^]*?)\n```/.exec(readFileSync(SHARED, 'utf8'))?.[1]
      expect(plain(parseRecipe(found ?? ''))).toEqual(EXAMPLE)
    },
  )

  test('written and read again it is the same, and written the same', () => {
    for (const recipe of [parseRecipe(JSON.stringify(EXAMPLE)), startingRecipe(), EMPTY_RECIPE]) {
      const text = writeRecipe(recipe)
      expect(plain(parseRecipe(text))).toEqual(plain(recipe))
      expect(writeRecipe(parseRecipe(text))).toBe(text)
    }
  })

  test('whatever is absent has its usual value; a byte order mark is passed over', () => {
    expect(parseRecipe('\uFEFF{ "recipe": 1 }')).toEqual(EMPTY_RECIPE)
  })

  test('a variogram may be given', () => {
    const recipe = parseRecipe(changed(['surfaces', 1, 'variogram'], VARIOGRAM))
    expect(plain(recipe.surfaces[1].variogram)).toEqual(VARIOGRAM)
  })

  test('every heading of a place may be named', () => {
    const place = {
      file: 'a.csv',
      crs: 'local:ft',
      z: 'RL',
      hole: 'BHID',
      from: 'From',
      to: 'To',
      depth: 'Depth',
      support: 'Type',
      target: 'On',
      azimuth: 'Azi',
      dip: 'Dip',
      gap_s: 60,
    }
    const { places } = parseRecipe(changed(['places', 0], place))
    expect(plain(places[0])).toEqual(place)
  })

  test('grouping has its limits, and a way to leave times out', () => {
    const grouping = { by_time: false, gap_s: 45, pause_s: 900, near_m: 4, widest_m: 12.5 }
    const recipe = parseRecipe(changed(['grouping'], grouping))
    expect(recipe.grouping).toEqual(grouping)
    expect(parseRecipe(writeRecipe(recipe)).grouping).toEqual(grouping)
    expect(parseRecipe(changed(['grouping'], {})).grouping).toEqual({})
  })

  test('references may be switched off, and their ranges moved', () => {
    const references = { off: ['Alunite_X'], ranges: { alunite: [[1440, 1550]] } }
    expect(parseRecipe(changed(['references'], references)).references).toEqual(references)
  })
})

describe('a mistake is named at its path', () => {
  const mica = ['surfaces', 1]
  test.each<[path: string, key: (string | number)[], value: unknown, why: RegExp]>([
    ['recipe', ['recipe'], 2, /version 2/],
    ['recipe', ['recipe'], '1', /a number is expected/],
    ['', ['recipe'], undefined, /‘recipe’ is missing/],
    ['layers', ['layers'], [], /no such key; known here: recipe, crs/],
    ['crs', ['crs'], 'UTM 19S', /none of auto, EPSG:n/],
    ['crs', ['crs'], 32719, /text is expected/],
    ['places', ['places'], {}, /a list is expected/],
    ['places[0].crs', ['places', 0, 'crs'], 'auto', /neither EPSG:n nor local/],
    ['places[0].colour', ['places', 0, 'colour'], 1, /no such key/],
    ['places[1]', ['places', 1, 'file'], undefined, /‘file’ is missing/],
    ['places[1].clock_offset_s', ['places', 1, 'clock_offset_s'], '23 min', /a number is expected/],
    ['grouping.seconds', ['grouping'], { seconds: 5 }, /no such key; known here: by_time, gap_s/],
    ['grouping.by_time', ['grouping'], { by_time: 'no' }, /true or false/],
    ['grouping.gap_s', ['grouping'], { gap_s: 0 }, /0 is not between 1 and 3600/],
    ['grouping', ['grouping'], { near_m: 30 }, /near_m \(30\) is more than widest_m \(25\)/],
    ['grouping', ['grouping'], { pause_s: 30 }, /gap_s \(60\) is more than pause_s \(30\)/],
    ['targets[0]', ['targets', 0], 'rock', /‘rock’ is none of matrix, vein/],
    ['indices[0]', ['indices', 0], 'copper', /an object .* is expected/],
    ['indices[0].formula', ['indices', 0, 'formula'], ' ', /the text is empty/],
    ['indices[1]', ['indices', 1, 'name'], undefined, /‘name’ is missing/],
    ['indices[1].name', ['indices', 1, 'name'], 'white mica position', /twice/],
    ['indices[1].units', ['indices', 1, 'units'], 'ppm', /no such key/],
    ['classes[0].colour', ['classes', 0, 'colour'], 'red', /‘red’ is not #rrggbb/],
    ['classes[0].symbol', ['classes', 0, 'symbol'], 'disc', /‘disc’ is none of circle/],
    ['classes[1].name', ['classes', 1, 'name'], 'alunite', /twice/],
    ['surfaces[0]', ['surfaces', 0, 'class'], 'alunite', /exactly one of value, class and group/],
    ['surfaces[0]', ['surfaces', 0, 'method'], 'kriging', /kriging takes a value/],
    ['surfaces[1]', [...mica, 'method'], 'class-probability', /takes a class or a group/],
    ['surfaces[1].method', [...mica, 'method'], 'spline', /‘spline’ is none of kriging/],
    ['surfaces[1].cell', [...mica, 'cell'], 0, /0 is not between/],
    ['surfaces[1].neighbours', [...mica, 'neighbours'], 0, /not between 1 and 1000/],
    ['surfaces[1].neighbours', [...mica, 'neighbours'], 2.5, /whole number/],
    ['surfaces[1].reach', [...mica, 'reach'], -1, /not between/],
    ['surfaces[1].mask', [...mica, 'mask'], {}, /‘surface’ is missing/],
    ['surfaces[1].mask.below', [...mica, 'mask', 'below'], 1, /no such key/],
    ['surfaces[1].variogram', [...mica, 'variogram'], 'auto', /"fit" or an object/],
    [
      'surfaces[1].variogram.structures[0].model',
      [...mica, 'variogram'],
      { ...VARIOGRAM, structures: [{ model: 'linear', sill: 1, range: 1 }] },
      /‘linear’ is none of/,
    ],
    [
      'surfaces[1].variogram.structures[0].range',
      [...mica, 'variogram'],
      { ...VARIOGRAM, structures: [{ model: 'spherical', sill: 1, range: 0 }] },
      /not between/,
    ],
    ['surfaces[1].variogram.ratio', [...mica, 'variogram'], { ...VARIOGRAM, ratio: 2 }, /between/],
    ['surfaces[1].variogram', [...mica, 'variogram'], { nugget: 0, structures: [] }, /all 0/],
    ['surfaces[2].support[1]', ['surfaces', 2, 'support', 1], 'dirt', /‘dirt’ is none of outcrop/],
    ['surfaces[2].name', ['surfaces', 2, 'name'], 'mica', /twice/],
    [
      'references.ranges.alunite[0]',
      ['references'],
      { ranges: { alunite: [[1550, 1440]] } },
      /lower end first/,
    ],
  ])('%s (%j = %j)', (path, key, value, why) => {
    const error = refusal(changed(key, value))
    expect(error.path).toBe(path)
    expect(error.what).toMatch(why)
  })

  test.each([
    ['no JSON', '{ "recipe": 1,', /not JSON/],
    ['a list', '[]', /an object/],
    ['nothing', 'null', /an object/],
    ['4 MB and more', `{"recipe":1,"crs":"${' '.repeat(4_000_000)}"}`, /larger than 4 MB/],
  ])('%s', (_, text, why) => {
    expect(refusal(text).what).toMatch(why)
  })

  test('no JSON whatever makes it fail otherwise', () => {
    fc.assert(
      fc.property(fc.constantFrom(...Object.keys(EXAMPLE)), fc.jsonValue(), (key, value) => {
        try {
          parseRecipe(JSON.stringify({ ...EXAMPLE, [key]: value }))
        } catch (error) {
          expect(error).toBeInstanceOf(RecipeError)
        }
      }),
      { numRuns: 300, seed: 2 },
    )
  })
})

describe('decisions', () => {
  const by = { who: 'A', when: '2024-05-07T18:00:00Z', why: 'seen' }
  const about = [
    { kind: 'verdict', check: 'set aside' },
    { kind: 'place', longitude: -69, latitude: -24 },
    { kind: 'mineral', mineral: 'dickite' },
    { kind: 'station', station: 'S1' },
    { kind: 'target', target: 'vein' },
    { kind: 'support', support: 'soil' },
    { kind: 'step correction', on: true },
    { kind: 'note', note: 'sunny' },
  ]
  const file = {
    decisions: 1,
    list: about.map((one) => ({ file: 'a.txt', scan: 'A', about: one, ...by })),
  }

  test('of every kind are read, and come back as they were written', () => {
    const decisions = parseDecisions(JSON.stringify(file))
    expect(decisions).toEqual(file)
    expect(parseDecisions(writeDecisions(decisions))).toEqual(decisions)
    expect(parseDecisions('{"decisions":1}')).toEqual(NO_DECISIONS)
  })

  test('the last of a kind about a scan holds; another scan’s is its own', () => {
    const note = (scan: string, words: string) => ({
      file: 'a.txt',
      scan,
      about: { kind: 'note', note: words },
      ...by,
    })
    const list = [note('A', 'first'), note('B', 'other'), note('A', 'last')]
    const latest = latestDecisions(parseDecisions(JSON.stringify({ ...file, list })), 'note')
    expect(latest.get(scanKey('a.txt', 'A'))?.note).toBe('last')
    expect(latest.get(scanKey('a.txt', 'B'))?.note).toBe('other')
    expect(latest.size).toBe(2)
  })

  test.each<[path: string, entry: object, why: RegExp]>([
    ['list[0].about.kind', { about: { kind: 'guess' } }, /‘guess’ is none of verdict/],
    ['list[0].about.check', { about: { kind: 'verdict', check: 'fine' } }, /none of sound/],
    [
      'list[0].about.latitude',
      { about: { kind: 'place', longitude: 0, latitude: 91 } },
      /between -90 and 90/,
    ],
    ['list[0].about.on', { about: { kind: 'step correction', on: 'no' } }, /true or false/],
    ['list[0].about.chek', { about: { ...about[0], chek: 'sound' } }, /no such key/],
    ['list[0].because', { because: 'x' }, /no such key/],
    ['list[0]', { who: null }, /‘who’ is missing/],
  ])('a mistake at %s', (path, entry, why) => {
    const list = [{ ...file.list[0], ...entry }]
    const error = refusal(JSON.stringify({ decisions: 1, list }), parseDecisions)
    expect([error.path, error.what]).toEqual([path, expect.stringMatching(why)])
  })
})

describe('files made to harm', () => {
  const entries = (count: number) =>
    Array.from({ length: count }, (_, i) => ({ name: `i${i}`, formula: '1' }))

  test.each<[what: string, text: string, path: string, why: RegExp]>([
    ['too large', ' '.repeat(4_000_001), '', /larger than 4 MB/],
    ['too many indices', JSON.stringify({ recipe: 1, indices: entries(1001) }), 'indices', /1000/],
    ['nested without end', `{"recipe":1,"indices":${'['.repeat(1e6)}`, '', /not JSON/],
    [
      'nested deep',
      `{"recipe":1,"indices":${'['.repeat(1e6)}${']'.repeat(1e6)}}`,
      'indices[0]',
      /object/,
    ],
    ['a prototype', '{"recipe":1,"__proto__":{"crs":"x"}}', '__proto__', /no such key/],
    [
      'an endless number',
      '{"recipe":1,"surfaces":[{"name":"a","value":"b","method":"kriging","cell":1e999}]}',
      'surfaces[0].cell',
      /a number/,
    ],
    ['a long key', `{"recipe":1,"${'k'.repeat(1e6)}":1}`, `${'k'.repeat(80)}…`, /no such key/],
  ])('%s', (_, text, path, why) => {
    const error = refusal(text, parseRecipe)
    expect([error.path, error.what]).toEqual([path, expect.stringMatching(why)])
  })

  test('decisions of over 50 MB', () => {
    expect(refusal(' '.repeat(50_000_001), parseDecisions).what).toMatch(/larger than 50 MB/)
  })
})
