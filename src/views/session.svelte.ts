/** What the screen itself remembers: the open step, the selection, the look. Not the project. */
import { getContext, setContext } from 'svelte'
import type { Snapshot, Workspace } from '../project/workspace'
import type { StepId } from './shell/steps'

export const LOOKS = ['desk', 'daylight', 'projector'] as const
export type Look = (typeof LOOKS)[number]

/** What the pointer stands on, in degrees. */
export interface Pointer {
  readonly longitude: number
  readonly latitude: number
}

export class Session {
  /** The workspace's latest snapshot; replaced whole, never changed in place. */
  snapshot = $state.raw<Snapshot>() as Snapshot
  step = $state<StepId | null>(null)
  /** Numbers of the selected stations, in the order they were selected. */
  selected = $state.raw<readonly number[]>([])
  /** The scan shown first in the drawer, an index into the results' scans; null for the first. */
  scan = $state<number | null>(null)
  look = $state<Look>('desk')
  pointer = $state.raw<Pointer | null>(null)
  /** Ids of layers taken off the map. */
  hidden = $state.raw<ReadonlySet<string>>(new Set())
  /** The surface shown, by name; null for none. */
  surface = $state<string | null>(null)
  /** Whether the surface's uncertainty is shown in place of its estimate. */
  uncertainty = $state(false)
  /** Counts presses of ‘Show all’. */
  fit = $state(0)

  constructor(readonly workspace: Workspace) {
    this.snapshot = workspace.snapshot
    workspace.subscribe((snapshot) => {
      this.snapshot = snapshot
    })
  }

  get results() {
    return this.snapshot.results
  }

  /** Selects one station, or adds it to the selection and takes it out again. */
  select(station: number | null, add = false): void {
    this.scan = null
    if (station === null) this.selected = []
    else if (!add) this.selected = [station]
    else if (this.selected.includes(station)) {
      this.selected = this.selected.filter((other) => other !== station)
    } else this.selected = [...this.selected, station]
  }

  /** Shows a layer that was hidden, or hides one that is shown. */
  toggle(layer: string): void {
    const hidden = new Set(this.hidden)
    if (!hidden.delete(layer)) hidden.add(layer)
    this.hidden = hidden
  }

  /** Opens a step, or closes it where it is open. */
  openStep(step: StepId | null): void {
    this.step = this.step === step ? null : step
  }
}

const KEY = Symbol('session')

export function provideSession(session: Session): Session {
  return setContext(KEY, session)
}

export function useSession(): Session {
  return getContext<Session>(KEY)
}
