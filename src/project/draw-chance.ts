/** Simulates a plan in batches of workers. */
import type { Pool } from '../jobs/pool'
import type { StretchInput } from '../jobs/tasks'
import { chanceBands, stretchesOf, type Drawn } from '../surfaces/chance'
import type { SurfacePlan } from '../surfaces/compute'
import type { SurfaceBands } from '../surfaces/model'
import { coarsePass, type SoFar } from './surface-tiles'

/** Up to so many nodes nobody waits long enough to want a picture before all is drawn. */
const AT_ONCE = 4000
/** Most nodes of the picture that comes first. */
const COARSE_NODES = 16_000

/**
 * Batches of realisations side by side, each a stretch at a time, so that Stop is heard soon.
 * Before them, for someone who looks on, the chance that kriging of the scores gives at some of the
 * nodes, which the realisations' approaches; then that of the realisations so far. Neither changes
 * anything in the result.
 *
 * @param name under which the plan is given to workers, a new one each time
 */
export async function drawChance(
  pool: Pool,
  plan: SurfacePlan,
  name: string,
  options: {
    readonly signal: AbortSignal
    readonly progress: (done: number, total: number) => void
    /** Told of pictures on the way; null to go without. */
    readonly soFar?: ((soFar: SoFar) => void) | null
  },
): Promise<SurfaceBands> {
  const { signal, progress } = options
  const { columns, rows } = plan.grid
  const soFar = columns * rows > AT_ONCE ? (options.soFar ?? null) : null
  const all = plan.chance?.realisations ?? 0
  pool.provide(name, plan)
  try {
    const batches = stretchesOf(plan)
    const total = batches.reduce((sum, stretches) => sum + stretches.length, 0)
    const exceeding: Uint16Array[] = []
    let done = 0
    let next = 0
    let realisations = 0
    const tell = () => {
      if (!soFar || realisations === all) return
      const bands = chanceBands(plan, exceeding, realisations, seen)
      soFar({ bands, step: 1, part: realisations / all, realisations: [realisations, all] })
    }
    if (soFar) {
      let step = 1
      while (Math.ceil(columns / step) * Math.ceil(rows / step) > COARSE_NODES) step *= 2
      soFar({ bands: await coarsePass(pool, plan, `${name} coarse`, step, signal), step, part: 0 })
    }
    const lane = async () => {
      while (next < batches.length) {
        let fields: readonly Float32Array<ArrayBuffer>[] | null = null
        for (const stretch of batches[next++]) {
          const transfer: ArrayBuffer[] = (fields ?? []).map(({ buffer }) => buffer)
          const input: StretchInput = { plan: name, stretch, fields }
          const drawn: Drawn = await pool.run('draw stretch', input, { signal, transfer })
          fields = drawn.fields
          progress(++done, total)
          if (!drawn.exceeding) continue
          exceeding.push(drawn.exceeding)
          realisations += stretch.batch[1] - stretch.batch[0]
          tell()
        }
      }
    }
    // Beside a barrier kriging tells from where a station within the reach is seen.
    const seen = plan.chance?.barriers
      ? (await coarsePass(pool, plan, `${name} seen`, 1, signal)).estimate
      : null
    // As many batches at once as there are workers: each holds its realisations in memory.
    await Promise.all(Array.from({ length: pool.size }, lane))
    return chanceBands(plan, exceeding, null, seen)
  } finally {
    pool.withdraw(name)
  }
}
