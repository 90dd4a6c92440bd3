/** Our zlib streams read by zlib itself (through Node and Python). */
import { inflateSync } from 'node:zlib'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { adler32, runDeflater } from '../../src/layers/deflate-runs'
import { prefixCode } from '../../src/layers/huffman'
import { firstDifference } from './difference'

const { deflate } = runDeflater(300_000)
const roundTrip = (bytes: Uint8Array): Uint8Array => new Uint8Array(inflateSync(deflate(bytes)))

describe('a stream', () => {
  test.each([0, 1, 2, 3, 4, 257, 258, 259, 260, 261, 262, 263, 516, 1000, 262_144])(
    'of %i equal bytes',
    (length) => {
      const bytes = new Uint8Array(length).fill(7)
      expect(firstDifference(roundTrip(bytes), bytes)).toBeNull()
    },
  )

  test('of every byte and every length of run', () => {
    const bytes = Uint8Array.from(
      Array.from({ length: 300 }, (_, run) => new Array<number>(run).fill(run % 256)).flat(),
    )
    expect(firstDifference(roundTrip(bytes), bytes)).toBeNull()
  })

  test('of counts like Fibonacci’s, whose codes would be longer than 15 bits', () => {
    const counts = [1, 1]
    while (counts.length < 24) counts.push(counts[counts.length - 1] + counts[counts.length - 2])
    const bytes: number[] = []
    // Spread so that equal bytes do not meet and stay literals.
    counts.forEach((count, byte) => {
      for (let k = 0; k < count; k++) bytes.push(byte, 100 + (k % 3))
    })
    const input = Uint8Array.from(bytes)
    expect(firstDifference(roundTrip(input), input)).toBeNull()
  })

  test('of anything', () => {
    const runs = fc.array(fc.tuple(fc.nat(255), fc.integer({ min: 1, max: 600 })))
    fc.assert(
      fc.property(runs, (pairs) => {
        const bytes = Uint8Array.from(
          pairs.flatMap(([byte, run]) => new Array<number>(run).fill(byte)),
        )
        expect(firstDifference(roundTrip(bytes), bytes)).toBeNull()
      }),
      { seed: 2 },
    )
  })

  test('too long for its work space is refused', () => {
    expect(() => runDeflater(4).deflate(new Uint8Array(5))).toThrow(/More than 4 bytes/)
  })
})

test('Adler-32 of the textbook’s word (“Wikipedia” 0x11E60398, from memory) and at its limits', () => {
  expect(adler32(new TextEncoder().encode('Wikipedia'))).toBe(0x11e60398)
  expect(adler32(new Uint8Array(0))).toBe(1)
  // 0xFF throughout is where the sums grow fastest; zlib itself checks it when it inflates.
  const worst = new Uint8Array(262_144).fill(255)
  expect(firstDifference(roundTrip(worst), worst)).toBeNull()
})

test('code lengths meet Kraft’s equality and the limit', () => {
  fc.assert(
    fc.property(
      fc.array(fc.nat(1e6), { minLength: 2, maxLength: 286 }),
      fc.constantFrom(9, 15),
      (counts, limit) => {
        fc.pre(counts.filter((count) => count > 0).length >= 2)
        const { lengths } = prefixCode(Uint32Array.from(counts), limit)
        let sum = 0
        for (const bits of lengths) if (bits > 0) sum += 2 ** (limit - bits)
        expect(sum).toBe(2 ** limit)
        expect(Math.max(...lengths)).toBeLessThanOrEqual(limit)
        counts.forEach((count, symbol) => expect(lengths[symbol] > 0).toBe(count > 0))
      },
    ),
    { seed: 2 },
  )
})
