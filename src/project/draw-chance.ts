/** Simulates a plan in batches of workers. */
import type { Pool } from '../jobs/pool'
import type { StretchInput } from '../jobs/tasks'
import { chanceBands, stretchesOf, type Drawn } from '../surfaces/chance'
import type { SurfacePlan } from '../surfaces/compute'
import type { SurfaceBands } from '../surfaces/model'

/**
 * Batches of realisations side by side, each a stretch at a time, so that Stop is heard soon.
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
  },
): Promise<SurfaceBands> {
  const { signal, progress } = options
  pool.provide(name, plan)
  try {
    const batches = stretchesOf(plan)
    const total = batches.reduce((sum, stretches) => sum + stretches.length, 0)
    const exceeding: Uint16Array[] = []
    let done = 0
    let next = 0
    const lane = async () => {
      while (next < batches.length) {
        let fields: readonly Float32Array<ArrayBuffer>[] | null = null
        for (const stretch of batches[next++]) {
          const transfer: ArrayBuffer[] = (fields ?? []).map(({ buffer }) => buffer)
          const input: StretchInput = { plan: name, stretch, fields }
          const drawn: Drawn = await pool.run('draw stretch', input, { signal, transfer })
          fields = drawn.fields
          if (drawn.exceeding) exceeding.push(drawn.exceeding)
          progress(++done, total)
        }
      }
    }
    // As many batches at once as there are workers: each holds its realisations in memory.
    await Promise.all(Array.from({ length: pool.size }, lane))
    return chanceBands(plan, exceeding)
  } finally {
    pool.withdraw(name)
  }
}
