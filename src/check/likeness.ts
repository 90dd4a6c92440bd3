/** Marks by which scans that are one and the same measurement are found. */
import { onceAnAxis } from '../spectra/once-an-axis'
import type { Spectrum } from '../spectra/spectrum'

/** Channels whose values are kept to compare scans by. */
const SKETCH_CHANNELS = 48

export interface Likeness {
  /** Of wavelengths and values in 32 bits, 64 bits in hexadecimal. */
  readonly hash: string
  /** Values at 48 channels spread over the record, as stored. Gaps are NaN. */
  readonly sketch: readonly number[]
}

/** What two scans are compared by. Equal spectra have equal marks. */
export function likenessOf({ wavelengths, reflectance }: Spectrum): Likeness {
  const values = reflectance instanceof Float32Array ? reflectance : Float32Array.from(reflectance)
  const [low, high] = fnv(values, axisHash(wavelengths, 'hash'))
  const sketch = Array.from({ length: SKETCH_CHANNELS }, (_, i) => {
    const channel = Math.floor(((i + 0.5) * values.length) / SKETCH_CHANNELS)
    return values[channel] ?? NaN
  })
  return { hash: hexadecimal(low) + hexadecimal(high), sketch }
}

type Hash = readonly [low: number, high: number]

const SEEDS: Hash = [0x811c9dc5, 0x01000193]

const axisHash = onceAnAxis<'hash', Hash>((wavelengths) =>
  fnv(Float32Array.from(wavelengths), SEEDS),
)

function hexadecimal(word: number): string {
  return word.toString(16).padStart(8, '0')
}

/** The bits of a NaN without its sign lie above those of infinity. */
const INFINITY_BITS = 0x7f800000

/** Two Fowler–Noll–Vo 1a hashes over 32-bit words, mixed once more a word; every NaN counts alike. */
function fnv(values: Float32Array, [seed, otherSeed]: Hash): Hash {
  const words = new Uint32Array(values.buffer, values.byteOffset, values.length)
  let low = seed
  let high = otherSeed
  for (let i = 0; i < words.length; i++) {
    const word = (words[i] & 0x7fffffff) > INFINITY_BITS ? 0x7fc00000 : words[i]
    low = Math.imul(low ^ word, 0x01000193)
    low ^= low >>> 15
    high = Math.imul(high ^ word, 0x01000193)
    high ^= high >>> 15
  }
  return [low >>> 0, high >>> 0]
}
