/** Long jobs as the screen shows them: how far, and how to stop. */

/** The label under which files are read: until it ends they are nowhere but in the window. */
export const READING = 'Reading files'

export interface Activity {
  readonly id: number
  /** What is being done, such as `Reading scans`. */
  readonly label: string
  readonly done: number
  readonly total: number
}

/** Keeps the list of running activities and tells when it changes. */
export class Activities {
  #running = new Map<number, { activity: Activity; controller: AbortController }>()
  #lastId = 0

  constructor(private readonly changed: () => void) {}

  get list(): readonly Activity[] {
    return [...this.#running.values()].map(({ activity }) => activity)
  }

  /**
   * Runs a job under a label. The job gets a signal that Stop aborts, and a function that
   * reports progress.
   */
  async run<T>(
    label: string,
    total: number,
    job: (signal: AbortSignal, progress: (done: number, total?: number) => void) => Promise<T>,
    controller = new AbortController(),
  ): Promise<T> {
    const id = ++this.#lastId
    this.#running.set(id, { activity: { id, label, done: 0, total }, controller })
    this.changed()
    const progress = (done: number, of = total) => {
      const entry = this.#running.get(id)
      if (!entry) return
      entry.activity = { id, label, done, total: of }
      this.changed()
    }
    try {
      return await job(controller.signal, progress)
    } finally {
      this.#running.delete(id)
      this.changed()
    }
  }

  /** Stops one activity, or all of them. */
  stop(id?: number): void {
    for (const [key, { controller }] of this.#running) {
      if (id === undefined || key === id) controller.abort()
    }
  }
}
