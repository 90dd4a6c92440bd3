/** What someone who looks at a variogram asks of the workers, before all tiles that wait. */
import type { Pool } from '../jobs/pool'
import type { Points, SurfaceRule, Testing, Variogram } from '../surfaces/model'
import type { VariogramView } from '../surfaces/variogram-view'
import { boundariesOf, driftOf } from './boundaries'
import type { Snapshot } from './workspace'

/** How stations that are left out come out with a model. */
export interface ModelTested {
  readonly variogram: Variogram
  readonly single: Testing | null
  readonly blocked: Testing | null
}

/** Answers what the variogram’s plot asks; `snapshot` gives the project as it is when asked. */
export class VariogramWork {
  constructor(
    private readonly pool: Pool,
    private readonly snapshot: () => Snapshot,
  ) {}

  /** Pairs of a surface's stations in every form that is plotted, none across its barriers. */
  view(rule: SurfaceRule, points: Points, barriers: Float64Array | null): Promise<VariogramView> {
    const { trend = 0, method, transform, declustered } = rule
    const degree = method === 'kriging' ? trend : 0
    const input = { points, trend: degree, transform, declustered, barriers } as const
    return this.pool.run('view variogram', input, { urgent: true })
  }

  /**
   * The testing figures of a surface with another model, nothing else changed.
   *
   * @throws Error in words where the model or a boundary cannot be used
   */
  async test(rule: SurfaceRule, points: Points, variogram: Variogram): Promise<ModelTested> {
    const { results, project, holdings } = this.snapshot()
    if (!results) throw new Error('Nothing is placed yet.')
    const ground = holdings.ground.filter(({ path }) => !project.hidden.includes(path))
    const boundaries = boundariesOf(rule, ground, results.placement.crs)
    const drift = driftOf(rule, ground, results.placement.crs)
    const input = { rule: { ...rule, variogram }, points, grid: null, boundaries, drift }
    const { testing, blocked } = await this.pool.run('plan surface', input, { urgent: true })
    return { variogram, single: testing, blocked }
  }
}
