/** A surface by its name, as it was last computed: what shows it keeps its shape meanwhile. */
import type { SurfaceResult } from '../project/results'
import { isShowable } from './map-view/surface-picture'
import type { Session } from './session.svelte'

/** Follows one surface; made while a component is. */
export class FollowedSurface {
  readonly #session: Session
  readonly #name: () => string | null
  #last = $state.raw<{ readonly opened: number; readonly surface: SurfaceResult } | null>(null)

  /** What stands in the results now; null where nothing does. */
  readonly current = $derived.by((): SurfaceResult | null => {
    const name = this.#name()
    return this.#session.results?.surfaces.find(({ rule }) => rule.name === name) ?? null
  })

  /** The current state where it says something, else the last one that did. */
  readonly shown = $derived.by((): SurfaceResult | null => {
    const { current } = this
    if (current && saysSomething(current)) return current
    const last = this.#last
    const same =
      last?.opened === this.#session.snapshot.opened &&
      last.surface.rule.name === this.#name() &&
      this.#session.project.recipe.surfaces.some(({ name }) => name === this.#name())
    return same ? last.surface : current
  })

  /** Whether what is shown is how it was before a change that is still being worked out. */
  readonly isOld = $derived(this.shown !== null && this.shown !== this.current)

  constructor(session: Session, name: () => string | null) {
    this.#session = session
    this.#name = name
    $effect(() => {
      const { current } = this
      if (current && saysSomething(current))
        this.#last = { opened: session.snapshot.opened, surface: current }
    })
  }
}

function saysSomething(surface: SurfaceResult): boolean {
  return surface.state === 'failed' || isShowable(surface)
}
