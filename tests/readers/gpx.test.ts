/** GPX 1.1: tracks a segment each, waypoints as a table, and what is refused. */
import { expect, test } from 'vitest'
import { readTextOf } from './spectra'

const fix = (lat: number, lon: number, time: string): string =>
  `<trkpt lat="${lat}" lon="${lon}"><ele>12.5</ele><time>${time}</time></trkpt>`
const gpx = (inner: string): string =>
  `<?xml version="1.0" encoding="UTF-8"?>\n<gpx version="1.1" creator="a test" xmlns="http://www.topografix.com/GPX/1/1">\n${inner}\n</gpx>`

test('a track with two segments', () => {
  const first =
    fix(-23, -69, '2024-05-06T10:00:00Z') + fix(-23.001, -69, '2024-05-06T10:01:00+00:00')
  const second = fix(-23.01, -69.01, '2024-05-06T11:00:00.5Z')
  const inner = `<trk><name>day 1 &amp; 2</name><trkseg>${first}</trkseg><trkseg>${second}</trkseg></trk>`
  const { kind, tracks, problems } = readTextOf(gpx(inner))
  expect(kind).toBe('track')
  expect(problems).toEqual([])
  expect(tracks.map((track) => track.name)).toEqual(['day 1 & 2', 'day 1 & 2'])
  // 2024-05-06T10:00:00Z is 1714989600 (GNU date).
  expect(Array.from(tracks[0].times)).toEqual([1714989600, 1714989660])
  expect(Array.from(tracks[1].times)).toEqual([1714993200.5])
  expect(tracks[0].latitudes[1]).toBe(-23.001)
  expect(tracks[0].elevations[0]).toBe(12.5)
})

test('waypoints are a table', () => {
  const { kind, tables } = readTextOf(gpx('<wpt lat="-23.5" lon="-69.25"><name>A1</name></wpt>'))
  expect(kind).toBe('table')
  expect(tables[0].rows[0].slice(0, 3)).toEqual(['A1', '-23.5', '-69.25'])
  expect(tables[0].lines).toEqual([3])
})

test('fixes without a time are told of', () => {
  const { tracks, problems } = readTextOf(
    gpx('<trk><trkseg><trkpt lat="1" lon="2"/></trkseg></trk>'),
  )
  expect(tracks).toEqual([])
  expect(problems[0].problem).toMatch(/1 of 1 fixes .* no time/)
})

test.each([
  [
    'a document type',
    '<?xml version="1.0"?><!DOCTYPE gpx [<!ENTITY a "aaaa">]><gpx>&a;</gpx>',
    /document type/,
  ],
  ['depth', gpx('<a>'.repeat(50_000) + '</a>'.repeat(50_000)), /nested deeper/],
  ['other XML', '<?xml version="1.0"?><notes></notes>', /not GPX/],
  ['KML', '<?xml version="1.0"?><kml></kml>', /^KML/],
  ['a spreadsheet', '<?xml version="1.0"?><Workbook></Workbook>', /spreadsheet/],
  ['a cut file', gpx('<trk><trkseg>').slice(0, -10), /XML|GPX/],
])('refuses %s', (_, text, reason) => {
  const { tracks, tables, problems } = readTextOf(text)
  expect([...tracks, ...tables]).toEqual([])
  expect(problems[0].problem).toMatch(reason)
})
