/** Known fields by the spellings in use, and times. Seconds are GNU date's (`date -u -d … +%s`). */
import { describe, expect, test } from 'vitest'
import { recognise } from '../../src/readers/recognise'
import { parseMoment } from '../../src/readers/time'

test('spellings', () => {
  const known = recognise({
    'Sample ID': 'A12',
    'GPS Latitude': '23°30.5′ S',
    LONG: '-69.25',
    UTM_Easting: '350000',
    'Northing (m)': '7400000',
    'UTM zone': '19S',
    Datum: 'WGS 84',
    HoleID: 'DH1',
    depth_from: '10,5',
    'To (ft)': '100',
    Operator: 'nobody',
    'Integration time (ms)': '136',
    Notes: 'wet',
    unknown: 'kept elsewhere',
  })
  expect(known).toMatchObject({
    sample: 'A12',
    name: null,
    latitudeText: '23°30.5′ S',
    longitudeText: '-69.25',
    eastingText: '350000',
    northingText: '7400000',
    crsText: 'WGS 84 UTM zone 19S',
    hole: 'DH1',
    from: 10.5,
    operator: 'nobody',
    integration: '136',
    comment: 'wet',
  })
  expect(known.to).toBeCloseTo(30.48, 9)
})

describe('times', () => {
  test.each([
    ['2024-05-06T11:43:15Z', 1714995795, true],
    ['2024-05-06T11:43:15-04:00', 1715010195, true],
    ['2024-05-06 11:43:15 +0530', 1714975995, true],
    ['20240506T114315Z', 1714995795, true],
    ['2024-05-06 11:43:15', 1714995795, false],
    ['06.05.2024 11:43', 1714995780, false],
    ['16/05/2024 11:43:15', 1715859795, false],
    ['05/16/2024 11:43:15 PM', 1715902995, false],
    ['Mon May 06 11:43:15 2024', 1714995795, false],
    ['6 May 2024 12:00:00 am', 1714953600, false],
    ['2024-05-06 11:43:15.5', 1714995795.5, false],
  ])('%s', (text, seconds, zoneStated) => {
    expect(parseMoment(text)).toEqual({ seconds, zoneStated })
  })

  test('day and month are not guessed', () => {
    expect(parseMoment('05/06/2024 11:43')).toBeNull()
    expect(parseMoment('05/06/2024 11:43', 'month first')?.seconds).toBe(1714995780)
    expect(parseMoment('05/06/2024 11:43', 'day first')?.seconds).toBe(1717587780)
  })

  test.each([
    '',
    'morning',
    '2024-13-06 11:43',
    '2024-02-30 11:43',
    '2024-05-06',
    '11:43',
    '2024-05-06 25:00',
  ])('%j is no moment', (text) => expect(parseMoment(text)).toBeNull())

  test('date, time and zone in three fields; the white reference on the same day', () => {
    const known = recognise({
      Date: '2024-05-06',
      Time: '11:43:15',
      'Time zone': '+02:00',
      'White reference time': '11:30:00',
    })
    expect(known.time).toEqual({ seconds: 1714988595, zoneStated: true })
    expect(known.whiteReference).toEqual({ seconds: 1714995000 - 7200, zoneStated: true })
    const weekday = { Time: 'Mon May 06 11:43:15 2024', 'White reference': '11:30' }
    expect(recognise(weekday).whiteReference?.seconds).toBe(1714995000)
  })

  test('a white reference whose own date cannot be told is not on the scan’s day', () => {
    const known = recognise({ Time: '2024-08-01 10:00', 'White reference': '05/06/2024 9:50' })
    expect(known.whiteReference).toBeNull()
    expect(known.whiteReferenceText).toBe('05/06/2024 9:50')
  })
})
