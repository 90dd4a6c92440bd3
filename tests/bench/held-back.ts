/**
 * How far surfaces miss values that were held back, every setting chosen from the observed points
 * alone, beside gstat's ordinary kriging with its fitted spherical model; and how much the 90 %
 * intervals hold, as stated and fitted to the blocks left out. Errors of figures are by leaving out
 * blocks a quarter of the longer side wide.
 *
 * `npm run bench -- held-back`. Without R's gstat, which carries the data too, it prints nothing.
 */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { choosingMethod, planSurface, type SurfacePlan } from '../../src/surfaces/compute'
import { krigeAt } from '../../src/surfaces/kriging'
import type { Points } from '../../src/surfaces/model'
import { leaveGroupsOut, spatialBlocks, suggestBlockSide } from '../../src/surfaces/testing'
import { columnsOf } from '../surfaces/shared-data'
import { measured, rounded, type Figure } from './figure'
import {
  blockError,
  crossCoverage,
  fittedFactor,
  NINETY,
  partWithin,
  type Standardised,
} from './left-out-blocks'

/** Figures of each data set. */
export async function* benchHeldBack(): AsyncGenerator<Figure> {
  const folder = mkdtempSync(join(tmpdir(), 'held-back-'))
  try {
    const script = join(import.meta.dirname, 'held-back.R')
    const { status, stdout } = spawnSync('Rscript', [script, folder], { encoding: 'utf8' })
    if (status !== 0) return
    for (const line of stdout.trim().split('\n')) {
      const [name, peer] = line.split(',')
      yield* heldBack(folder, name, Number(peer))
    }
  } finally {
    rmSync(folder, { recursive: true })
  }
}

function* heldBack(folder: string, name: string, peer: number): Generator<Figure> {
  const observed = pointsOf(join(folder, `${name}-observed.csv`))
  const { x, y, v: value, p: peers } = columnsOf(join(folder, `${name}-held.csv`))
  const held: Points = { x, y, value }
  // The cell decides nothing here: values are predicted where they were held back.
  const cell = Math.max(...observed.x) / 50
  const plan = planSurface({ name, value: name, method: 'kriging', cell }, observed)
  if (plan.variogram === null) throw new Error(`${name}: kriging without a variogram`)
  const { neighbours } = plan
  const { estimate, variance } = krigeAt(plan.points, plan.variogram, held, { neighbours })
  const blocks = spatialBlocks(held, suggestBlockSide(held, null))
  const [ours, theirs] = [estimate, peers].map((predicted) => ({
    rmse: (counts: (place: number) => boolean) => rootMeanSquare(held.value, predicted, counts),
  }))
  const ratio = (counts: (place: number) => boolean) => theirs.rmse(counts) / ours.rmse(counts)
  yield {
    ...measured(`${name}: RMSE at ${estimate.length} held back`, ours.rmse(ALL), 'of the data', 1),
    peer: 'gstat, fitted spherical',
    peer_value: rounded(peer),
    ratio: rounded(ratio(ALL)),
    ratio_error: rounded(blockError(blocks, ratio)),
  }
  yield* intervals(name, plan, { size: standardised(held.value, estimate, variance), blocks })
}

/** Parts inside 90 % intervals: blocks left out, and what was held back. */
function* intervals(name: string, plan: SurfacePlan, held: Standardised): Generator<Figure> {
  const { points } = plan
  const blocks = spatialBlocks(points, suggestBlockSide(points, plan.variogram))
  const left = leaveGroupsOut(points, blocks, choosingMethod(plan))
  if (!left.variance) return
  const tested = { size: standardised(points.value, left.predicted, left.variance), blocks }
  const part = (what: string, value: number, error: number | null) => ({
    ...measured(`${name}: 90 % intervals hold, ${what}`, 100 * value, '%', 1),
    ...(error === null ? {} : { value_error: rounded(100 * error) }),
  })
  const plainly = ({ size, blocks: of }: Standardised) =>
    blockError(of, (counts) => partWithin(size, NINETY, counts))
  yield part('blocks left out', partWithin(tested.size, NINETY), plainly(tested))
  yield part('held back', partWithin(held.size, NINETY), plainly(held))
  const factor = fittedFactor(tested, null)
  yield measured(`${name}: standard errors that hold 90 % of blocks`, factor, 'σ', 1)
  yield part('fitted to other blocks, blocks left out', crossCoverage(tested), null)
  yield part('fitted to blocks, held back', partWithin(held.size, factor), null)
}

const ALL = () => true

function rootMeanSquare(
  observed: Float64Array,
  predicted: Float64Array,
  counts: (place: number) => boolean,
): number {
  let [count, squares] = [0, 0]
  observed.forEach((value, place) => {
    if (!counts(place)) return
    count++
    squares += (value - predicted[place]) ** 2
  })
  return Math.sqrt(squares / count)
}

/** Sizes of errors in standard errors; 0 on a station, where both are 0. */
function standardised(
  observed: Float64Array,
  predicted: Float64Array,
  variance: Float64Array,
): Float64Array {
  return observed.map((value, place) => {
    const error = Math.abs(value - predicted[place])
    return error === 0 ? 0 : error / Math.sqrt(variance[place])
  })
}

function pointsOf(path: string): Points {
  const { x, y, v } = columnsOf(path)
  return { x, y, value: v }
}

if (process.argv[1] === import.meta.filename)
  for await (const figure of benchHeldBack()) console.log(JSON.stringify(figure))
