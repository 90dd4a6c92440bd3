/** Names that formulas may speak of, what is remembered, and what surfaces are drawn from. */
import { RECORD_COLUMNS, SILENT_MINERALS } from '../../src/project/record-parts'
import { SCAN_COLUMNS } from '../../src/project/scan-columns'
import { describe, expect, test } from 'vitest'
import type { Placement } from '../../src/places/place-scans'
import { openCrs } from '../../src/places/crs'
import type { Station } from '../../src/places/station'
import { GROUPS } from '../../src/minerals/groups'
import { Memo } from '../../src/project/memo'
import {
  ACCEPTED,
  BY_HAND,
  isNothing,
  settled,
  type MineralDecision,
} from '../../src/project/overrule-mineral'
import { surfacePoints, type SurfaceInput } from '../../src/project/surface-points'
import { knownNames } from '../../src/project/values'
import type { Identification } from '../../src/minerals/reference'
import type { SurfaceRule } from '../../src/surfaces/model'
import { THREE } from './pools'

function station(name: string, more: Partial<Station> = {}): Station {
  const position = {
    easting: Number(name) * 10,
    northing: 0,
    elevation: null,
    longitude: null,
    latitude: null,
    error: null,
  }
  return {
    name,
    support: 'outcrop',
    position,
    placedBy: 'table',
    hole: null,
    from: null,
    to: null,
    columns: {},
    scans: [],
    ...more,
  }
}

function placement(stations: readonly Station[], waiting: readonly string[] = []): Placement {
  const questions = waiting.map((file) => ({
    file,
    columns: ['E', 'N'] as const,
    sample: [],
    suggestions: [],
  }))
  return {
    crs: openCrs('local:m'),
    stations,
    scans: [],
    problems: [],
    questions,
    tables: [],
    clocks: [],
    grouping: {
      counts: { name: 0, time: 0, likeness: 0, hand: 0 },
      single: 0,
      untimed: 0,
      unsure: [],
    },
  }
}

const table = (file: string, ...header: string[]) => ({ file, header, rows: [], lines: [] })

describe('known names', () => {
  test('no table was read: any column may be asked for', () => {
    expect(knownNames(THREE, placement([]), []).columns).toBeNull()
  })

  test('tables were read: their columns, the record’s, the instrument’s, and no other', () => {
    const placed = placement([
      station('1', { columns: { Cu: 1 } }),
      station('2', { columns: { Au: 1 } }),
    ])
    const { columns } = knownNames(THREE, placed, [table('a.csv', 'id', 'Cu', 'Au')])
    const seen = SILENT_MINERALS.map((mineral) => `seen ${mineral}`)
    const record = [...RECORD_COLUMNS, ...seen, ...SCAN_COLUMNS]
    expect(columns).toEqual(new Set(['Cu', 'Au', ...record]))
    expect(knownNames(THREE, placement([]), [table('collars.csv', 'hole')]).columns).toEqual(
      new Set(record),
    )
  })

  test('a table that waits for its system lends its headings', () => {
    const { columns } = knownNames(THREE, placement([], ['a.csv']), [
      table('a.csv', 'E', 'N', 'Cu'),
    ])
    expect(columns).toContain('Cu')
  })

  test('groups: those of the references and all of the catalogue; minerals: the references’', () => {
    const own = { ...THREE, sets: [], measured: [{ name: 'Unobtainium_1', ...EMPTY }] }
    const { groups, minerals } = knownNames(own, placement([]), [])
    for (const group of ['unobtainium', ...GROUPS.keys()]) expect(groups).toContain(group)
    expect(new Set(groups).size).toBe(groups.length)
    expect(minerals).toEqual(['unobtainium'])
  })
})

const EMPTY = { wavelengths: new Float64Array(), reflectance: new Float32Array() }

describe('memo', () => {
  test('makes once for the same ingredients, anew where one is another or their number changed', () => {
    const memo = new Memo<number>()
    let made = 0
    const make = () => ++made
    const list = [1]
    expect([memo.get([list, 'a'], make), memo.get([list, 'a'], make)]).toEqual([1, 1])
    expect(memo.get([[1], 'a'], make)).toBe(2)
    expect(memo.get([list, 'a', 1], make)).toBe(3)
    expect([memo.get([NaN], make), memo.get([NaN], make)]).toEqual([4, 4])
  })

  test('after a failure it makes again', () => {
    const memo = new Memo<number>()
    const fail = () => {
      throw new Error('no')
    }
    expect(() => memo.get([1], fail)).toThrow('no')
    expect(memo.get([1], () => 7)).toBe(7)
  })
})

describe('a mineral overruled', () => {
  const part = (mineral: string, group: string) => ({ mineral, group, share: 0.5, fit: 0.9 })
  const found: Identification = {
    minerals: [part('kaolinite', 'kaolin'), part('alunite', 'alunite')],
    runnerUp: null,
    doubt: '',
  }
  const known = ['alunite', 'jarosite'].map((name) => ({ mineral: name, group: name }))
  const all = (mineral: string) => ({ kind: 'mineral', mineral }) as const

  test('stands alone, with the fit it had, what was found coming second', () => {
    expect(settled(found, [all('alunite')], known)).toEqual({
      minerals: [{ mineral: 'alunite', group: 'alunite', share: 1, fit: 0.9 }],
      runnerUp: found.minerals[0],
      doubt: 'Overruled by hand.',
    })
  })

  test('as nothing diagnostic leaves none; an unknown one changes nothing', () => {
    for (const word of ['', 'nothing diagnostic']) {
      expect(isNothing(word)).toBe(true)
      expect(settled(found, [all(word)], known)?.minerals).toEqual([])
    }
    expect(settled(found, [all('alunit')], known)).toBe(found)
    expect(settled(null, [all('alunite')], known)?.minerals[0].fit).toBe(0)
  })
})

describe('one mineral of a mixture', () => {
  const part = (mineral: string, share: number) => ({ mineral, group: mineral, share, fit: 0.9 })
  const found: Identification = {
    minerals: [part('muscovite', 0.5), part('jarosite', 0.3), part('kaolinite', 0.2)],
    runnerUp: null,
    doubt: 'white mica or smectite',
  }
  const known = ['alunite', 'kaolinite'].map((name) => ({ mineral: name, group: name }))
  const settle = (...decisions: MineralDecision[]) => settled(found, decisions, known)
  const shares = (result: Identification | null) =>
    result?.minerals.map(({ mineral, share }) => `${mineral} ${share.toFixed(3)}`)

  test('is exchanged and hands its share on, or is taken out', () => {
    const exchanged = settle({ kind: 'mineral', of: 'jarosite', mineral: 'alunite' })
    expect(shares(exchanged)).toEqual(['muscovite 0.500', 'alunite 0.300', 'kaolinite 0.200'])
    expect(exchanged?.doubt).toBe(BY_HAND)
    const joined = settle({ kind: 'mineral', of: 'jarosite', mineral: 'kaolinite' })
    expect(shares(joined)).toEqual(['muscovite 0.500', 'kaolinite 0.500'])
    const without = settle({ kind: 'mineral', of: 'jarosite', mineral: '' })
    expect(shares(without)).toEqual(['muscovite 0.714', 'kaolinite 0.286'])
  })

  test('decisions follow one another, and one about a mineral that is not there changes nothing', () => {
    const both = settle(
      { kind: 'mineral', of: 'jarosite', mineral: 'alunite' },
      { kind: 'mineral', of: 'alunite', mineral: '' },
    )
    expect(shares(both)).toEqual(['muscovite 0.714', 'kaolinite 0.286'])
    expect(settle({ kind: 'mineral', of: 'topaz', mineral: 'alunite' })).toBe(found)
    expect(settle({ kind: 'mineral', of: 'jarosite', mineral: 'unheard' })).toBe(found)
  })

  test('what was accepted stays so while the same minerals are found', () => {
    const names = ['muscovite', 'kaolinite', 'jarosite']
    expect(settle({ kind: 'accepted', minerals: names })).toEqual({ ...found, doubt: ACCEPTED })
    expect(settle({ kind: 'accepted', minerals: names.slice(1) })).toBe(found)
  })
})

describe('points of a surface', () => {
  const rule: SurfaceRule = { name: 's', method: 'class-probability', group: 'alunite' }
  const shares = [0, 0.1, 0.2, 0.3, 0.9]
  const input: SurfaceInput = {
    placement: placement([
      ...shares.map((_, i) => station(String(i), { scans: [i] })),
      station('5', { support: 'core', scans: [4] }),
      station('6'),
    ]),
    columns: [
      {
        rule: { name: 'e\u0301', formula: '1', unit: 'nm' },
        needsScan: true,
        scans: [],
        stations: [1, 2, null, 4, 5, 6, 7].map((value) => ({
          value,
          error: value === 1 ? 0.5 : null,
        })),
      },
    ],
    stationClasses: ['a', 'b', 'not measurable', 'b', 'b', 'a', 'not measurable'],
    scanClasses: ['a', 'b', 'not measurable', 'b', 'b'],
    classNames: ['a', 'b'],
    readsMinerals: false,
    identifications: shares.map((share) => ({
      minerals: [{ mineral: 'alunite', group: 'alunite', share, fit: 1 }],
      runnerUp: null,
      doubt: '',
    })),
    counted: [[0], [1], [2], [3], [4], [4], []],
    indexSet: { indices: [], errors: [], steps: [], leaves: [] },
    ground: [],
  }
  const pointsOf = (change: Partial<SurfaceRule>) => {
    const found = surfacePoints({ ...rule, ...change }, input)
    if ('failure' in found) throw new Error(found.failure)
    return found
  }

  test('a group: absent to 0.1, there from 0.3, in doubt between; stations without a scan left out', () => {
    const { points } = pointsOf({})
    expect([...points.x]).toEqual([0, 10, 20, 30, 40])
    points.value.forEach((value, i) => expect(value).toBeCloseTo([0, 0, 0.5, 1, 1][i], 9))
  })

  test('a class: 1, 0, and none where it could not be measured', () => {
    const { points } = pointsOf({ group: undefined, class: 'b' })
    expect([...points.x]).toEqual([0, 10, 30, 40])
    expect([...points.value]).toEqual([0, 1, 1, 1])
  })

  test('a value: with its error, without what is missing, outcrop alone unless told', () => {
    const value: Partial<SurfaceRule> = { group: undefined, value: '\u00e9', method: 'kriging' }
    const { points, unit } = pointsOf(value)
    expect(unit).toBe('nm')
    expect([...points.value]).toEqual([1, 2, 4, 5, 7])
    expect([...(points.error ?? [])]).toEqual([0.5, NaN, NaN, NaN, NaN])
    expect([...pointsOf({ ...value, support: ['core'] }).points.value]).toEqual([6])
  })

  test('stations in a hole are joined where the rule asks; core and chips are kept apart', () => {
    const core = (from: number, to: number, support: Station['support'] = 'core') =>
      station(String(from), { support, hole: 'H1', from, to, scans: [] })
    const holes: SurfaceInput = {
      ...input,
      placement: placement([
        core(0, 1.5),
        core(1.5, 2.5),
        core(2.5, 4),
        core(0, 2, 'chips'),
        core(8, 8.9),
        station('7'),
      ]),
      columns: [
        {
          rule: { name: 'Cu', formula: '1', unit: '%' },
          needsScan: true,
          scans: [],
          stations: [2, 4, 1, 9, 7, 3].map((value) => ({ value, error: 0.1 })),
        },
      ],
    }
    const found = surfacePoints(
      { name: 's', value: 'Cu', method: 'kriging', composite: 2, support: ['core', 'chips'] },
      holes,
    )
    if ('failure' in found) throw new Error(found.failure)
    expect([...found.points.value]).toEqual([2.5, 1.75, 9])
    expect(found.stations).toEqual([[0, 1], [1, 2], [3]])
    expect(found.partial).toBe(1)
    // Places 0 and 15 at three quarters and one quarter of the first.
    expect(found.points.x[0]).toBeCloseTo(0.25 * 15, 12)
    expect(found.points.error?.[0]).toBeCloseTo(0.1 * Math.hypot(0.75, 0.25), 12)
  })

  test.each<[Partial<SurfaceRule>, RegExp]>([
    [{ group: 'alunit' }, /group ‘alunit’/],
    [{ group: undefined, class: 'c' }, /class ‘c’/],
    [{ group: undefined, value: 'none' }, /no working index ‘none’/],
  ])('%j names nothing, and says so', (change, why) => {
    expect(() => pointsOf(change)).toThrow(why)
  })
})
