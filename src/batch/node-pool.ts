/** A pool of Node worker threads. */
import { Worker } from 'node:worker_threads'
import { startPool, type Pool, type WorkerPort } from '../jobs/pool'

/** Starts `size` worker threads on the built worker that stands beside the built command. */
export function startNodePool(size: number): Pool {
  return startPool(openWorker, size)
}

function openWorker(): WorkerPort {
  const worker = new Worker(new URL('./node-worker.js', import.meta.url))
  return {
    post: (message, transfer) => worker.postMessage(message, [...transfer]),
    onMessage: (handler) => void worker.on('message', handler),
    onError: (handler) => void worker.on('error', handler),
    terminate: () => void worker.terminate(),
  }
}
