/** A pool of web workers. */
import { startPool, type Pool, type WorkerPort } from './pool'

/** Starts a pool in the window: one worker fewer than the machine has threads, at least two. */
export function startWindowPool(threads = navigator.hardwareConcurrency): Pool {
  return startPool(openWorker, Math.min(8, Math.max(2, threads - 1)))
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
