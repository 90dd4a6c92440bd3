/** What is drawn over a photo, and what is typed and dragged on it. */
import { expect, test } from 'vitest'
import type { Photo } from '../../src/project/photos'
import { directionWords, lengthWords, photoBar, spotPart } from '../../src/views/photos/marks'
import { markShapes } from '../../src/views/photos/mark-shapes'
import {
  diameterOf,
  draftOf,
  inside,
  movedByKey,
  photoOf,
} from '../../src/views/photos/photo-draft'

/** A metre of tape lies across half of its width: 2 m, of 1000 pixels. */
const photo: Photo = {
  file: 'a.jpg',
  sha256: 'ab'.repeat(32),
  width: 1000,
  height: 500,
  caption: 'face',
  direction: { azimuth: 223.5, north: 'magnetic' },
  scale: { from: [0.25, 0.5], to: [0.75, 0.5], millimetres: 1000 },
  spots: [{ at: [0.5, 0.5], scan: 's', millimetres: 20 }],
}

test('the bar is a round length that fits, and a spot as wide as its probe', () => {
  expect(photoBar(photo)).toEqual({ part: 0.25, words: '50 cm' })
  expect(spotPart(photo, 20)).toBeCloseTo(0.01, 12)
  expect(photoBar({ ...photo, scale: undefined })).toBeNull()
  expect(spotPart({ ...photo, scale: undefined }, 20)).toBeNull()
})

test('what is drawn into a picture stands where it was marked, in its pixels', () => {
  const shapes = markShapes({ ...photo, taken: '2024-05-07T16:05:12' }, 'RC-1')
  expect(shapes.map(({ kind }) => kind)).toEqual(['words', 'line', 'words', 'bar', 'ring', 'words'])
  expect(shapes[0]).toMatchObject({
    text: 'RC-1; 2024-05-07 16:05; looks SW, 224° from magnetic north, declination not stated',
  })
  expect(shapes[1]).toEqual({ kind: 'line', from: [250, 250], to: [750, 250] })
  expect(shapes[2]).toMatchObject({ text: '1 m' })
  // A tape of 1 m over 500 pixels: 50 cm are 250, and a probe of 20 mm is 10 across.
  expect(shapes[3]).toMatchObject({ length: 250, words: '50 cm' })
  expect(shapes[4]).toEqual({ kind: 'ring', x: 500, y: 250, radius: 5 })
  const right = { ...photo, scale: undefined, spots: [{ at: [0.9, 0.5], scan: 's' }] } as const
  expect(markShapes(right, 'RC-1').at(-1)).toMatchObject({ text: 's', align: 'right' })
})

test('lengths and directions in words', () => {
  expect([0.5, 9, 10, 250, 2000, 5e6].map(lengthWords)).toEqual([
    '0.5 mm',
    '9 mm',
    '1 cm',
    '25 cm',
    '2 m',
    '5 km',
  ])
  expect(directionWords(photo)).toBe('looks SW, 224° from magnetic north, declination not stated')
  const stated = { azimuth: 359, north: 'magnetic', declination: 3 } as const
  expect(directionWords({ ...photo, direction: stated })).toBe('looks N, 2° from true north')
})

test('a draft that is not touched gives the photo back', () => {
  expect(photoOf(photo, draftOf(photo))).toEqual(photo)
})

test('what cannot be kept says what it wants', () => {
  const changed = (change: Partial<ReturnType<typeof draftOf>>) =>
    photoOf(photo, { ...draftOf(photo), ...change })
  expect(changed({ azimuth: '400' })).toBe('The direction is 0 to 360 degrees.')
  expect(changed({ declination: 'east' })).toMatch(/declination is in degrees/)
  const scale = { from: [0, 0], to: [1, 1], length: '', unit: 'cm' } as never
  expect(changed({ scale })).toMatch(/how long it is/)
  expect(changed({ spots: [{ at: [0, 0], scan: '', millimetres: 'x' }] })).toMatch(/diameter/)
  expect(changed({ azimuth: ' ', scale: null, spots: [] })).toEqual({
    file: photo.file,
    sha256: photo.sha256,
    width: 1000,
    height: 500,
    caption: 'face',
    spots: [],
  })
  expect(changed({ azimuth: '12,5', north: 'true' })).toMatchObject({
    direction: { azimuth: 12.5, north: 'true' },
  })
})

test('the probe’s diameter is read where it is one', () => {
  expect(['10 mm', '2 cm', '4.5', '3 × 5 mm', null].map(diameterOf)).toEqual([
    '10',
    '20',
    '4.5',
    '',
    '',
  ])
})

test('keys move a point within the picture', () => {
  expect(movedByKey([0.5, 0.5], 'ArrowRight', false)).toEqual([0.51, 0.5])
  expect(movedByKey([0.5, 0.5], 'ArrowUp', true)).toEqual([0.5, 0.499])
  expect(movedByKey([0, 0.5], 'ArrowLeft', false)).toEqual([0, 0.5])
  expect(movedByKey([0.5, 0.5], 'Enter', false)).toBeNull()
  expect([inside(-1), inside(0.33333), inside(2)]).toEqual([0, 0.3333, 1])
})
