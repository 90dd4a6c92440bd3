/** Any text encoding to UTF-8 bytes, which all text readers work on. */
import type { Encoding } from './input'

export interface DecodedText {
  /** UTF-8 without a byte order mark. */
  readonly bytes: Uint8Array
  readonly encoding: Encoding
}

const SNIFFED = 4096
const END_OF_TEXT = 26

/**
 * Text as UTF-8 bytes: a byte order mark decides, else the pattern of NUL bytes tells UTF-16,
 * else what is valid UTF-8 is UTF-8 and the rest Windows-1252 (WHATWG Encoding Standard).
 *
 * A last byte of 26, with which old programs end their text, is taken off.
 *
 * @param said the encoding where a person has said so
 * @returns null where NUL or many other control bytes among the first 4096 show that it is no text.
 */
export function decodeText(whole: Uint8Array, said?: Encoding): DecodedText | null {
  const bytes = whole.at(-1) === END_OF_TEXT ? whole.subarray(0, -1) : whole
  if (said !== undefined) return decodeAs(bytes, said)
  if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf)
    return utf8OrWindows(bytes.subarray(3))
  const hasNul = bytes.subarray(0, SNIFFED).includes(0)
  const wide = hasNul || bytes[0] >= 0xfe ? utf16Order(bytes) : null
  if (wide !== null) return fromLabel(bytes, wide, 'UTF-16')
  if (hasNul || isBinary(bytes)) return null
  return utf8OrWindows(bytes)
}

/** Whether more than a twentieth of the first thousand bytes are control characters that no text has. */
function isBinary(bytes: Uint8Array): boolean {
  const sample = bytes.subarray(0, SNIFFED >> 2)
  let others = 0
  for (const byte of sample)
    if (byte === 127 || (byte < 32 && (byte < 7 || byte > 13) && byte !== 26 && byte !== 27))
      others++
  return others > 0.05 * sample.length && others > 8
}

function decodeAs(bytes: Uint8Array, encoding: Encoding): DecodedText {
  if (encoding === 'Windows-1252') return fromLabel(bytes, 'windows-1252', encoding)
  if (encoding === 'UTF-16') return fromLabel(bytes, utf16Order(bytes) ?? 'utf-16le', encoding)
  return fromLabel(bytes, 'utf-8', encoding)
}

/** The byte order of UTF-16, or null. Without a mark, every other byte of Latin text is NUL. */
function utf16Order(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le'
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be'
  const pairs = Math.min(bytes.length, SNIFFED) >> 1
  if (pairs < 4) return null
  let first = 0
  let second = 0
  for (let i = 0; i < pairs; i++) {
    if (bytes[2 * i] === 0) first++
    if (bytes[2 * i + 1] === 0) second++
  }
  if (second > 0.8 * pairs && first < 0.05 * pairs) return 'utf-16le'
  if (first > 0.8 * pairs && second < 0.05 * pairs) return 'utf-16be'
  return null
}

function utf8OrWindows(bytes: Uint8Array): DecodedText {
  if (isAscii(bytes)) return { bytes, encoding: 'UTF-8' }
  if (isUtf8(bytes)) return { bytes: withBlanks(bytes), encoding: 'UTF-8' }
  return fromLabel(bytes, 'windows-1252', 'Windows-1252')
}

/**
 * Whether bytes are well-formed UTF-8 (The Unicode Standard 15, table 3-7). A text is as a rule
 * ASCII but for a sign or two, and making a string of it to find out takes longer than reading it.
 */
function isUtf8(bytes: Uint8Array): boolean {
  let signs = 0
  for (let i = 0; i < bytes.length;) {
    const lead = bytes[i++]
    if (lead < 0x80) continue
    signs++
    if (lead < 0xc2 || lead > 0xf4) return false
    const more = lead < 0xe0 ? 1 : lead < 0xf0 ? 2 : 3
    // The second byte keeps out what is too long, surrogates, and what lies beyond U+10FFFF.
    const low = lead === 0xe0 ? 0xa0 : lead === 0xf0 ? 0x90 : 0x80
    const high = lead === 0xed ? 0x9f : lead === 0xf4 ? 0x8f : 0xbf
    if (i + more > bytes.length || bytes[i] < low || bytes[i] > high) return false
    for (let k = 1; k < more; k++) if ((bytes[i + k] & 0xc0) !== 0x80) return false
    i += more
    if (signs <= FEW_SIGNS && isAscii(bytes.subarray(i))) return true
  }
  return true
}

/** After each of the first few signs the rest is looked at sixteen bytes at a time. */
const FEW_SIGNS = 8

/** Whether no byte is above 127, sixteen at a time. */
function isAscii(bytes: Uint8Array): boolean {
  const ahead = Math.min(bytes.length, (4 - (bytes.byteOffset & 3)) & 3)
  for (let i = 0; i < ahead; i++) if (bytes[i] > 127) return false
  const count = (bytes.length - ahead) >> 2
  if (count === 0) return !bytes.some((byte) => byte > 127)
  const words = new Int32Array(bytes.buffer, bytes.byteOffset + ahead, count)
  const whole = count - (count & 3)
  for (let i = 0; i < whole; i += 4)
    if (((words[i] | words[i + 1] | words[i + 2] | words[i + 3]) & 0x80808080) !== 0) return false
  for (let i = whole; i < count; i++) if ((words[i] & 0x80808080) !== 0) return false
  for (let i = ahead + 4 * count; i < bytes.length; i++) if (bytes[i] > 127) return false
  return true
}

function fromLabel(bytes: Uint8Array, label: string, encoding: Encoding): DecodedText {
  const decoded = new TextEncoder().encode(new TextDecoder(label).decode(bytes))
  return { bytes: withBlanks(decoded), encoding }
}

/** Blanks that do not break a line (U+00A0, U+202F) as plain ones: they stand between cells too. */
function withBlanks(bytes: Uint8Array): Uint8Array {
  const isAt = (i: number): number =>
    bytes[i] === 0xc2 && bytes[i + 1] === 0xa0
      ? 2
      : bytes[i] === 0xe2 && bytes[i + 1] === 0x80 && bytes[i + 2] === 0xaf
        ? 3
        : 0
  const first = nextOf(bytes, 0, isAt)
  if (first < 0) return bytes
  const made = bytes.slice()
  let to = first
  for (let i = first; i < bytes.length;) {
    const length = bytes[i] < 0x80 ? 0 : isAt(i)
    made[to++] = length === 0 ? bytes[i] : 32
    i += Math.max(1, length)
  }
  return made.subarray(0, to)
}

function nextOf(bytes: Uint8Array, start: number, isAt: (i: number) => number): number {
  for (let i = start; i < bytes.length; i++) if (bytes[i] >= 0x80 && isAt(i) > 0) return i
  return -1
}

const decoder = new TextDecoder('utf-8')

/** Up to as many bytes are made a text one by one, which is faster than asking the platform. */
const SHORT = 64

/** A stretch of UTF-8 bytes as trimmed NFC text. */
export function textOf(bytes: Uint8Array, start: number, end: number): string {
  if (end - start <= SHORT) {
    let text = ''
    let i = start
    for (; i < end && bytes[i] < 128; i++) text += String.fromCharCode(bytes[i])
    if (i >= end) return text.trim()
  }
  return untrimmedTextOf(bytes, start, end).trim()
}

/** The same with what blanks and tabs stand around it: a tab at the beginning ends an empty cell. */
export function untrimmedTextOf(bytes: Uint8Array, start: number, end: number): string {
  return decoder.decode(bytes.subarray(start, end)).normalize('NFC')
}
