/** The instances of Tsiligirides' first orienteering problem (1984), which lie beside the project. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { OrienteeringProblem } from '../../src/traverse/orienteering-problem'

const FOLDER = join(process.cwd(), '../shared/routing')

/** Tests on published instances are skipped where the folder is absent. */
export const instancesMissing = !existsSync(FOLDER)
if (instancesMissing) console.warn(`Tests on published instances are skipped: no ${FOLDER}`)

/** Best known scores by budget, from memory of Chao, Golden and Wasil 1996. */
export const BEST_SCORES: ReadonlyMap<number, number> = new Map([
  [5, 10],
  [10, 15],
  [15, 45],
  [20, 65],
  [25, 90],
  [30, 110],
  [35, 135],
  [40, 155],
  [46, 175],
  [50, 190],
  [55, 205],
  [60, 225],
  [65, 240],
  [70, 260],
  [73, 265],
  [75, 270],
  [80, 280],
  [85, 285],
])

/** All instances by their files' names; none where the folder is absent. */
export function instances(): { readonly file: string; readonly problem: OrienteeringProblem }[] {
  if (instancesMissing) return []
  return readdirSync(FOLDER)
    .sort()
    .map((file) => ({ file, problem: instance(file) }))
}

/** A file's first line is the budget; of its places the first is the start and the second the end. */
function instance(file: string): OrienteeringProblem {
  const rows = readFileSync(join(FOLDER, file), 'utf8').trim().split(/\r?\n/)
  const [[budget], start, end, ...others] = rows.map((row) => row.split(/\s+/).map(Number))
  return problemOf([start, ...others, end], budget)
}

/** The problem of places given as x, y and score, straight ways between them. */
export function problemOf(
  places: readonly (readonly number[])[],
  budget: number,
): OrienteeringProblem {
  return {
    costs: Float64Array.from(
      places.flatMap(([x, y]) => places.map(([u, v]) => Math.hypot(x - u, y - v))),
    ),
    scores: Float64Array.from(places, ([, , score]) => score),
    budget,
    mostStops: Infinity,
  }
}
