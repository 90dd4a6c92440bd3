/** Prefix codes for deflate (RFC 1951 section 3.2.2). */

/** A code a symbol, its bits in the order in which deflate sends them. */
export interface PrefixCode {
  /** Bits of each symbol's code; 0 where the symbol does not occur. */
  readonly lengths: Uint8Array
  readonly codes: Uint16Array
}

/**
 * The code of least total length, but for the limit on a code's length.
 *
 * @param counts how often each symbol occurs; at least one does
 * @param limit most bits of a code
 */
export function prefixCode(counts: Uint32Array, limit: number): PrefixCode {
  const symbols = Array.from(counts.keys())
    .filter((symbol) => counts[symbol] > 0)
    .sort((a, b) => counts[a] - counts[b] || a - b)
  const lengths = new Uint8Array(counts.length)
  const perLength = lengthsOf(
    symbols.map((symbol) => counts[symbol]),
    limit,
  )
  let next = 0
  for (let bits = limit; bits >= 1; bits--) {
    for (let k = 0; k < perLength[bits]; k++) lengths[symbols[next++]] = bits
  }
  return { lengths, codes: canonical(lengths, perLength) }
}

/** How many codes there are of each length, for weights in ascending order. */
function lengthsOf(weights: readonly number[], limit: number): Uint32Array {
  const perLength = new Uint32Array(limit + 1)
  if (weights.length === 1) {
    perLength[1] = 1
    return perLength
  }
  for (const depth of depths(weights)) perLength[Math.min(depth, limit)]++
  // Cut depths break the Kraft equality: lengthen the longest shorter code until it holds again.
  let excess = -(2 ** limit)
  for (let bits = 1; bits <= limit; bits++) excess += perLength[bits] * 2 ** (limit - bits)
  for (; excess > 0; excess--) {
    perLength[limit]--
    let bits = limit - 1
    while (perLength[bits] === 0) bits--
    perLength[bits]--
    perLength[bits + 1] += 2
  }
  return perLength
}

/** Depths of a Huffman tree's leaves, made with two queues; weights ascending, two or more. */
function depths(weights: readonly number[]): number[] {
  const leaves = weights.length
  const weight = [...weights]
  const parent = new Uint32Array(2 * leaves - 1)
  let leaf = 0
  let inner = leaves
  for (let node = leaves; node < 2 * leaves - 1; node++) {
    let sum = 0
    for (let child = 0; child < 2; child++) {
      const takeLeaf = leaf < leaves && (inner >= node || weight[leaf] <= weight[inner])
      const taken = takeLeaf ? leaf++ : inner++
      parent[taken] = node
      sum += weight[taken]
    }
    weight.push(sum)
  }
  const depth = new Uint32Array(2 * leaves - 1)
  for (let node = 2 * leaves - 3; node >= 0; node--) depth[node] = depth[parent[node]] + 1
  return Array.from(depth.subarray(0, leaves))
}

/** Codes by length and then symbol, each turned round: deflate sends a code's first bit first. */
function canonical(lengths: Uint8Array, perLength: Uint32Array): Uint16Array {
  const next = new Uint32Array(perLength.length + 1)
  for (let bits = 1, code = 0; bits < perLength.length; bits++) {
    next[bits] = code
    code = (code + perLength[bits]) << 1
  }
  const codes = new Uint16Array(lengths.length)
  for (let symbol = 0; symbol < lengths.length; symbol++) {
    const bits = lengths[symbol]
    if (bits > 0) codes[symbol] = reversed(next[bits]++, bits)
  }
  return codes
}

function reversed(code: number, bits: number): number {
  let turned = 0
  for (let i = 0; i < bits; i++) turned |= ((code >> i) & 1) << (bits - 1 - i)
  return turned
}
