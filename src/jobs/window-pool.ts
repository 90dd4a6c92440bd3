/** A pool of web workers. */
import { startPool, type GrowingPool, type WorkerPort } from './pool'

/**
 * Starts a pool in the window: one worker fewer than the machine has threads, at least two. Of two
 * threads the page and its graphics want one while it opens, so that the second worker is put off
 * there: the engine makes the same code fast once more for each that is fresh.
 */
export function startWindowPool(threads = navigator.hardwareConcurrency): GrowingPool {
  const free = Math.min(8, Math.max(1, threads - 1))
  return startPool(openWorker, Math.max(2, free), free)
}

function openWorker(): WorkerPort {
  const worker = new Worker(new URL('./window-worker.ts', import.meta.url), { type: 'module' })
  return {
    post: (message, transfer) => worker.postMessage(message, [...transfer]),
    onMessage: (handler) => {
      worker.onmessage = (event: MessageEvent<unknown>) => handler(event.data)
    },
    onError: (handler) => {
      worker.onerror = (event) => handler(new Error(event.message || 'unknown error'))
    },
    terminate: () => worker.terminate(),
  }
}
