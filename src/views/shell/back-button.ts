/**
 * The browser's Back closes what was opened last, as Escape does, before it leaves the program: one
 * entry of the browser's history stands for each thing that is open.
 */

/** What of the browser is used; tests hand in their own. */
export interface Past {
  readonly state: unknown
  pushState(state: unknown, unused: string): void
  go(by: number): void
}

/** Keeps an entry of the browser’s history for each thing that is open, and closes on Back. */
export class BackButton {
  /** Entries that stand for open things. */
  #entries: number
  /** Moves that were asked for here: their arrival closes nothing. */
  #own = 0

  /**
   * @param closeLast closes what was opened last
   */
  constructor(
    private readonly past: Past,
    private readonly closeLast: () => void,
  ) {
    // After a reload entries of before may stand there; nothing is open any more.
    this.#entries = depthOf(past.state)
  }

  /** Tells how many things are open now. */
  follow(open: number): void {
    while (this.#entries < open) this.past.pushState({ open: ++this.#entries }, '')
    if (this.#entries > open) {
      this.#own++
      this.past.go(open - this.#entries)
      this.#entries = open
    }
  }

  /** The browser has moved in its history. */
  moved(open: number): void {
    if (this.#own > 0) {
      this.#own--
      return
    }
    this.#entries = depthOf(this.past.state)
    for (let left = open; left > this.#entries; left--) this.closeLast()
    // Forward opens nothing: there is no telling what stood there.
    this.follow(Math.min(open, this.#entries))
  }
}

function depthOf(state: unknown): number {
  if (typeof state !== 'object' || state === null || !('open' in state)) return 0
  return typeof state.open === 'number' ? state.open : 0
}
