/** LZW as TIFF packs it (TIFF 6.0, section 13), unpacked within bounds. */

const CLEAR = 256
const END = 257
const FIRST_FREE = 258
const FEWEST_BITS = 9
const MOST_BITS = 12
const MOST_CODES = 1 << MOST_BITS

/**
 * Unpacks a block; one that breaks off ends where its codes do.
 *
 * A code stands for a stretch that has come out before, so that a table of where each begins and
 * how long it is will do.
 *
 * @param most bytes that may come out: six kilobytes could otherwise become eight million bytes
 * @throws Error where more would come out, or a code stands for nothing
 */
export function unpackLzw(packed: Uint8Array, most: number): Uint8Array<ArrayBuffer> {
  const starts = new Int32Array(MOST_CODES)
  const lengths = new Int32Array(MOST_CODES)
  let out = new Uint8Array(Math.min(most, 4 * packed.length + 64))
  let size = 0
  let next = FIRST_FREE
  let bits = FEWEST_BITS
  /** Of the code before: where it came out, and how long it was; 0 after a clearing. */
  let before = 0
  let beforeLength = 0
  for (let at = 0; at + bits <= 8 * packed.length;) {
    const code = codeAt(packed, at, bits)
    at += bits
    if (code === END) break
    if (code === CLEAR) {
      next = FIRST_FREE
      bits = FEWEST_BITS
      beforeLength = 0
      continue
    }
    // The code that is about to be given stands for the one before and its first byte.
    if (code > next || (code === next && beforeLength === 0))
      throw new Error('a block holds a code that stands for nothing')
    const isByte = code < CLEAR
    const length = isByte ? 1 : code === next ? beforeLength + 1 : lengths[code]
    const from = code === next ? before : starts[code]
    if (size + length > most) throw new Error('a block unpacks to more than it may hold')
    if (size + length > out.length) out = grown(out, Math.min(most, 2 * (size + length)))
    if (isByte) out[size] = code
    else for (let i = 0; i < length; i++) out[size + i] = out[from + i]
    if (beforeLength > 0 && next < MOST_CODES) {
      starts[next] = before
      lengths[next++] = beforeLength + 1
    }
    before = size
    beforeLength = length
    size += length
    // Codes grow one code early, as all writers of TIFF have it.
    if (next + 1 >= 1 << bits && bits < MOST_BITS) bits++
  }
  return out.slice(0, size)
}

/** The code of so many bits that begins at a bit, the highest first. */
function codeAt(packed: Uint8Array, bit: number, bits: number): number {
  const byte = bit >> 3
  const word = (packed[byte] << 16) | ((packed[byte + 1] ?? 0) << 8) | (packed[byte + 2] ?? 0)
  return (word >> (24 - bits - (bit & 7))) & ((1 << bits) - 1)
}

function grown(bytes: Uint8Array, length: number): Uint8Array<ArrayBuffer> {
  const more = new Uint8Array(length)
  more.set(bytes)
  return more
}
