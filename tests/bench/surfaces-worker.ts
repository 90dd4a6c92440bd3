/** A worker of the surfaces bench: keeps its points and computes the rows that it is asked for. */
import { parentPort } from 'node:worker_threads'
import { automaticVariogram } from '../../src/surfaces/automatic-variogram'
import type { Choice } from '../../src/surfaces/chosen-neighbours'
import type { SurfacePlan } from '../../src/surfaces/compute'
import { computeTile } from '../../src/surfaces/compute-tile'
import { leaveOneOut } from '../../src/surfaces/testing'
import { tilesOf } from '../../src/surfaces/tiles'
import { variogramMap } from '../../src/surfaces/variogram-map'
import { scatter } from '../surfaces/scatter'

/** The bench's points lie in a square of this side. */
export const SIDE = 10_000
export const NEIGHBOURS = 24

export interface Job {
  readonly kind:
    | 'kriging'
    | 'octants'
    | 'barriers'
    | 'octants and barriers'
    | 'inverse-distance'
    | 'leave-one-out'
    | 'fit'
  readonly points: number
  /** Nodes along a side. */
  readonly side: number
  /** This worker takes every `of`-th tile from `part` on. */
  readonly part: number
  readonly of: number
}

const MODEL = {
  nugget: 0.05,
  structures: [{ model: 'spherical' as const, sill: 1, range: 3000 }],
}
const plans = new Map<string, SurfacePlan>()

/** A winding fault of a hundred pieces across the middle. */
function fault(): Float64Array {
  const x = (i: number) => 0.2 * SIDE + 0.006 * SIDE * i
  const y = (i: number) => SIDE * (0.5 + 0.15 * Math.sin(0.09 * i) + 0.002 * (i % 2))
  const pieces = Array.from({ length: 100 }, (_, i) => [x(i), y(i), x(i + 1), y(i + 1)])
  return Float64Array.from(pieces.flat())
}

function choiceOf(kind: Job['kind']): Choice | null {
  const octants = kind.startsWith('octants')
  const barriers = kind.endsWith('barriers')
  if (!octants && !barriers) return null
  return {
    barriers: barriers ? fault() : null,
    sectors: octants ? { count: 8, most: 3 } : null,
    neighbours: NEIGHBOURS,
  }
}

function planOf({ kind, points, side }: Job): SurfacePlan {
  const key = `${kind} ${points} ${side}`
  const known = plans.get(key)
  if (known) return known
  const plan: SurfacePlan = {
    name: key,
    method: kind === 'inverse-distance' ? kind : 'kriging',
    grid: { west: 0, north: SIDE, cell: SIDE / side, columns: side, rows: side },
    points: scatter(points, SIDE),
    reach: 2 * SIDE,
    neighbours: NEIGHBOURS,
    power: kind === 'inverse-distance' ? 2 : null,
    variogram: kind === 'inverse-distance' ? null : MODEL,
    experimental: null,
    testing: null,
    blocked: null,
    residual: null,
    blockedResidual: null,
    trend: 0,
    mask: null,
    within: null,
    choice: choiceOf(kind),
    chance: null,
  }
  plans.set(key, plan)
  return plan
}

function run(job: Job): void {
  if (job.kind === 'leave-one-out') {
    const points = scatter(job.points, SIDE)
    leaveOneOut(points, { method: 'kriging', variogram: MODEL, neighbours: NEIGHBOURS })
    return
  }
  if (job.kind === 'fit') {
    const points = scatter(job.points, SIDE)
    const { lags } = automaticVariogram(points)
    variogramMap(points, lags)
    return
  }
  const plan = planOf(job)
  tilesOf(plan).forEach((part, tile) => {
    if (tile % job.of !== job.part) return
    const { estimate, variance } = computeTile(plan, part)
    const buffers = [estimate.buffer, ...(variance ? [variance.buffer] : [])] as ArrayBuffer[]
    parentPort?.postMessage({ estimate, variance }, buffers)
  })
}

parentPort?.on('message', (job: Job) => {
  run(job)
  parentPort?.postMessage('done')
})
