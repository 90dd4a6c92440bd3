/**
 * A zlib stream (RFC 1950, RFC 1951) of literals and runs of one byte, under prefix codes.
 *
 * Differenced rasters are runs and noise: looking for longer repeats, as general deflate does,
 * takes three times as long there and gains a few per cent.
 */
import { prefixCode, type PrefixCode } from './huffman'

const END_OF_BLOCK = 256
const SHORTEST_RUN = 3
const LONGEST_RUN = 258
/** Tokens above this are runs of that much more; up to 255 they are literals. */
const RUN = 256
/** Order in which the lengths of the code-length code are sent (RFC 1951 section 3.2.7). */
const CODE_LENGTH_ORDER = [16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15]

/** Symbol, extra bits and their number for each run length (RFC 1951 section 3.2.5). */
const runSymbol = new Uint16Array(LONGEST_RUN + 1)
const runExtra = new Uint8Array(LONGEST_RUN + 1)
const runExtraBits = new Uint8Array(LONGEST_RUN + 1)
for (let symbol = 257, length = SHORTEST_RUN; symbol < 285; symbol++) {
  const bits = symbol < 265 ? 0 : (symbol - 261) >> 2
  for (let extra = 0; extra < 1 << bits; extra++, length++) {
    runSymbol[length] = symbol
    runExtra[length] = extra
    runExtraBits[length] = bits
  }
}
runSymbol[LONGEST_RUN] = 285
runExtra[LONGEST_RUN] = 0
runExtraBits[LONGEST_RUN] = 0

/** Work space for inputs up to a size, used again for each. */
export interface RunDeflater {
  /**
   * A zlib stream of some bytes, as a fresh array.
   *
   * @throws RangeError when there are more than the work space was made for.
   */
  deflate(bytes: Uint8Array): Uint8Array
}

/** Makes the work space for inputs of at most so many bytes. */
export function runDeflater(most: number): RunDeflater {
  const tokens = new Uint16Array(most)
  const counts = new Uint32Array(286)
  // No code is longer than 15 bits; the head of a block takes less than 400 bytes.
  const out = new Uint8Array(2 * most + 512)
  return {
    deflate(bytes) {
      if (bytes.length > most) throw new RangeError(`More than ${most} bytes to deflate at once.`)
      counts.fill(0)
      counts[END_OF_BLOCK] = 1
      const count = tokenise(bytes, tokens, counts)
      const code = prefixCode(counts, 15)
      const head = blockHead(out, code)
      const end = writeTokens(out, head, tokens.subarray(0, count), code)
      const sum = adler32(bytes)
      for (let i = 0; i < 4; i++) out[end + i] = sum >>> (24 - 8 * i)
      return out.slice(0, end + 4)
    },
  }
}

/** Literals and runs of the byte before; counts their symbols. */
function tokenise(bytes: Uint8Array, tokens: Uint16Array, counts: Uint32Array): number {
  const end = bytes.length
  let count = 0
  let before = -1
  for (let i = 0; i < end;) {
    const byte = bytes[i]
    if (byte === before && bytes[i + 1] === byte && bytes[i + 2] === byte) {
      const most = Math.min(end, i + LONGEST_RUN)
      let to = i + SHORTEST_RUN
      while (to < most && bytes[to] === byte) to++
      tokens[count++] = RUN + (to - i)
      counts[runSymbol[to - i]]++
      i = to
    } else {
      tokens[count++] = byte
      counts[byte]++
      before = byte
      i++
    }
  }
  return count
}

/** Where the next bit goes. */
interface Bits {
  at: number
  held: number
  count: number
}

/** The zlib head and the head of one last block with codes of its own. */
function blockHead(out: Uint8Array, code: PrefixCode): Bits {
  // Deflate with a 32 kB window, fastest level; 0x7801 is a multiple of 31 as RFC 1950 asks.
  out[0] = 0x78
  out[1] = 0x01
  const bits: Bits = { at: 2, held: 0, count: 0 }
  const used = 1 + code.lengths.findLastIndex((length) => length > 0)
  // One distance code, of one bit: distance 1.
  const lengths = [...code.lengths.subarray(0, used), 1]
  const counts = new Uint32Array(19)
  for (const length of lengths) counts[length]++
  const lengthCode = prefixCode(counts, 7)
  put(out, bits, 1, 1)
  put(out, bits, 2, 2)
  put(out, bits, used - 257, 5)
  put(out, bits, 0, 5)
  put(out, bits, CODE_LENGTH_ORDER.length - 4, 4)
  for (const symbol of CODE_LENGTH_ORDER) put(out, bits, lengthCode.lengths[symbol], 3)
  for (const length of lengths) {
    put(out, bits, lengthCode.codes[length], lengthCode.lengths[length])
  }
  return bits
}

function put(out: Uint8Array, bits: Bits, value: number, count: number): void {
  bits.held |= value << bits.count
  bits.count += count
  while (bits.count >= 8) {
    out[bits.at++] = bits.held
    bits.held >>>= 8
    bits.count -= 8
  }
}

/** Writes the tokens and the end of the block; gives the offset after its last byte. */
function writeTokens(
  out: Uint8Array,
  head: Bits,
  tokens: Uint16Array,
  { codes, lengths }: PrefixCode,
): number {
  let { at, held, count } = head
  for (let t = 0; t < tokens.length; t++) {
    const token = tokens[t]
    const symbol = token < RUN ? token : runSymbol[token - RUN]
    held |= codes[symbol] << count
    count += lengths[symbol]
    if (count >= 16) {
      out[at++] = held
      out[at++] = held >>> 8
      held >>>= 16
      count -= 16
    }
    if (token < RUN) continue
    // The distance's code is one zero bit after the extra bits.
    held |= runExtra[token - RUN] << count
    count += runExtraBits[token - RUN] + 1
    if (count >= 16) {
      out[at++] = held
      out[at++] = held >>> 8
      held >>>= 16
      count -= 16
    }
  }
  const last: Bits = { at, held, count }
  put(out, last, codes[END_OF_BLOCK], lengths[END_OF_BLOCK])
  if (last.count > 0) out[last.at++] = last.held
  return last.at
}

/** Adler-32 (RFC 1950 section 8.2), most significant byte first when written. */
export function adler32(bytes: Uint8Array): number {
  let a = 1
  let b = 0
  for (let from = 0; from < bytes.length;) {
    // Largest number of bytes for which neither sum leaves 31 bits.
    const to = Math.min(bytes.length, from + 3800)
    for (; from + 4 <= to; from += 4) {
      const one = a + bytes[from]
      const two = one + bytes[from + 1]
      const three = two + bytes[from + 2]
      a = three + bytes[from + 3]
      b += one + two + three + a
    }
    for (; from < to; from++) {
      a += bytes[from]
      b += a
    }
    a %= 65521
    b %= 65521
  }
  return ((b << 16) | a) >>> 0
}
