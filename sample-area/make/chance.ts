/** Seeded chance: the same seed and name give the same numbers on every run. */

/** A stream of pseudo-random numbers. */
export interface Chance {
  /** Uniform in [0, 1). */
  uniform(): number
  /** Uniform in [from, to). */
  between(from: number, to: number): number
  /** Normal with mean 0 and standard deviation 1 (Box and Muller 1958). */
  normal(): number
}

const SEED = 20241

/**
 * A stream of its own for each name, so that a change in one part of the area leaves the
 * numbers of every other part alone. Mulberry32, seeded by an FNV-1a hash of the name.
 */
export function chanceFor(name: string): Chance {
  let state = (SEED ^ hash(name)) >>> 0
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
  return {
    uniform,
    between: (from, to) => from + (to - from) * uniform(),
    normal: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
  }
}

function hash(text: string): number {
  let h = 0x811c9dc5
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193)
  return h >>> 0
}
