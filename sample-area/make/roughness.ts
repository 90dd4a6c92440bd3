/**
 * Smooth random fields: gradient noise on a square lattice (Perlin 1985), summed over octaves.
 * Arithmetic alone, so that it is the same everywhere.
 */

/**
 * A field between about −1 and 1, mean 0.
 *
 * @param scale metres from one lattice point to the next in the coarsest octave
 * @param octaves each half as wide and half as high as the one before
 * @param seed which of the fields
 */
export function roughness(
  x: number,
  y: number,
  scale: number,
  octaves: number,
  seed: number,
): number {
  let sum = 0
  let height = 1
  let total = 0
  for (let octave = 0; octave < octaves; octave++) {
    const wide = scale / 2 ** octave
    sum += height * gradientNoise(x / wide, y / wide, seed + 101 * octave)
    total += height
    height /= 2
  }
  return (1.6 * sum) / total
}

function gradientNoise(x: number, y: number, seed: number): number {
  const [left, low] = [Math.floor(x), Math.floor(y)]
  const [dx, dy] = [x - left, y - low]
  const [u, v] = [fade(dx), fade(dy)]
  const bottom = mix(slopeAt(left, low, dx, dy, seed), slopeAt(left + 1, low, dx - 1, dy, seed), u)
  const top = mix(
    slopeAt(left, low + 1, dx, dy - 1, seed),
    slopeAt(left + 1, low + 1, dx - 1, dy - 1, seed),
    u,
  )
  return mix(bottom, top, v)
}

/** Height of a lattice point's tilted plane at an offset from it. */
function slopeAt(column: number, row: number, dx: number, dy: number, seed: number): number {
  const east = latticeValue(column, row, seed)
  const north = latticeValue(column, row, seed + 57)
  return east * dx + north * dy
}

/** A number in [−1, 1) for a lattice point: integer mixing of its coordinates. */
function latticeValue(column: number, row: number, seed: number): number {
  let h = Math.imul(column, 0x27d4eb2d) ^ Math.imul(row, 0x165667b1) ^ Math.imul(seed, 0x9e3779b1)
  h = Math.imul(h ^ (h >>> 15), 0x85ebca6b)
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35)
  return ((h ^ (h >>> 16)) >>> 0) / 2147483648 - 1
}

function fade(t: number): number {
  return t * t * t * (t * (6 * t - 15) + 10)
}

function mix(a: number, b: number, t: number): number {
  return a + t * (b - a)
}
