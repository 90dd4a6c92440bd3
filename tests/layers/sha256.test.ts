/** SHA-256 against NIST's example values and Node's own. */
import { createHash } from 'node:crypto'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { sha256 } from '../../src/layers/sha256'

const of = (text: string): string => sha256(new TextEncoder().encode(text))

// FIPS 180-2 appendix B (also NIST CSRC "Examples with Intermediate Values", SHA256); the empty
// message is the first of NIST's SHAVS short messages. Digests from memory, confirmed by node:crypto.
test('NIST examples', () => {
  expect(of('')).toBe('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855')
  expect(of('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad')
  expect(of('abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq')).toBe(
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  )
  expect(of('a'.repeat(1e6))).toBe(
    'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0',
  )
})

test('the same as OpenSSL on any bytes, about the edges of a block too', () => {
  const openssl = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex')
  for (let length = 0; length <= 130; length++) {
    const bytes = Uint8Array.from({ length }, (_, i) => i * 37)
    expect(sha256(bytes)).toBe(openssl(bytes))
  }
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 5000 }), (bytes) => {
      expect(sha256(bytes)).toBe(openssl(bytes))
    }),
    { seed: 2 },
  )
})
