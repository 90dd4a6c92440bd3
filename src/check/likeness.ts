/** Marks by which scans that are one and the same measurement are found. */
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
  const axis = Float32Array.from(wavelengths)
  const values = Float32Array.from(reflectance)
  const hash = [0x811c9dc5, 0x01000193]
    .map((seed) => fnv(values, fnv(axis, seed)).toString(16).padStart(8, '0'))
    .join('')
  const sketch = Array.from({ length: SKETCH_CHANNELS }, (_, i) => {
    const channel = Math.floor(((i + 0.5) * values.length) / SKETCH_CHANNELS)
    return values[channel] ?? NaN
  })
  return { hash, sketch }
}

/** Fowler–Noll–Vo 1a over 32-bit words, mixed once more a word; every NaN counts alike. */
function fnv(values: Float32Array, seed: number): number {
  const words = new Uint32Array(values.buffer, values.byteOffset, values.length)
  let hash = seed
  for (let i = 0; i < words.length; i++) {
    const word = Number.isNaN(values[i]) ? 0x7fc00000 : words[i]
    hash = Math.imul(hash ^ word, 0x01000193)
    hash ^= hash >>> 15
  }
  return hash >>> 0
}
