/** Damage as copying, cutting and editing do it. */
import fc from 'fast-check'

/** One act of damage; positions are parts of the length, so that they fit any file. */
export interface Edit {
  readonly kind: 'change' | 'remove' | 'insert' | 'cut' | 'repeat' | 'swap'
  readonly at: number
  readonly to: number
  readonly byte: number
}

const edit: fc.Arbitrary<Edit> = fc.record({
  kind: fc.constantFrom('change', 'remove', 'insert', 'cut', 'repeat', 'swap'),
  at: fc.nat(9999).map((part) => part / 10_000),
  to: fc.nat(300).map((part) => part / 10_000),
  byte: fc.oneof(
    fc.nat(255),
    fc.constantFrom(...[...'0123456789.,;\t\n\r -eEx"'].map((c) => c.charCodeAt(0))),
  ),
})

export const corruptions = fc.array(edit, { minLength: 1, maxLength: 3 })

/** The bytes after all edits. */
export function corrupted(bytes: Uint8Array, edits: readonly Edit[]): Uint8Array {
  return edits.reduce(damage, bytes)
}

function damage(bytes: Uint8Array, { kind, at, to, byte }: Edit): Uint8Array {
  const from = Math.floor(at * bytes.length)
  const end = Math.min(bytes.length, from + 1 + Math.floor(to * bytes.length))
  const parts = (...pieces: Uint8Array[]): Uint8Array =>
    Uint8Array.from(pieces.flatMap((p) => [...p]))
  const one = Uint8Array.of(byte)
  const before = bytes.subarray(0, from)
  switch (kind) {
    case 'change':
      return parts(before, one, bytes.subarray(from + 1))
    case 'remove':
      return parts(before, bytes.subarray(end))
    case 'insert':
      return parts(before, one, bytes.subarray(from))
    case 'cut':
      return bytes.slice(0, from)
    case 'repeat':
      return parts(bytes.subarray(0, end), bytes.subarray(from))
    case 'swap':
      return parts(before, bytes.subarray(from, end).slice().reverse(), bytes.subarray(end))
  }
}
