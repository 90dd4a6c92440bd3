/** Scans in blocks: what goes in comes out, and nothing that is kept ever changes. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  appendScans,
  BLOCK_SCANS,
  NO_SCANS,
  spectrumOf,
  withoutBlocks,
} from '../../src/spectra/scan-store'
import type { Spectrum } from '../../src/spectra/spectrum'

const AXES = [Float64Array.of(400, 500, 600), Float64Array.of(400, 500), Float64Array.of(400, 501)]

function scan(axis: number, value: number): Spectrum {
  const wavelengths = AXES[axis].slice()
  return { wavelengths, reflectance: Float32Array.from(wavelengths, () => value) }
}

test('scans keep their order and values over all axes and appends', () => {
  const steps = fc.array(fc.array(fc.integer({ min: 0, max: 2 }), { maxLength: 300 }), {
    maxLength: 5,
  })
  fc.assert(
    fc.property(steps, (appends) => {
      let store = NO_SCANS
      const given: Spectrum[] = []
      for (const axes of appends) {
        const more = axes.map((axis, i) => scan(axis, given.length + i))
        given.push(...more)
        store = appendScans(store, more)
      }
      expect(store.count).toBe(given.length)
      expect(store.axes.length).toBeLessThanOrEqual(3)
      given.forEach((spectrum, i) => expect(spectrumOf(store, i)).toEqual(spectrum))
    }),
    { numRuns: 30 },
  )
})

test('an append leaves the old store as it was and shares its full blocks', () => {
  const many = Array.from({ length: BLOCK_SCANS + 10 }, (_, i) => scan(0, i))
  const before = appendScans(NO_SCANS, many)
  const after = appendScans(before, [scan(0, -1), scan(1, -2)])
  expect(after.blocks[0]).toBe(before.blocks[0])
  expect(after.blocks[1]).not.toBe(before.blocks[1])
  expect(before.blocks[1].count).toBe(10)
  expect(before.blocks[1].values[30]).toBe(0)
  expect(spectrumOf(after, BLOCK_SCANS + 10).reflectance[0]).toBe(-1)
  expect(spectrumOf(after, BLOCK_SCANS + 11).wavelengths).toEqual(AXES[1])
})

test('a spectrum is a view, and gaps stay gaps', () => {
  const store = appendScans(NO_SCANS, [
    { wavelengths: AXES[0], reflectance: Float32Array.of(0.1, NaN, 0.3) },
  ])
  const { reflectance } = spectrumOf(store, 0)
  expect(reflectance.buffer).toBe(store.blocks[0].values.buffer)
  expect(reflectance[1]).toBeNaN()
})

test('what is wrong is said', () => {
  expect(() => spectrumOf(NO_SCANS, 0)).toThrow(/no scan 0 among 0/)
  expect(() =>
    appendScans(NO_SCANS, [{ wavelengths: AXES[0], reflectance: new Float32Array(2) }]),
  ).toThrow(/2 values on 3 wavelengths/)
})

test('blocks whose scans are all given up go; the others keep their numbers', () => {
  const count = 2 * BLOCK_SCANS + 10
  const store = appendScans(
    NO_SCANS,
    Array.from({ length: count }, (_, i) => scan(0, i)),
  )
  const left = withoutBlocks(store, (i) => i >= BLOCK_SCANS)
  expect([left.blocks.length, left.count]).toEqual([2, count])
  expect(spectrumOf(left, BLOCK_SCANS)).toEqual(scan(0, BLOCK_SCANS))
  expect(() => spectrumOf(left, 3)).toThrow('scan 3 was given up')
  expect(withoutBlocks(store, () => true)).toBe(store)
  expect(spectrumOf(appendScans(left, [scan(0, 7)]), count)).toEqual(scan(0, 7))
})
