/** SHA-256 (FIPS 180-4, section 6.2), synchronous and the same in window, worker and Node. */

/** Fractional parts of the cube roots of the first 64 primes (FIPS 180-4, section 4.2.2). */
const K = fractions(64, Math.cbrt)
/** Fractional parts of the square roots of the first 8 primes (section 5.3.3). */
const H = fractions(8, Math.sqrt)

/** The digest of some bytes as 64 lower-case hexadecimal digits. */
export function sha256(bytes: Uint8Array): string {
  const state = Int32Array.from(H)
  const schedule = new Int32Array(64)
  const whole = bytes.length - (bytes.length % 64)
  compress(state, schedule, bytes, 0, whole)
  const tail = padded(bytes, whole)
  compress(state, schedule, tail, 0, tail.length)
  return Array.from(state, (word) => (word >>> 0).toString(16).padStart(8, '0')).join('')
}

/** The last partial block with its one bit, zeros and the length in bits (section 5.1.1). */
function padded(bytes: Uint8Array, from: number): Uint8Array {
  const rest = bytes.length - from
  const tail = new Uint8Array(rest < 56 ? 64 : 128)
  tail.set(bytes.subarray(from))
  tail[rest] = 0x80
  const view = new DataView(tail.buffer)
  view.setUint32(tail.length - 8, Math.floor(bytes.length / 0x20000000))
  view.setUint32(tail.length - 4, (bytes.length << 3) >>> 0)
  return tail
}

function compress(
  state: Int32Array,
  w: Int32Array,
  bytes: Uint8Array,
  from: number,
  to: number,
): void {
  for (let at = from; at < to; at += 64) {
    for (let t = 0, i = at; t < 16; t++, i += 4) {
      w[t] = (bytes[i] << 24) | (bytes[i + 1] << 16) | (bytes[i + 2] << 8) | bytes[i + 3]
    }
    for (let t = 16; t < 64; t++) {
      const x = w[t - 15]
      const y = w[t - 2]
      const s0 = ((x >>> 7) | (x << 25)) ^ ((x >>> 18) | (x << 14)) ^ (x >>> 3)
      const s1 = ((y >>> 17) | (y << 15)) ^ ((y >>> 19) | (y << 13)) ^ (y >>> 10)
      w[t] = (w[t - 16] + s0 + w[t - 7] + s1) | 0
    }
    rounds(state, w)
  }
}

/** One block's 64 rounds, eight at a time so that no word need be moved along. */
function rounds(state: Int32Array, w: Int32Array): void {
  let a = state[0]
  let b = state[1]
  let c = state[2]
  let d = state[3]
  let e = state[4]
  let f = state[5]
  let g = state[6]
  let h = state[7]
  for (let t = 0; t < 64; t += 8) {
    h = (h + big1(e) + (g ^ (e & (f ^ g))) + K[t] + w[t]) | 0
    d = (d + h) | 0
    h = (h + big0(a) + ((a & b) ^ (c & (a ^ b)))) | 0
    g = (g + big1(d) + (f ^ (d & (e ^ f))) + K[t + 1] + w[t + 1]) | 0
    c = (c + g) | 0
    g = (g + big0(h) + ((h & a) ^ (b & (h ^ a)))) | 0
    f = (f + big1(c) + (e ^ (c & (d ^ e))) + K[t + 2] + w[t + 2]) | 0
    b = (b + f) | 0
    f = (f + big0(g) + ((g & h) ^ (a & (g ^ h)))) | 0
    e = (e + big1(b) + (d ^ (b & (c ^ d))) + K[t + 3] + w[t + 3]) | 0
    a = (a + e) | 0
    e = (e + big0(f) + ((f & g) ^ (h & (f ^ g)))) | 0
    d = (d + big1(a) + (c ^ (a & (b ^ c))) + K[t + 4] + w[t + 4]) | 0
    h = (h + d) | 0
    d = (d + big0(e) + ((e & f) ^ (g & (e ^ f)))) | 0
    c = (c + big1(h) + (b ^ (h & (a ^ b))) + K[t + 5] + w[t + 5]) | 0
    g = (g + c) | 0
    c = (c + big0(d) + ((d & e) ^ (f & (d ^ e)))) | 0
    b = (b + big1(g) + (a ^ (g & (h ^ a))) + K[t + 6] + w[t + 6]) | 0
    f = (f + b) | 0
    b = (b + big0(c) + ((c & d) ^ (e & (c ^ d)))) | 0
    a = (a + big1(f) + (h ^ (f & (g ^ h))) + K[t + 7] + w[t + 7]) | 0
    e = (e + a) | 0
    a = (a + big0(b) + ((b & c) ^ (d & (b ^ c)))) | 0
  }
  state[0] += a
  state[1] += b
  state[2] += c
  state[3] += d
  state[4] += e
  state[5] += f
  state[6] += g
  state[7] += h
}

/** Σ0 and Σ1 of section 4.1.2. */
function big0(a: number): number {
  return ((a >>> 2) | (a << 30)) ^ ((a >>> 13) | (a << 19)) ^ ((a >>> 22) | (a << 10))
}

function big1(e: number): number {
  return ((e >>> 6) | (e << 26)) ^ ((e >>> 11) | (e << 21)) ^ ((e >>> 25) | (e << 7))
}

/** The first 32 bits of the fractional parts of the primes' roots. */
function fractions(count: number, root: (prime: number) => number): Int32Array {
  const words = new Int32Array(count)
  for (let n = 2, found = 0; found < count; n++) {
    if (!isPrime(n)) continue
    words[found++] = Math.floor((root(n) % 1) * 0x100000000)
  }
  return words
}

function isPrime(n: number): boolean {
  for (let divisor = 2; divisor * divisor <= n; divisor++) if (n % divisor === 0) return false
  return true
}
