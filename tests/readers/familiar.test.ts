/**
 * A file like one read before gives what a reader gives that has read nothing: the same scans,
 * layout, look and problems. Each example is read by a reader that is loaded anew.
 */
import fc from 'fast-check'
import { describe, expect, test, vi } from 'vitest'
import { readFamiliar } from '../../src/readers/familiar'
import { readFile } from '../../src/readers/read-file'
import { corrupted, corruptions } from './corruption'

const bytesOf = (text: string) => new TextEncoder().encode(text)

interface Writing {
  readonly head: string
  readonly sign: string
  readonly point: string
  readonly end: string
  readonly places: number
  readonly lastEnd: boolean
}

const writings = fc.record<Writing>({
  head: fc.constantFrom(
    'Wavelength\tReflectance\n',
    'Wavelength;Reflectance %\n',
    'Sample: A17\nTime: 2024-05-03T08:15:00Z\n\nwl,R17\n',
    'Wavelengths in nm\n',
    'index\tvalue\n',
    'nm 0-1\n',
    '',
  ),
  sign: fc.constantFrom('\t', ';', ',', '   '),
  point: fc.constantFrom('.', ','),
  end: fc.constantFrom('\n', '\r\n', '\r'),
  places: fc.integer({ min: 1, max: 9 }),
  lastEnd: fc.boolean(),
})

/** A scan of so many channels; `scale` makes fractions or percent of one digit. */
function scanText(writing: Writing, seed: number, scale: number): string {
  const { head, sign, point, end, places, lastEnd } = writing
  const rows = Array.from({ length: 41 }, (_, i) => {
    const value = scale * (0.5 + 0.49 * Math.sin(seed + i))
    return `${980 + i}${sign}${value.toFixed(places).replace('.', point)}`
  })
  return head.replaceAll('\n', end) + rows.join(end) + (lastEnd ? end : '')
}

/** What a reader gives that has read nothing before. */
async function readAnew(path: string, bytes: Uint8Array): Promise<unknown> {
  vi.resetModules()
  const fresh = await import('../../src/readers/read-file')
  return fresh.readFile({ path, bytes })
}

describe('a file like one read before', () => {
  test('is read as one that was never met', { timeout: 300_000 }, async () => {
    let familiar = 0
    await fc.assert(
      fc.asyncProperty(
        writings,
        fc.nat(50),
        fc.constantFrom(1, 1, 9.9),
        fc.option(corruptions, { freq: 2 }),
        async (writing, seed, scale, edits) => {
          readFile({ path: 'a/first.txt', bytes: bytesOf(scanText(writing, 0, 1)) })
          const next = bytesOf(scanText(writing, seed, scale))
          const file = { path: 'b/next.txt', bytes: edits ? corrupted(next, edits) : next }
          if (readFamiliar(file) !== null) familiar++
          expect(readFile(file)).toEqual(await readAnew(file.path, file.bytes))
        },
      ),
      { seed: 11, numRuns: 400 },
    )
    expect(familiar).toBeGreaterThan(60)
  })

  test('keeps its own name, unless the head names it', () => {
    const named = { sign: '\t', point: '.', end: '\n', places: 4, lastEnd: true }
    for (const [head, name] of [
      ['Wavelength\tReflectance\n', 'next'],
      ['Wavelength\tA17\n', 'A17'],
      ['Scan name: B2\nWavelength\tReflectance\n', 'B2'],
    ]) {
      readFile({ path: 'a/first.txt', bytes: bytesOf(scanText({ ...named, head }, 0, 1)) })
      const file = { path: 'b/next.txt', bytes: bytesOf(scanText({ ...named, head }, 3, 1)) }
      const found = readFamiliar(file)
      expect(found?.scans.map((scan) => [scan.name, scan.file])).toEqual([[name, 'b/next.txt']])
    }
  })

  test('is unfamiliar where a byte that stays is another, or a digit is none', () => {
    const writing = { sign: '\t', point: '.', end: '\n', places: 5, lastEnd: true }
    const text = scanText({ ...writing, head: 'Wavelength\tReflectance\n' }, 1, 1)
    readFile({ path: 'first.txt', bytes: bytesOf(text) })
    const bytes = bytesOf(text)
    expect(readFamiliar({ path: 'next.txt', bytes })).not.toBeNull()
    for (let at = 0; at < bytes.length; at++) {
      const changed = bytes.slice()
      // The sign after nine has the upper half of a digit's byte.
      changed[at] = at % 2 === 0 ? 58 : changed[at] ^ 16
      expect(readFamiliar({ path: 'next.txt', bytes: changed }), `byte ${at}`).toBeNull()
    }
  })
})
