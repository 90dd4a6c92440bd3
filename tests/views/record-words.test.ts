/** A station's record in few words. */
import { expect, test } from 'vitest'
import { NO_RECORD } from '../../src/project/station-record'
import { measuredWords, recordSummary } from '../../src/views/drawer/record-words'

test('each word says what it is of', () => {
  const words = { lithology: 'tuff', veins: 'looked, none seen', cover: 'thin', note: 'n' }
  expect(recordSummary({ ...NO_RECORD, words, minerals: { pyrite: false } })).toBe(
    'tuff, veins: looked, none seen, cover thin, no pyrite',
  )
  expect(recordSummary({ ...NO_RECORD, words: { cover: 'none' } })).toBe('no cover')
  expect(recordSummary(NO_RECORD)).toBe('')
})

test('a structure tells what the compass read and the declination that was put in', () => {
  const plane = { what: 'joint', form: 'plane', dip: 62, dip_direction: 210 } as const
  expect(measuredWords({ ...plane, declination: -17 })).toBe(
    'joint 62° to 193° (compass 210°, declination 17° W)',
  )
  expect(measuredWords({ ...plane, declination: 0 })).toBe('joint 62° to 210°')
})
