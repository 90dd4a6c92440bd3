/**
 * Where the keyboard was before something opened over the map. When that closes and takes the
 * focused button with it, the keyboard goes back there and not to the top of the page.
 */
export class FocusBack {
  #from: HTMLElement | null = null
  #wasOpen = false
  #byKeys = false

  /** Tells whether the last thing used was a key: a finger wants no field focused, which raises a keyboard. */
  used(byKeys: boolean): void {
    this.#byKeys = byKeys
  }

  /**
   * To be called when it has opened or closed.
   *
   * @param fallback where to go when the place of before is gone
   */
  follow(isOpen: boolean, fallback: () => HTMLElement | null): void {
    if (isOpen === this.#wasOpen) return
    this.#wasOpen = isOpen
    const focused = document.activeElement
    if (isOpen) this.#from = focused instanceof HTMLElement ? focused : null
    else if (this.#byKeys && focused === document.body) {
      const isThere = this.#from?.isConnected && this.#from !== document.body
      ;(isThere ? this.#from : fallback())?.focus()
    }
  }
}
