/** The surface on the map, and another one beside it where two are swiped. */
import { percentiles } from '../../colour/stretch'
import type { Spread } from '../../jobs/finish-surface'
import type { SurfaceResult } from '../../project/results'
import { givesChance } from '../../surfaces/model'
import { FollowedSurface } from '../followed-surface.svelte'
import type { Session } from '../session.svelte'
import { isShowable } from './surface-picture'

/** The one or two surfaces on the map and what each shows. */
export class Swiped {
  readonly #first: FollowedSurface
  readonly #second: FollowedSurface

  /** Drawn on the map, left of the divider where there is one. */
  readonly first = $derived.by(() => showable(this.#first.shown))
  /** Right of the divider; null where one surface is shown. */
  readonly second = $derived.by(() => (this.first ? showable(this.#second.shown) : null))
  readonly isOld = $derived.by(
    () => this.#first.isOld || (this.second !== null && this.#second.isOld),
  )
  /** How both are spread, where they are of the same index: then they share their colours. */
  readonly common = $derived.by((): Spread | null => {
    const [a, b] = [this.first, this.second]
    return a && b && sameIndex(a, b) ? joined(spreadOf(a), spreadOf(b)) : null
  })

  constructor(session: Session) {
    this.#first = new FollowedSurface(session, () => session.surface)
    this.#second = new FollowedSurface(session, () =>
      session.beside === session.surface ? null : session.beside,
    )
  }
}

function showable(surface: SurfaceResult | null): SurfaceResult | null {
  return surface && isShowable(surface) ? surface : null
}

function spreadOf({ spread, partial }: SurfaceResult): Spread | null {
  return spread ?? partial?.spread ?? null
}

function sameIndex(a: SurfaceResult, b: SurfaceResult): boolean {
  const chance = givesChance(a.rule.method) || givesChance(b.rule.method)
  return a.rule.value !== undefined && a.rule.value === b.rule.value && !chance
}

/** Both surfaces' percentiles thrown together. */
function joined(a: Spread | null, b: Spread | null): Spread {
  const both = (x?: Float64Array | null, y?: Float64Array | null) =>
    x || y ? percentiles(Float64Array.from([...(x ?? []), ...(y ?? [])])) : null
  return { estimate: both(a?.estimate, b?.estimate), error: both(a?.error, b?.error) }
}
