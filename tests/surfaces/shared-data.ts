/** Reading of the open data sets in ../shared/spatial for tests; see its README for sources. */
import { existsSync, readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import type { Points } from '../../src/surfaces/model'

export const SPATIAL = resolve('../shared/spatial')
export const noSpatial = !existsSync(SPATIAL)
if (noSpatial) console.warn(`Skipped: ${SPATIAL} is absent, so checks against gstat are left out.`)

/** The columns of a CSV of numbers. */
export function columnsOf(path: string): Record<string, Float64Array> {
  const [head, ...lines] = readFileSync(path, 'utf8').trim().split(/\r?\n/)
  const names = head.split(',').map((name) => name.replaceAll('"', ''))
  const rows = lines.map((line) => line.split(',').map((cell) => Number(cell.replaceAll('"', ''))))
  return Object.fromEntries(
    names.map((name, c) => [name, Float64Array.from(rows, (row) => row[c])]),
  )
}

export function spatial(file: string): Record<string, Float64Array> {
  return columnsOf(resolve(SPATIAL, file))
}

/** The 155 Meuse samples (Rikken and Van Rijn 1993), log(zinc). */
export function meuseLogZinc(): Points {
  const { x, y, zinc } = spatial('meuse.csv')
  return { x, y, value: zinc.map(Math.log) }
}

/** The largest difference of two columns over the larger of 1 and their size. */
export function largestDifference(found: ArrayLike<number>, expected: ArrayLike<number>): number {
  if (found.length !== expected.length)
    throw new Error(`${found.length} numbers where ${expected.length} are expected`)
  let largest = 0
  for (let i = 0; i < found.length; i++) {
    const difference = Math.abs(found[i] - expected[i]) / Math.max(1, Math.abs(expected[i]))
    if (!(difference <= largest)) largest = difference
  }
  return largest
}
