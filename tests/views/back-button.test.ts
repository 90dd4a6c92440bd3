/** Back closes what is open, one after another, and only then leaves. */
import { expect, test } from 'vitest'
import { BackButton, type Past } from '../../src/views/shell/back-button'

/** A browser's history, as HTML has it: pushing drops what lies ahead; moving tells later. */
class Browser implements Past {
  entries: unknown[] = ['elsewhere', null]
  at = 1
  #moves: (() => void)[] = []
  onMove = () => {}

  get state(): unknown {
    return this.entries[this.at]
  }
  pushState(state: unknown): void {
    this.entries = [...this.entries.slice(0, this.at + 1), state]
    this.at++
  }
  go(by: number): void {
    this.#moves.push(() => {
      this.at += by
      this.onMove()
    })
  }
  settle(): void {
    while (this.#moves.length > 0) this.#moves.shift()?.()
  }
}

/** A window with things open in it. */
function windowOf(browser: Browser) {
  const open: string[] = []
  const back = new BackButton(browser, () => open.pop())
  browser.onMove = () => {
    if (browser.at > 0) back.moved(open.length)
  }
  const set = (...things: string[]) => {
    open.splice(0, open.length, ...things)
    back.follow(open.length)
    browser.settle()
  }
  const press = (by: number) => {
    browser.go(by)
    browser.settle()
  }
  return { open, set, press }
}

test('each press closes what was opened last, and the next one leaves', () => {
  const browser = new Browser()
  const { open, set, press } = windowOf(browser)
  set('step')
  set('step', 'drawer')
  press(-1)
  expect(open).toEqual(['step'])
  press(-1)
  expect(open).toEqual([])
  expect(browser.at).toBe(1)
  press(-1)
  expect(browser.state).toBe('elsewhere')
})

test('what is closed by hand leaves no press that does nothing', () => {
  const browser = new Browser()
  const { open, set, press } = windowOf(browser)
  set('step')
  set('step', 'drawer')
  set()
  expect(browser.at).toBe(1)
  set('step')
  press(-1)
  expect(open).toEqual([])
  expect(browser.at).toBe(1)
})

test('Forward opens nothing and is taken back', () => {
  const browser = new Browser()
  const { open, set, press } = windowOf(browser)
  set('step')
  press(-1)
  press(1)
  expect(open).toEqual([])
  expect(browser.at).toBe(1)
})

test('entries of before a reload are gone back over', () => {
  const browser = new Browser()
  windowOf(browser).set('step', 'drawer')
  expect(browser.at).toBe(3)
  const { open, set, press } = windowOf(browser)
  set()
  expect(browser.at).toBe(1)
  set('step')
  press(-1)
  expect(open).toEqual([])
  expect(browser.at).toBe(1)
})
