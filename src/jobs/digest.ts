/** SHA-256 by the platform, which computes it off this thread and several times as fast as ours. */
import { sha256 } from '../layers/sha256'

/**
 * The digest of some bytes as 64 lower-case hexadecimal digits. Our own computes it where the
 * platform's is kept from pages that came over an open network (Web Cryptography API, section 4).
 */
export async function digestOf(bytes: Uint8Array): Promise<string> {
  const subtle = (globalThis.crypto as Crypto | undefined)?.subtle
  if (!subtle) return sha256(bytes)
  const digest = new Uint8Array(await subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>))
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('')
}
