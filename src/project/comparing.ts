/** Methods side by side on a surface's stations, each in a worker. */
import type { Pool } from '../jobs/pool'
import { comparedOn, ranked, type Compared, type Comparing } from '../surfaces/compare'
import type { Points } from '../surfaces/model'
import type { Activities } from './activity'

/**
 * The figures of every method worth comparing, the best first.
 *
 * @throws an AbortError when stopped, an Error in words where the stations do not allow it
 */
export function compareOn(
  pool: Pool,
  activities: Activities,
  surface: string,
  points: Points,
  comparing: Comparing,
): Promise<readonly Compared[]> {
  const names = comparedOn(points, comparing)
  return activities.run(
    `Comparing methods for ‘${surface}’`,
    names.length,
    async (signal, progress) => {
      let done = 0
      const compared = await Promise.all(
        names.map(async (name) => {
          const figures = await pool.run('compare method', { name, points, comparing }, { signal })
          progress(++done)
          return figures
        }),
      )
      return ranked(compared)
    },
  )
}
