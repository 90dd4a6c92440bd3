/** Work that is asked for faster than it can be done: one at a time, and of those that wait the newest. */

export class Latest<T> {
  #busy = false
  #soon = true
  #next: (() => Promise<T>) | null = null

  /**
   * @param take called with each result that came, in order
   * @param fail called with the error of work that failed
   * @param rest ms from the end of a piece of work to the next of what had to wait
   */
  constructor(
    private readonly take: (result: T) => void,
    private readonly fail: (error: unknown) => void,
    private readonly rest = 0,
  ) {}

  /**
   * Begins a piece of work, or has it wait in place of what waited before.
   *
   * @param soon whether it need not rest before: it is the last, or of another matter
   */
  ask(work: () => Promise<T>, soon = true): void {
    this.#next = work
    this.#soon = soon
    if (soon) this.#wake()
    if (!this.#busy) void this.#run()
  }

  #wake: () => void = () => undefined

  #resting(): Promise<void> {
    return new Promise((resolve) => {
      const timer = setTimeout(resolve, this.rest)
      this.#wake = () => {
        clearTimeout(timer)
        resolve()
      }
    })
  }

  async #run(): Promise<void> {
    this.#busy = true
    for (let work = this.#next; work; work = this.#next) {
      this.#next = null
      try {
        this.take(await work())
      } catch (error) {
        this.fail(error)
      }
      // What came meanwhile and need not rest goes on at once.
      if (this.rest > 0 && !(this.#next && this.#soon)) await this.#resting()
    }
    this.#busy = false
  }
}
