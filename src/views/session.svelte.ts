/** What the screen itself remembers: the open step, the selection, the look. Not the project. */
import type { FeatureCollection } from 'geojson'
import { getContext, setContext } from 'svelte'
import type { Activity } from '../project/activity'
import type { Placement } from '../places/place-scans'
import type { InputSource } from '../project/reading'
import type { Snapshot, Workspace } from '../project/workspace'
import type { Stretching } from './map-view/surface-picture'
import { keepLook, keptLook } from './kept-look'
import type { Look } from './looks'
import { changeWords } from './shell/change-words'
import { steps, type StepId } from './shell/steps'
import type { WalkDraft } from './traverse/walk-draft'

/** Layers that are off until asked for: names crowd a map. */
export const HIDDEN_AT_FIRST: ReadonlySet<string> = new Set(['names'])

/** What the pointer stands on, in degrees. */
export interface Pointer {
  readonly longitude: number
  readonly latitude: number
  /** Whether a finger touched there: it stays until the next touch. */
  readonly touched?: boolean
}

/** What the next press on the map is for. */
export interface MapPress {
  /** What is to be pressed, such as `the start of the walk`. */
  readonly what: string
  /** Told where: degrees on the map, and in the working unit. */
  readonly at: (degrees: readonly [number, number], working: readonly [number, number]) => void
}

/** One empty list for all that is not there yet: a new one each time would look like a change. */
const NONE: readonly never[] = []

/** What the screen shows: the workspace’s latest snapshot, and what is the screen’s own (step, selection, look). */
export class Session {
  /** The workspace's latest snapshot; replaced whole, never changed in place. */
  snapshot = $state.raw<Snapshot>() as Snapshot
  step = $state<StepId | null>(null)
  /** Numbers of the selected stations; the last is the one that the drawer shows. */
  selected = $state.raw<readonly number[]>([])
  /** Whether touches on the map add to the selection; the drawer waits until it is done. */
  selecting = $state(false)
  /** Whether the drawer takes most of the window, for a record or a plot that wants room. */
  tall = $state(false)
  /** The scan shown first in the drawer, an index into the results' scans; null for the first. */
  scan = $state<number | null>(null)
  /** Scans ticked in the Check step, indices into the results' scans. */
  ticked = $state.raw<ReadonlySet<number>>(new Set())
  #look = $state<Look>('desk')
  pointer = $state.raw<Pointer | null>(null)
  /** Outlines of the ground, for what they say of a station. */
  outlines = $state.raw<FeatureCollection | null>(null)
  /** Whether there is an elevation model to shade. */
  hillshade = $state(false)
  /** Ids of layers taken off the map. */
  hidden = $state.raw<ReadonlySet<string>>(HIDDEN_AT_FIRST)
  /** Whether the legend is unfolded and the map keeps clear of it. */
  legendOpen = $state(true)
  /** The surface shown, by name; null for none. */
  surface = $state<string | null>(null)
  /** The surface right of the divider, by name; null where one is shown alone. */
  beside = $state<string | null>(null)
  /** The surface whose residuals are on the map, by name; null for none. */
  residuals = $state<string | null>(null)
  /** Whether the surface's uncertainty is shown in place of its estimate. */
  uncertainty = $state(false)
  /** How the colours of surfaces are spread over their values. */
  stretching = $state<Stretching>('even')
  /** What was undone or redone last, until something else changes; empty for nothing. */
  told = $state('')
  /** What the next press on the map answers; null where it selects. */
  mapPress = $state.raw<MapPress | null>(null)
  /** The stop of the walk that is looked at, counted from 0; null for none. */
  walkStop = $state<number | null>(null)
  /** What is chosen for a walk that is not planned yet; null for nothing. */
  walkDraft = $state.raw<WalkDraft | null>(null)
  /** A failure of the screen itself, such as a drop that could not be read; empty for none. */
  failure = $state('')
  /** The user's own files that wait for a word on whether they go among invented ones. */
  offered = $state.raw<readonly InputSource[] | null>(null)
  /** Pictures dropped on the drawer, until its station's photos take them. */
  pictures = $state.raw<readonly File[]>([])
  /** What was stopped last, until something runs again; null where nothing waits. */
  stopped = $state.raw<Activity | null>(null)
  /** Counts presses of ‘Show all’. */
  fit = $state(0)

  // Parts of the snapshot, so that what leans on one of them rests while others change.
  readonly results = $derived(this.snapshot.results)
  readonly project = $derived(this.snapshot.project)
  readonly holdings = $derived(this.snapshot.holdings)
  readonly classRules = $derived(this.snapshot.project.recipe.classes)
  readonly heads = $derived(this.snapshot.results?.heads ?? NONE)
  readonly placement = $derived(this.snapshot.results?.placement ?? null)
  /** Whether scans were looked at: before that, verdicts and classes mean nothing. */
  readonly examined = $derived(this.snapshot.results?.examined ?? false)
  readonly verdicts = $derived(this.snapshot.results?.verdicts ?? NONE)
  readonly identifications = $derived(this.snapshot.results?.identifications ?? NONE)
  readonly varieties = $derived(this.snapshot.results?.varieties ?? NONE)
  readonly indices = $derived(this.snapshot.results?.indices ?? NONE)
  readonly stationClasses = $derived(this.snapshot.results?.stationClasses ?? NONE)
  readonly stationMinerals = $derived(this.snapshot.results?.stationMinerals ?? NONE)
  /** The day's work as a line; not worked out anew at every tick of progress. */
  readonly steps = $derived(
    steps({ holdings: this.holdings, project: this.project, results: this.results }),
  )
  /** Scans that stand nowhere on the map. */
  readonly unplaced = $derived(
    this.placement?.scans.flatMap(({ station }, scan) => (station === null ? [scan] : [])) ?? [],
  )
  readonly chosen: ReadonlySet<number> = $derived(new Set(this.selected))

  /** The station that the drawer shows. */
  readonly station = $derived(this.selected.at(-1) ?? null)
  /**
   * The scan that is looked at: the one asked for, else the selected station's first. A scan
   * without a place has no station, and is looked at without one.
   */
  readonly shownScan = $derived.by(() => {
    if (this.station === null) {
      const alone = this.scan !== null && this.placement?.scans[this.scan]?.station === null
      return alone ? this.scan : null
    }
    const scans = this.placement?.stations[this.station]?.scans
    if (!scans || scans.length === 0) return null
    return this.scan !== null && scans.includes(this.scan) ? this.scan : scans[0]
  })

  /** The look; the page takes it at once, so that what reads its tokens next finds the new ones. */
  get look(): Look {
    return this.#look
  }

  set look(look: Look) {
    document.documentElement.dataset.look = look
    this.#look = look
    keepLook(look)
  }

  constructor(readonly workspace: Workspace) {
    this.snapshot = workspace.snapshot
    const look = keptLook()
    if (look !== null) this.look = look
    workspace.subscribe((snapshot) => {
      this.#follow(this.snapshot.results?.placement, snapshot.results?.placement)
      // Scans are numbered anew where files came or went: another one is not what was looked at.
      const { scan } = this
      if (scan !== null && snapshot.results?.heads[scan] !== this.heads[scan]) this.scan = null
      if (snapshot.results?.scanNumbers !== this.results?.scanNumbers) this.ticked = new Set()
      if (snapshot.project !== this.project) this.told = ''
      const last = this.stopped?.id ?? Infinity
      if (snapshot.activities.some(({ id }) => id > last)) this.stopped = null
      this.snapshot = snapshot
    })
  }

  /** Keeps to the same stations, by name, where placing has numbered them anew. */
  #follow(before: Placement | undefined, after: Placement | undefined): void {
    if (before === after || this.selected.length === 0) return
    const numbers = new Map(after?.stations.map(({ name }, number) => [name, number]))
    this.selectAll(
      this.selected.flatMap((number) => numbers.get(before?.stations[number]?.name ?? '') ?? []),
    )
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

  /** Selects these stations and no others. */
  selectAll(stations: readonly number[]): void {
    this.scan = null
    this.selected = stations
  }

  /** Ticks these scans, or takes their ticks off. */
  tick(scans: readonly number[], on: boolean): void {
    const ticked = new Set(this.ticked)
    for (const scan of scans) {
      if (on) ticked.add(scan)
      else ticked.delete(scan)
    }
    this.ticked = ticked
  }

  /** Selects the station of a scan, and shows that scan. One without a place is shown alone. */
  selectScan(scan: number): void {
    this.select(this.placement?.scans[scan]?.station ?? null)
    this.scan = scan
  }

  /**
   * Shows the next station: of the selection where more than one is selected, else of all. From a
   * scan without a place it is the next such scan.
   */
  showNext(by: 1 | -1): void {
    const { selected, placement, shownScan } = this
    if (selected.length > 1) {
      const cut = by > 0 ? 1 : selected.length - 1
      this.selectAll([...selected.slice(cut), ...selected.slice(0, cut)])
    } else if (selected.length === 1 && placement) {
      const count = placement.stations.length
      this.select((selected[0] + by + count) % count)
    } else if (shownScan !== null) {
      const alone = this.unplaced
      this.selectScan(alone[(alone.indexOf(shownScan) + by + alone.length) % alone.length])
    }
  }

  /** Shows a layer that was hidden, or hides one that is shown. */
  toggle(layer: string): void {
    const hidden = new Set(this.hidden)
    if (!hidden.delete(layer)) hidden.add(layer)
    this.hidden = hidden
  }

  /** Takes the last change back, and says what it was. */
  undo(): void {
    this.#retell('Undone', () => this.workspace.undo())
  }

  /** Makes again what was undone last, and says what it was. */
  redo(): void {
    this.#retell('Redone', () => this.workspace.redo())
  }

  #retell(how: string, change: () => void): void {
    const before = this.workspace.snapshot.project
    change()
    const words = changeWords(before, this.workspace.snapshot.project)
    this.told = words === '' ? '' : `${how}: ${words}`
  }

  /** Stops a running activity; the screen then offers to go on. */
  stop(activity: Activity): void {
    this.workspace.stop(activity.id)
    this.stopped = activity
  }

  /** Takes up what was stopped: with no more files read, all that is missing is computed. */
  goOn(): void {
    this.stopped = null
    this.workspace.resume()
  }

  /** Opens a step, or closes it where it is open. */
  openStep(step: StepId | null): void {
    this.step = this.step === step ? null : step
  }

  /** Closes the open step and gives the keyboard back to its place in the line. */
  closeStep(): void {
    const { step } = this
    this.step = null
    if (step) document.getElementById(`step-${step}`)?.focus()
  }
}

const KEY = Symbol('session')

/** Hands the session to all components below the one that calls it. */
export function provideSession(session: Session): Session {
  return setContext(KEY, session)
}

/** The session of the window; to be called while a component is made. */
export function useSession(): Session {
  return getContext<Session>(KEY)
}
