/** A pool without workers, for tests and for a place where none can be started. */
import type { FromWorker } from './pool'
import { startPool, type Pool, type WorkerPort } from './pool'
import { serve } from './serve'

/**
 * A pool of one that runs tasks in the caller's own thread, a turn of the event loop each.
 * Messages are cloned as a worker would have them, so that what cannot be sent fails here too.
 */
export function startInlinePool(): Pool {
  return startPool(openInline, 1)
}

function openInline(): WorkerPort {
  let receive: (message: unknown) => void = () => undefined
  const handle = serve((message: FromWorker, transfer) =>
    receive(structuredClone(message, { transfer: [...transfer] })),
  )
  return {
    post: (message, transfer) => {
      const clone: unknown = structuredClone(message, { transfer: [...transfer] })
      queueMicrotask(() => void handle(clone))
    },
    onMessage: (handler) => {
      receive = handler
    },
    onError: () => undefined,
    terminate: () => undefined,
  }
}
