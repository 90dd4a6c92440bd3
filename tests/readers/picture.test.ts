/**
 * Photographs: what ExifTool 12.57 reads in pictures that Pillow 12.3 and ExifTool wrote
 * (tests/oracles/pictures.py), and that damage is never believed or thrown.
 */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readExif } from '../../src/readers/exif'
import { pictureHead, type PictureHead } from '../../src/readers/picture'
import { corrupted, corruptions } from './corruption'
import pictures from './pictures.json'

const bytesOf = (base64: string) => new Uint8Array(Buffer.from(base64, 'base64'))
const ALL = pictures.map(({ name, said, base64 }) => ({
  name,
  said: said as Readonly<Record<string, string | number | undefined>>,
  bytes: bytesOf(base64),
}))

const headOf = (bytes: Uint8Array): PictureHead => {
  const head = pictureHead(bytes)
  if (typeof head === 'string') throw new Error(head)
  return head
}

/** `2024:05:07 16:05:12` as ISO 8601. */
const iso = (text: string | number | undefined) =>
  text === undefined ? null : String(text).replace(/^(\d+):(\d+):(\d+) /, '$1-$2-$3T')

describe.each(ALL)('$name', ({ said, bytes }) => {
  test('has the size that ExifTool reads', () => {
    const { width, height } = headOf(bytes)
    expect([width, height]).toEqual([said.ImageWidth, said.ImageHeight])
  })

  test('says what ExifTool reads', () => {
    const exif = readExif(headOf(bytes).exif)
    expect(exif.taken).toBe(iso(said.DateTimeOriginal))
    expect(exif.orientation).toBe(said.Orientation ?? null)
    expect(exif.accuracy).toBe(said.GPSHPositioningError ?? null)
    for (const [mine, theirs] of [
      [exif.latitude, said.GPSLatitude],
      [exif.longitude, said.GPSLongitude],
      [exif.direction?.azimuth, said.GPSImgDirection],
    ]) {
      if (theirs === undefined) expect(mine ?? null).toBeNull()
      else expect(mine).toBeCloseTo(Number(theirs), 9)
    }
    const north = { T: 'true', M: 'magnetic' }[String(said.GPSImgDirectionRef)]
    expect(exif.direction?.north).toBe(north)
    const zone = said.OffsetTimeOriginal === undefined ? null : -4 * 3600
    expect(exif.zone).toBe(zone)
    const gps = iso(said.GPSDateTime)
    expect(exif.gpsSeconds).toBe(gps === null ? null : Date.parse(gps) / 1000)
  })
})

test('what is no picture that a browser draws is told apart, with what to do', () => {
  const text = (words: string) => new TextEncoder().encode(words)
  expect(pictureHead(text('....ftypheic........'))).toMatch(
    /^a HEIC picture, as many phones take them, .* save or send it as JPEG and add that/,
  )
  expect(pictureHead(text('....ftypavif........'))).toMatch(/^an AVIF picture .* save it as JPEG/)
  expect(pictureHead(text('GIF89a'))).toMatch(/neither JPEG, PNG nor WebP/)
  expect(pictureHead(new Uint8Array())).toMatch(/neither/)
})

test('a picture that would fill the memory is refused by its header', () => {
  const png = ALL.find(({ name }) => name === 'stone.png')?.bytes.slice() ?? new Uint8Array()
  const view = new DataView(png.buffer)
  view.setUint32(16, 25_000)
  view.setUint32(20, 25_000)
  expect(pictureHead(png)).toMatch(/25000 × 25000 pixels, more than 200 million/)
})

test('a directory that points at itself, or outside, ends', () => {
  // Big-endian; one entry, the pointer to the GPS directory, which leads back to the first.
  const loop = Uint8Array.of(
    ...[0x4d, 0x4d, 0, 42, 0, 0, 0, 8, 0, 1],
    ...[0x88, 0x25, 0, 4, 0, 0, 0, 1, 0, 0, 0, 8, 0, 0, 0, 0],
  )
  expect(readExif(loop)).toEqual(readExif(null))
  const outside = loop.slice()
  outside.set([0xff, 0xff, 0xff, 0xf0], 4)
  expect(readExif(outside)).toEqual(readExif(null))
})

test('places and directions that cannot be are nothing said', () => {
  const bytes = ALL[0].bytes
  const tiff = headOf(bytes).exif?.slice() ?? new Uint8Array()
  // 24 degrees as a rational become 240: no latitude.
  const at = tiff.findIndex(
    (byte, i) => byte === 24 && tiff[i + 1] === 0 && tiff[i + 4] === 1 && tiff[i + 5] === 0,
  )
  tiff[at] = 240
  const exif = readExif(tiff)
  expect([exif.latitude, exif.longitude, exif.accuracy]).toEqual([null, null, null])
  expect(exif.taken).toBe('2024-05-07T16:05:12')
})

test('damaged pictures never throw, and what is believed lies within bounds', () => {
  fc.assert(
    fc.property(fc.constantFrom(...ALL), corruptions, ({ bytes }, edits) => {
      const head = pictureHead(corrupted(bytes, edits))
      if (typeof head === 'string') return
      expect(head.width * head.height).toBeLessThanOrEqual(200e6)
      const exif = readExif(head.exif)
      expect(Math.abs(exif.latitude ?? 0)).toBeLessThanOrEqual(90)
      expect(Math.abs(exif.longitude ?? 0)).toBeLessThanOrEqual(180)
      expect(exif.direction?.azimuth ?? 0).toBeGreaterThanOrEqual(0)
      expect(exif.direction?.azimuth ?? 0).toBeLessThan(360)
    }),
    { numRuns: Number(process.env.AUREOLE_CORRUPTIONS ?? 1000), seed: 20 },
  )
})
