/** What a new class or index begins from: rules that the formula language takes as they are. */
import { describe, expect, test } from 'vitest'
import { compileClasses } from '../../src/classes/classify'
import type { Cell, Station } from '../../src/places/station'
import {
  numberColumns,
  ofGroup,
  ofIndex,
  ofNumbers,
  ofRecords,
  ofTexts,
  unitOf,
} from '../../src/views/classes/beginnings'
import { KNOWN } from '../indices/sample'

const station = (columns: Record<string, Cell>): Station => ({
  name: 'S',
  support: 'outcrop',
  position: { easting: 0, northing: 0, elevation: null, longitude: 0, latitude: 0, error: null },
  placedBy: 'table',
  hole: null,
  from: null,
  to: null,
  columns,
  scans: [],
})

describe('classes of columns', () => {
  const stations = [
    station({ 'Cu "total"': 100, rock: 'dacite', Au: '<5', note: 'a' }),
    station({ 'Cu "total"': 300, rock: 'tuff', Au: 7, note: 'b' }),
    station({ 'Cu "total"': 200, rock: 'dacite', Au: '<5', note: 'c' }),
  ]

  test('numbers begin at their median', () => {
    const [[heading, values]] = [...numberColumns(stations)]
    expect(ofNumbers(heading, values)).toEqual({
      name: 'high Cu "total"',
      when: 'column("Cu \\"total\\"") >= 200',
    })
  })

  test('texts that repeat are classes; remarks, and texts among numbers, are not', () => {
    expect(ofTexts(stations)).toEqual([
      { name: 'dacite', when: 'column("rock") = "dacite"' },
      { name: 'tuff', when: 'column("rock") = "tuff"' },
    ])
  })

  test('what was recorded at stations begins classes: words, minerals seen or not, angles', () => {
    const cells: Record<string, Cell>[] = [
      { lithology: 'tuff', veins: 'looked, none seen', 'seen pyrite': 'no', dip: 60, note: 'n' },
      { lithology: 'tuff', veins: null, 'seen pyrite': 'yes', dip: 80, sample_ticket: 'T1' },
    ]
    expect(ofRecords(cells)).toEqual([
      { name: 'lithology: tuff', when: 'column("lithology") = "tuff"' },
      { name: 'no pyrite seen', when: 'column("seen pyrite") = "no"' },
      { name: 'pyrite seen', when: 'column("seen pyrite") = "yes"' },
      { name: 'veins: looked, none seen', when: 'column("veins") = "looked, none seen"' },
      { name: 'high dip', when: 'column("dip") >= 80' },
    ])
  })

  test('every rule compiles', () => {
    const heads = ['Cu "total"', 'rock']
    const rules = [
      ofGroup('white mica'),
      ofIndex('odd ] name', [2200, 2210, 2205]),
      ofNumbers(heads[0], [1]),
      ...ofTexts(stations),
    ].map((beginning) => ({ ...beginning, colour: '#000000', symbol: 'circle' as const }))
    const set = compileClasses(rules, {
      ...KNOWN,
      groups: ['white mica'],
      indices: ['odd ] name'],
      columns: heads,
    })
    expect(set.errors).toEqual([])
  })
})

test('a unit is what a heading ends in', () => {
  expect(['Cu_ppm', 'Au (ppb)', 'S pct', 'Au_g/t', 'appm', 'Litologia'].map(unitOf)).toEqual([
    'ppm',
    'ppb',
    '%',
    'g/t',
    '',
    '',
  ])
})
