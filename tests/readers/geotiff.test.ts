/** GeoTIFF files made to harm: written here byte by byte after TIFF 6.0 and OGC 19-008r4. */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { zlibSync } from 'fflate'
import { expect, test } from 'vitest'
import { unpackLzw } from '../../src/readers/lzw'
import { hasGdal } from '../layers/outside'
import { firstBand, openGeotiff } from '../../src/readers/geotiff'

interface Made {
  readonly width?: number
  readonly height?: number
  readonly rowsPerStrip?: number
  /** Side of its one tile; a strip where absent. */
  readonly tile?: number
  readonly compression?: number
  readonly samples?: number
  /** Of the one strip. */
  readonly body?: Uint8Array
  readonly epsg?: number
}

const [SHORT, LONG, DOUBLE] = [3, 4, 12]

/** A little-endian TIFF of one strip of Float32, 10 m cells with the corner at 400000, 7000000. */
function tiffOf({
  width = 4,
  height = 4,
  rowsPerStrip = height,
  tile,
  compression = 1,
  samples = 1,
  body = new Uint8Array(64),
  epsg = 32719,
}: Made): { path: string; bytes: Uint8Array } {
  const scale = new Uint8Array(new Float64Array([10, 10, 0]).buffer)
  const tie = new Uint8Array(new Float64Array([0, 0, 0, 400_000, 7_000_000, 0]).buffer)
  const keys = [1, 1, 0, 3, 1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, epsg]
  const geo = new Uint8Array(new Uint16Array(keys).buffer)
  const at = { scale: 8, tie: 32, geo: 80, body: 112 }
  const directory = 112 + body.length + (body.length % 2)
  const entries: (readonly [tag: number, type: number, count: number, value: number])[] = [
    [256, LONG, 1, width],
    [257, LONG, 1, height],
    [258, SHORT, 1, 32],
    [259, SHORT, 1, compression],
    ...(tile === undefined ? ([[273, LONG, 1, at.body]] as const) : []),
    [277, SHORT, 1, samples],
    ...(tile === undefined
      ? ([
          [278, LONG, 1, rowsPerStrip],
          [279, LONG, 1, body.length],
        ] as const)
      : ([
          [322, LONG, 1, tile],
          [323, LONG, 1, tile],
          [324, LONG, 1, at.body],
          [325, LONG, 1, body.length],
        ] as const)),
    [339, SHORT, 1, 3],
    [33550, DOUBLE, 3, at.scale],
    [33922, DOUBLE, 6, at.tie],
    [34735, SHORT, 16, at.geo],
  ]
  const bytes = new Uint8Array(directory + 2 + 12 * entries.length + 4)
  const view = new DataView(bytes.buffer)
  bytes.set([0x49, 0x49, 42, 0])
  view.setUint32(4, directory, true)
  bytes.set(scale, at.scale)
  bytes.set(tie, at.tie)
  bytes.set(geo, at.geo)
  bytes.set(body, at.body)
  view.setUint16(directory, entries.length, true)
  entries.forEach(([tag, type, count, value], i) => {
    const entry = directory + 2 + 12 * i
    view.setUint16(entry, tag, true)
    view.setUint16(entry + 2, type, true)
    view.setUint32(entry + 4, count, true)
    view.setUint32(entry + 8, value, true)
  })
  return { path: 'ground/made.tif', bytes }
}

const MOST = 1_000_000
const heights = new Uint8Array(Float32Array.from({ length: 16 }, (_, i) => i).buffer)

test('a plain and a deflated one are read', async () => {
  // RowsPerStrip of 2^32 - 1 means one strip (TIFF 6.0).
  const deflated = { body: zlibSync(heights), compression: 8, rowsPerStrip: 2 ** 32 - 1 }
  for (const made of [{ body: heights }, deflated]) {
    const { image, crs } = await openGeotiff(tiffOf(made), MOST)
    expect(crs).toBe('EPSG:32719')
    expect(Array.from(await firstBand('made.tif', image))).toEqual(
      Array.from({ length: 16 }, (_, i) => i),
    )
  }
})

test.each<[what: string, made: Made, why: RegExp]>([
  ['too many cells', { width: 4_000_000, height: 4_000_000 }, /4000000 by 4000000 cells; clip it/],
  ['no cells', { width: 0 }, /no cells/],
  ['an absurd strip', { rowsPerStrip: 4_000_000_000, height: 4, width: 1_000_000 }, /cells/],
  ['an absurd tile', { tile: 60_000 }, /takes 14400 MB unpacked; save its heights alone/],
  ['JPEG within', { compression: 7 }, /packed by method 7, which is not read; save it with/],
  ['no CRS', { epsg: 32_767 }, /does not say its EPSG code/],
])('refuses %s', async (_, made, why) => {
  await expect(openGeotiff(tiffOf(made), MOST)).rejects.toThrow(why)
  await expect(openGeotiff(tiffOf(made), MOST)).rejects.toThrow(/ground\/made\.tif/)
})

test('a deflated strip that unpacks to more than its rows is stopped and told', async () => {
  const body = zlibSync(new Uint8Array(60_000_000), { level: 9 })
  const { image } = await openGeotiff(tiffOf({ body, compression: 8 }), MOST)
  await expect(firstBand('made.tif', image)).rejects.toThrow(
    /made\.tif is damaged \(a block unpacks to more than it may hold\); copy it again/,
  )
})

/** Codes of nine to twelve bits, the highest bit first, as a decoder expects them to grow. */
function packedCodes(codes: readonly number[]): Uint8Array {
  let text = ''
  let next = 258
  codes.forEach((code, i) => {
    if (i > 2 && next < 4096) next++
    const bits = next + 1 >= 2048 ? 12 : next + 1 >= 1024 ? 11 : next + 1 >= 512 ? 10 : 9
    text += code.toString(2).padStart(bits, '0')
  })
  const bytes = text.padEnd(8 * Math.ceil(text.length / 8), '0').match(/.{8}/g) ?? []
  return Uint8Array.from(bytes, (byte) => parseInt(byte, 2))
}

test('the worked example of LZW in TIFF 6.0, section 13 (from memory)', () => {
  const codes = packedCodes([256, 7, 258, 8, 8, 258, 6, 6, 257])
  expect([...unpackLzw(codes, 9)]).toEqual([7, 7, 7, 8, 8, 7, 7, 6, 6])
  expect(() => unpackLzw(codes, 8)).toThrow(/unpacks to more than it may hold/)
  expect(() => unpackLzw(packedCodes([256, 7, 300]), 99)).toThrow(/stands for nothing/)
})

test('an LZW strip in which every code is the longest yet is stopped and told', async () => {
  // Each code stands for one byte more than the one before: 5 kB are 7 million bytes.
  const codes = [256, 0, ...Array.from({ length: 3800 }, (_, i) => 258 + i)]
  const body = packedCodes(codes)
  expect(unpackLzw(body, 1e8).length).toBe((3801 * 3802) / 2)
  const { image } = await openGeotiff(tiffOf({ body, compression: 5 }), MOST)
  await expect(firstBand('made.tif', image)).rejects.toThrow(/unpacks to more than it may hold/)
})

test.skipIf(!hasGdal)('LZW is read as GDAL writes it', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'lzw-'))
  try {
    // Runs and noise, so that tables fill and are cleared.
    const values = Float32Array.from({ length: 40_000 }, (_, i) =>
      i % 7 < 5 ? 3 : Math.fround(1000 * Math.sin(i * i)),
    )
    const made = tiffOf({ width: 200, height: 200, body: new Uint8Array(values.buffer) })
    writeFileSync(join(folder, 'plain.tif'), made.bytes)
    for (const more of [[], ['-co', 'PREDICTOR=3'], ['-co', 'TILED=YES']]) {
      const options = ['-q', '-co', 'COMPRESS=LZW', ...more, 'plain.tif', 'lzw.tif']
      execFileSync('gdal_translate', options, { cwd: folder })
      const bytes = new Uint8Array(readFileSync(join(folder, 'lzw.tif')))
      const { image } = await openGeotiff({ path: 'lzw.tif', bytes }, MOST)
      expect(Float32Array.from(await firstBand('lzw.tif', image))).toEqual(values)
    }
  } finally {
    rmSync(folder, { recursive: true })
  }
})

test('every way of cutting a file short ends in words or in its values', async () => {
  const { path, bytes } = tiffOf({ body: zlibSync(heights), compression: 8 })
  for (let length = 0; length < bytes.length; length += 3) {
    const read = openGeotiff({ path, bytes: bytes.slice(0, length) }, MOST).then(({ image }) =>
      firstBand(path, image),
    )
    await expect(read, String(length)).rejects.toThrow(/ground\/made\.tif/)
  }
})
