/**
 * How far surfaces miss values that were held back, every setting chosen from the observed points
 * alone, beside gstat's ordinary kriging with its fitted spherical model; and how many stations
 * the 90 % intervals hold with blocks left out.
 *
 * `npm run bench -- held-back`. Without R's gstat, which carries the data too, it prints nothing.
 */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { choosingMethod, planSurface } from '../../src/surfaces/compute'
import { krigeAt } from '../../src/surfaces/kriging'
import type { Points } from '../../src/surfaces/model'
import { leaveBlocksOut } from '../../src/surfaces/testing'
import { columnsOf } from '../surfaces/shared-data'
import { measured, rounded, type Figure } from './figure'

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
  const held = pointsOf(join(folder, `${name}-held.csv`))
  // The cell decides nothing here: values are predicted where they were held back.
  const cell = Math.max(...observed.x) / 50
  const plan = planSurface({ name, value: name, method: 'kriging', cell }, observed)
  if (plan.variogram === null) throw new Error(`${name}: kriging without a variogram`)
  const { neighbours } = plan
  const { estimate } = krigeAt(plan.points, plan.variogram, held, { neighbours })
  const squares = estimate.reduce((sum, value, i) => sum + (value - held.value[i]) ** 2, 0)
  const rmse = Math.sqrt(squares / estimate.length)
  yield {
    ...measured(`${name}: RMSE at ${estimate.length} held back`, rmse, 'of the data', 1),
    peer: 'gstat, fitted spherical',
    peer_value: rounded(peer),
    ratio: rounded(peer / rmse),
  }
  const blocked = leaveBlocksOut(plan.points, choosingMethod(plan))?.testing.coverage90
  if (blocked !== null && blocked !== undefined)
    yield measured(`${name}: 90 % intervals hold, blocks left out`, 100 * blocked, '%', 1)
}

function pointsOf(path: string): Points {
  const { x, y, v } = columnsOf(path)
  return { x, y, value: v }
}

if (process.argv[1] === import.meta.filename)
  for await (const figure of benchHeldBack()) console.log(JSON.stringify(figure))
