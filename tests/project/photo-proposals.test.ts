/** Which station a photo that came with the scans is proposed for. */
import { expect, test } from 'vitest'
import type { Placement } from '../../src/places/place-scans'
import { proposePhotos, type LoosePhoto } from '../../src/project/photo-proposals'
import type { ScanHead } from '../../src/project/project'
import { readExif } from '../../src/readers/exif'

const NOTHING = readExif(null)
const at = (longitude: number, latitude: number) => ({ longitude, latitude })

/** Stations RC-3, RC-12 and Lone, 0.001° of latitude (111 m) apart; the scans an hour apart. */
function field(zoneStated: boolean) {
  const names = ['RC-3', 'RC-12', 'Lone']
  const stations = names.map((name, i) => ({
    name,
    hole: null,
    scans: [i],
    position: at(-69.2, -24.9 - 0.001 * i),
  }))
  const heads = names.map((name, i) => ({
    name: `${name}_1`,
    file: `${name}.txt`,
    known: { time: { seconds: Date.UTC(2024, 4, 7, 14 + i) / 1000, zoneStated } },
  }))
  return {
    placement: { stations, scans: names.map((_, station) => ({ station })) } as never as Placement,
    heads: heads as never as ScanHead[],
  }
}

const propose = (photo: Partial<LoosePhoto['exif']>, path = 'IMG_2024.jpg', zoneStated = false) => {
  const { placement, heads } = field(zoneStated)
  const [found] = proposePhotos([{ path, exif: { ...NOTHING, ...photo } }], placement, heads)
  return found === undefined ? 'none' : `${placement.stations[found.station].name}: ${found.why}`
}

test.each([
  ['day 1/rc-3.JPG', 'RC-3: its name fits RC-3'],
  ['RC-12_2.jpg', 'RC-12: its name fits RC-12'],
  ['RC-12_1.jpg', 'RC-12: its name fits RC-12'],
  ['2024-05-07 RC-3 east wall.jpg', 'RC-3: its name fits RC-3'],
  ['photos/RC-12/IMG_0001.jpg', 'RC-12: its name fits RC-12'],
  // RC-31 is another station; 12 alone is a counter.
  ['RC-31 wall.jpg', 'none'],
  ['IMG_12.jpg', 'none'],
  ['alone on the wall.jpg', 'none'],
])('%s by its name: %s', (path, expected) => {
  expect(propose({}, path)).toBe(expected)
})

test('by where the camera was, as far as receivers can be off', () => {
  // 0.0002° of latitude are 22 m, on the sphere of 6,371 km.
  expect(propose(at(-69.2, -24.9008))).toBe('RC-12: taken 22 m from RC-12')
  expect(propose(at(-69.2, -24.9005))).toBe('none')
  expect(propose({ ...at(-69.2, -24.90045), accuracy: 25 })).toBe('RC-3: taken 50 m from RC-3')
})

test('a name is doubted where the camera was far off', () => {
  expect(propose(at(-69.2, -24.8), 'RC-3.jpg')).toBe(
    'RC-3: its name fits RC-3, but its camera says 11.1 km away',
  )
})

test('by the time beside a scan, only where both clocks mean the same', () => {
  const near = { taken: '2024-05-07T15:04:00' }
  expect(propose(near)).toBe('RC-12: taken 4 min after a scan of RC-12, by the two clocks')
  // Scans in UTC: the camera's local time tells nothing until its zone is known.
  expect(propose(near, 'x.jpg', true)).toBe('none')
  expect(propose({ ...near, zone: -3600 }, 'x.jpg', true)).toBe(
    'Lone: taken 4 min after a scan of Lone, by the two clocks',
  )
  expect(propose({ gpsSeconds: Date.UTC(2024, 4, 7, 13, 57) / 1000 }, 'x.jpg', true)).toBe(
    'RC-3: taken 3 min before a scan of RC-3, by the two clocks',
  )
  expect(propose({ taken: '2024-05-07T15:30:00' })).toBe('none')
})
