import { describe, expect, test } from 'vitest'
import {
  compareNatural,
  foldedName,
  naturalKey,
  nearestNames,
  stemOf,
  stemsOf,
} from '../../src/places/names'

describe('names', () => {
  test.each([
    'AB012_1',
    'AB012-a',
    'AB012.003',
    'AB012 (2)',
    'AB012a',
    'AB012_rep2',
    'AB01200003',
    'AB012_a_003',
    'AB012.txt',
    'AB012_00003.asc',
  ])('%s is of AB012', (name) => {
    expect(stemsOf(name)).toContain('AB012')
  })

  test('a stem keeps what is no replicate ending', () => {
    expect(stemOf('C01_2')).toBe('C01')
    expect(stemOf('AB012')).toBe('AB012')
    expect(stemOf('7')).toBe('7')
    expect(stemOf('spot00012')).toBe('spot')
    expect(stemOf('00012')).toBe('')
    expect(stemsOf('_1')).toEqual([])
  })

  test('case, composed letters and blanks aside', () => {
    expect(foldedName(' N\u0303a  01 ')).toBe(foldedName('Ña 01'))
  })

  test('natural order counts', () => {
    const names = ['A10', 'A2', 'a1', 'A02', 'B1', 'A', '10', '9', 'A2b']
    const sorted = names.map(naturalKey).sort(compareNatural)
    expect(sorted.map(({ name }) => name)).toEqual([
      '9',
      '10',
      'A',
      'a1',
      'A02',
      'A2',
      'A2b',
      'A10',
      'B1',
    ])
  })

  test('nearest names are near', () => {
    expect(nearestNames('C99', ['C09', 'C19', 'X1', 'C98', 'Quarry'])).toEqual([
      'C09',
      'C19',
      'C98',
    ])
    expect(nearestNames('quary', ['C09', 'Quarry'])).toEqual(['Quarry'])
    // A zero within a number is no leading one: A15 is another sample.
    expect(nearestNames('A105', ['A15', 'A106'])).toEqual(['A106', 'A15'])
    expect(nearestNames('A-005', ['A15', 'A5'])[0]).toBe('A5')
    expect(nearestNames('zzz', ['C09'])).toEqual([])
    expect(nearestNames('m 7', ['M 1', 'M 2', 'M 3', 'M 8', 'M7'])[0]).toBe('M7')
    expect(nearestNames('AB-012', ['AB 002', 'AB12', 'AB-013'])[0]).toBe('AB12')
  })
})
