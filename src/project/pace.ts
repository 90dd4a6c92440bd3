/** Piecework done a stretch at a time, so that the window answers in between. */
import type { Piecework } from '../spectra/piecework'

/** ms of work before other things have their turn: less than a frame and a half. */
const STRETCH = 20

/**
 * Does piecework, giving way to the event loop after each stretch.
 *
 * @throws the signal's reason once it is aborted
 */
export async function paced<T>(work: Piecework<T>, signal: AbortSignal): Promise<T> {
  let until = performance.now() + STRETCH
  for (;;) {
    const { done, value } = work.next()
    if (done) return value
    if (performance.now() < until) continue
    await nextTurn()
    signal.throwIfAborted()
    until = performance.now() + STRETCH
  }
}

/** Resolves when what waited in the event loop has had its turn. */
export function nextTurn(): Promise<void> {
  const { scheduler } = globalThis as { scheduler?: { yield?: () => Promise<void> } }
  if (scheduler?.yield) return scheduler.yield()
  // A message comes sooner than a timer, which browsers hold back by 4 ms when it is set again.
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel()
    port1.onmessage = () => {
      port1.close()
      resolve()
    }
    port2.postMessage(null)
  })
}
