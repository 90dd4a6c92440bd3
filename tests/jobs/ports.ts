/** Workers that a test holds in its hands: it sees what is posted and says what comes back. */
import type { FromWorker, ToWorker, WorkerPort } from '../../src/jobs/pool'

export class HeldWorker {
  readonly posted: ToWorker[] = []
  terminated = false
  #receive: (message: unknown) => void = () => undefined
  #fail: (error: Error) => void = () => undefined

  readonly port: WorkerPort = {
    post: (message) => void this.posted.push(structuredClone(message) as ToWorker),
    onMessage: (handler) => {
      this.#receive = handler
    },
    onError: (handler) => {
      this.#fail = handler
    },
    terminate: () => {
      this.terminated = true
    },
  }

  /** The ids of the tasks that it was given. */
  get tasks(): number[] {
    return this.posted.flatMap((message) => (message.kind === 'run' ? [message.id] : []))
  }

  answer(message: FromWorker): void {
    this.#receive(message)
  }

  die(why: string): void {
    this.#fail(new Error(why))
  }
}

/** A factory that keeps every worker it made. */
export function heldWorkers(): { readonly made: HeldWorker[]; readonly make: () => WorkerPort } {
  const made: HeldWorker[] = []
  const make = () => {
    const worker = new HeldWorker()
    made.push(worker)
    return worker.port
  }
  return { made, make }
}
