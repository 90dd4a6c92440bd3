/** Seeded random numbers, the same on every machine up to the last place of logarithm and cosine. */

/**
 * Numbers in (0, 1): a 32-bit counter with a mixing function (after Steele, Lea and Flood 2014).
 *
 * @param skip how many of them were drawn before
 */
export function uniformStream(seed: number, stream = 0, skip = 0): () => number {
  const start = mix((seed | 0) ^ mix(stream + 0x632be5ab))
  let state = (start + Math.imul(skip, 0x9e3779b9)) | 0
  return () => {
    state = (state + 0x9e3779b9) | 0
    return (mix(state) + 0.5) / 2 ** 32
  }
}

/** Scrambles 32 bits (the finaliser of MurmurHash3, public domain; constants from memory). */
function mix(value: number): number {
  let h = value | 0
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b)
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35)
  return (h ^ (h >>> 16)) >>> 0
}

/**
 * Standard normal numbers (Box and Muller 1958).
 *
 * @param skip how many of them were drawn before
 */
export function normalStream(seed: number, stream = 0, skip = 0): () => number {
  const uniform = uniformStream(seed, stream, 2 * Math.floor(skip / 2))
  let kept = NaN
  const draw = () => {
    if (!Number.isNaN(kept)) {
      const second = kept
      kept = NaN
      return second
    }
    const radius = Math.sqrt(-2 * Math.log(uniform()))
    const angle = 2 * Math.PI * uniform()
    kept = radius * Math.sin(angle)
    return radius * Math.cos(angle)
  }
  if (skip % 2 === 1) draw()
  return draw
}

/** Shuffles in place (Fisher and Yates) under a seed. */
export function shuffle(values: Int32Array, seed: number): Int32Array {
  const uniform = uniformStream(seed)
  for (let i = values.length - 1; i > 0; i--) {
    const j = Math.floor(uniform() * (i + 1))
    const other = values[i]
    values[i] = values[j]
    values[j] = other
  }
  return values
}
