/** Photos of a station: kept as decisions, refused where they make no sense, handed over. */
import { describe, expect, test } from 'vitest'
import {
  markedFiles,
  photoFiles,
  photosGeojson,
  type PhotoRow,
} from '../../src/layers/photos-geojson'
import { openCrs } from '../../src/places/crs'
import { parseDecisions, writeDecisions } from '../../src/project/decisions'
import { picturesWanted } from '../../src/project/photo-shelf'
import { directionLooked, millimetresPerPixel, type Photo } from '../../src/project/photos'
import { rfc7946Faults } from '../layers/rfc7946'

const SHA = 'ab'.repeat(32)
const photo: Photo = {
  file: 'IMG_0012.JPG',
  sha256: SHA,
  width: 2048,
  height: 1536,
  caption: 'vein in the east wall',
  taken: '2024-05-07T16:05:12',
  direction: { azimuth: 350, north: 'magnetic', declination: 15 },
  scale: { from: [0.1, 0.5], to: [0.4, 0.9], millimetres: 200 },
  spots: [{ at: [0.5, 0.25], scan: 'S1_1', millimetres: 10 }, { at: [0.1, 0.1] }],
  place: { longitude: -69.1, latitude: -24.1, accuracy: 4.7 },
}

const decisions = (photos: readonly object[], scan = 'a', station?: string) =>
  parseDecisions(
    JSON.stringify({
      decisions: 1,
      list: [
        {
          file: 'a.txt',
          scan,
          about: { kind: 'photos', photos, ...(station ? { station } : {}) },
          who: 'A. Tester',
          when: '2024-05-07T18:00:00Z',
          why: 'seen',
        },
      ],
    }),
  )

describe('as decisions', () => {
  test('come back as they were written', () => {
    const read = decisions([photo, { ...photo, direction: undefined, scale: undefined, spots: [] }])
    expect(read.list[0].about).toEqual({
      kind: 'photos',
      photos: [photo, expect.not.objectContaining({ scale: expect.anything() as unknown })],
    })
    expect(parseDecisions(writeDecisions(read))).toEqual(read)
  })

  test.each([
    [{ ...photo, file: 'C:\\pictures\\a.jpg' }, /file: a file’s name without its folder/],
    [{ ...photo, sha256: 'abc' }, /sha256: 64 hexadecimal digits/],
    [{ ...photo, width: 0 }, /width: 0 is not between 1/],
    [{ ...photo, caption: 'x'.repeat(301) }, /caption: longer than 300/],
    [{ ...photo, direction: { azimuth: 361, north: 'true' } }, /azimuth: 361/],
    [{ ...photo, direction: { azimuth: 3, north: 'grid' } }, /north: ‘grid’ is none of/],
    [{ ...photo, scale: { from: [0, 0], to: [0, 0], millimetres: 1 } }, /two points of a scale/],
    [{ ...photo, scale: { from: [0, 0], to: [1, 1], millimetres: 0 } }, /millimetres: 0/],
    [{ ...photo, spots: [{ at: [0.5, 1.5] }] }, /at: two numbers from 0 to 1/],
    [{ ...photo, place: { longitude: 181, latitude: 0 } }, /longitude: 181/],
    [{ ...photo, pixels: 'x' }, /pixels: no such key/],
  ])('%# are refused', (wrong, why) => {
    expect(() => decisions([wrong])).toThrow(why)
  })

  test('the pictures that are wanted are those of each station’s last word', () => {
    const other = { ...photo, sha256: 'cd'.repeat(32) }
    const list = [
      ...decisions([photo, other]).list,
      ...decisions([photo], '', 'S9').list,
      ...decisions([other]).list,
    ]
    expect([...picturesWanted({ decisions: 1, list })].sort()).toEqual([SHA, other.sha256])
    const gone = { decisions: 1 as const, list: decisions([]).list }
    expect(picturesWanted(gone).size).toBe(0)
  })
})

test('the scale is a length over its pixels', () => {
  // 0.3 of 2048 and 0.4 of 1536 are 614.4 and 614.4 pixels: 868.89 along the diagonal.
  expect(millimetresPerPixel(photo)).toBeCloseTo(200 / 868.8928, 7)
  expect(millimetresPerPixel({ ...photo, scale: undefined })).toBeNull()
})

test('a direction from magnetic north gets its declination, and is never called true without', () => {
  expect(directionLooked(photo)).toEqual({ azimuth: 5, north: 'true' })
  const unstated = { ...photo, direction: { azimuth: 350, north: 'magnetic' as const } }
  expect(directionLooked(unstated)).toEqual({ azimuth: 350, north: 'magnetic' })
})

describe('as a layer', () => {
  const row = (change: Partial<PhotoRow> = {}): PhotoRow => ({
    station: 'S1',
    photo: 'IMG_0012.JPG',
    sha256: SHA,
    isMarked: true,
    caption: 'a “vein”',
    taken: null,
    direction: { azimuth: 5, north: 'true' },
    width: 2048,
    height: 1536,
    millimetresPerPixel: 0.230178,
    spots: [
      { x: 1024, y: 384, scan: 'S1_1', millimetres: 10 },
      { x: 204.8, y: 153.6, scan: null, millimetres: null },
    ],
    place: [-69.1, -24.1],
    placeOf: 'camera',
    accuracy: 4.7,
    ...change,
  })

  test('each picture goes into one file, and pictures of one name into two', () => {
    const rows = [
      row(),
      row({ station: 'S2' }),
      row({ sha256: 'cd'.repeat(32), photo: 'img_0012.png' }),
      row({ sha256: 'ef'.repeat(32), photo: '../x?.jpg' }),
    ]
    expect([...photoFiles(rows).values()]).toEqual([
      'photos/IMG_0012.jpg',
      'photos/img_0012 2.jpg',
      'photos/___x_.jpg',
    ])
  })

  test('a copy with marks drawn in goes into a file of its own, one a photo', () => {
    const rows = [
      row(),
      row({ station: 'S2' }),
      row({ sha256: 'cd'.repeat(32), photo: 'plain.jpg', isMarked: false }),
      row({ sha256: 'ef'.repeat(32), photo: 'IMG_0012 marked.jpg' }),
    ]
    expect(markedFiles(rows)).toEqual([
      'photos/IMG_0012 marked 2.jpg',
      'photos/IMG_0012 marked 3.jpg',
      null,
      'photos/IMG_0012 marked marked.jpg',
    ])
  })

  test('is GeoJSON by the standard, with what is marked', () => {
    const rows = [row(), row({ place: null, direction: null, spots: [] })]
    const text = new TextDecoder().decode(photosGeojson(openCrs('EPSG:32719'), rows) ?? undefined)
    expect(rfc7946Faults(text)).toEqual([])
    const { features } = JSON.parse(text) as { features: { properties: object }[] }
    expect(features[0].properties).toEqual({
      station: 'S1',
      photo: 'IMG_0012.JPG',
      file: 'photos/IMG_0012.jpg',
      caption: 'a “vein”',
      taken: null,
      direction: 5,
      north: 'true',
      width: 2048,
      height: 1536,
      mm_per_pixel: 0.230178,
      spots: 2,
      spot_scans: 'S1_1; ',
      spot_x: '1024; 205',
      spot_y: '384; 154',
      spot_mm: '10; ',
      place_of: 'camera',
      place_error_m: 4.7,
      file_marked: 'photos/IMG_0012 marked.jpg',
    })
    expect(features[1]).toMatchObject({
      geometry: null,
      properties: { direction: null, north: null, spots: 0, spot_x: null, place_of: null },
    })
    expect(photosGeojson(openCrs('local:m'), rows)).toBeNull()
  })
})
