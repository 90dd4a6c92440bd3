/** Invented points for tests, from a seeded generator. */
import type { Points } from '../../src/surfaces/model'

/** A linear congruential generator's numbers in [0, 1) (constants of Numerical Recipes, from memory). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 32
  }
}

/** `count` points in a square with a smooth field and some noise. */
export function scatter(count: number, side: number, seed = 1): Points {
  const random = seeded(seed)
  const x = new Float64Array(count)
  const y = new Float64Array(count)
  const value = new Float64Array(count)
  for (let i = 0; i < count; i++) {
    x[i] = random() * side
    y[i] = random() * side
    value[i] = Math.sin((6 * x[i]) / side) + Math.cos((4 * y[i]) / side) + 0.3 * random()
  }
  return { x, y, value }
}
