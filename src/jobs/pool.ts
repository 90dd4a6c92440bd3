/**
 * A pool of workers that runs named tasks.
 *
 * The pool knows no DOM and no Node: a factory makes the workers, so that the window, the
 * command line and a test share it. Results come back by promise, in whatever order the caller
 * awaits them; joining tiles in a fixed order is what makes the number of workers invisible.
 */
import type { TaskInput, TaskName, TaskOutput } from './tasks'

/** What the pool needs of a worker, in the window or in Node. */
export interface WorkerPort {
  post(message: unknown, transfer: readonly ArrayBuffer[]): void
  onMessage(handler: (message: unknown) => void): void
  onError(handler: (error: Error) => void): void
  terminate(): void
}

export type WorkerFactory = () => WorkerPort

export interface RunOptions {
  /**
   * Aborting it rejects at once: a task that waits is never run, one that runs is let finish in its
   * worker and its result dropped.
   */
  readonly signal?: AbortSignal
  /** Put before all that waits: for what someone looks at meanwhile. */
  readonly urgent?: boolean
  /** Buffers of the input handed over rather than copied. */
  readonly transfer?: readonly ArrayBuffer[]
}

export interface Pool {
  readonly size: number
  /** Runs one task; rejects with the task's error, or with an AbortError. */
  run<K extends TaskName>(
    task: K,
    input: TaskInput<K>,
    options?: RunOptions,
  ): Promise<TaskOutput<K>>
  /**
   * Gives every worker a value that tasks find by its key (a reference set, companions). The very
   * value that stands there already is not sent again.
   */
  provide(key: string, value: unknown): void
  /** Takes a provided value back from every worker. */
  withdraw(key: string): void
  close(): void
}

/** A pool some of whose workers may have been put off. */
export interface GrowingPool extends Pool {
  /** Starts the workers that were put off. */
  fill(): void
}

export type ToWorker =
  | { readonly kind: 'run'; readonly id: number; readonly task: string; readonly input: unknown }
  | { readonly kind: 'provide'; readonly key: string; readonly value: unknown }
  | { readonly kind: 'withdraw'; readonly key: string }

export type FromWorker =
  | { readonly id: number; readonly output: unknown }
  | { readonly id: number; readonly failure: string }

interface Waiting {
  readonly id: number
  readonly task: string
  readonly input: unknown
  readonly transfer: readonly ArrayBuffer[]
  readonly signal: AbortSignal | undefined
  readonly resolve: (output: unknown) => void
  readonly reject: (error: Error) => void
}

interface Seat {
  /** null after a worker died, until there is work for a fresh one. */
  worker: WorkerPort | null
  busy: Waiting | null
}

/** The error of a task that was stopped. */
export function stopped(): Error {
  return new DOMException('Stopped.', 'AbortError')
}

/** Whether an error means that someone pressed Stop, rather than that something failed. */
export function isStopped(error: unknown): boolean {
  return error instanceof Error && error.name === 'AbortError'
}

/** ms that work waits before another worker is started: several times what a fresh one costs. */
const PATIENCE = 3000

/**
 * A pool of `size` workers.
 *
 * @param first how many are started at once; the others are put off until work has waited for
 *   three seconds without a break, or until the pool is filled
 * @throws RangeError when `size` is not a whole number of at least 1
 */
export function startPool(makeWorker: WorkerFactory, size: number, first = size): GrowingPool {
  if (!Number.isInteger(size) || size < 1) {
    throw new RangeError(`A pool needs at least one worker, not ${size}.`)
  }
  return new SeatedPool(makeWorker, size, Math.min(Math.max(1, first), size))
}

/** Workers on seats, and one queue of what waits for a seat that is free. */
class SeatedPool implements GrowingPool {
  readonly #provided = new Map<string, unknown>()
  readonly #queue: Waiting[] = []
  readonly #seats: Seat[] = []
  readonly #heard = new WeakSet<AbortSignal>()
  #lastId = 0
  #closed = false
  /** Runs while work waits and seats are missing. */
  #patience: ReturnType<typeof setTimeout> | undefined

  constructor(
    private readonly makeWorker: WorkerFactory,
    readonly size: number,
    first: number,
  ) {
    while (this.#seats.length < first) this.#addSeat()
  }

  run<K extends TaskName>(
    task: K,
    input: TaskInput<K>,
    { signal, transfer = [], urgent = false }: RunOptions = {},
  ): Promise<TaskOutput<K>> {
    return new Promise<TaskOutput<K>>((resolve, reject) => {
      if (this.#closed) return reject(new Error('The pool is closed.'))
      if (signal?.aborted) return reject(stopped())
      if (signal) this.#listen(signal)
      const waiting: Waiting = {
        id: ++this.#lastId,
        task,
        input,
        transfer,
        signal,
        resolve: (output) => resolve(output as TaskOutput<K>),
        reject,
      }
      if (urgent) this.#queue.unshift(waiting)
      else this.#queue.push(waiting)
      this.#next()
    })
  }

  provide(key: string, value: unknown): void {
    if (this.#provided.has(key) && this.#provided.get(key) === value) return
    this.#provided.set(key, value)
    for (const { worker } of this.#seats) worker?.post({ kind: 'provide', key, value }, [])
  }

  withdraw(key: string): void {
    this.#provided.delete(key)
    for (const { worker } of this.#seats) worker?.post({ kind: 'withdraw', key }, [])
  }

  fill(): void {
    if (this.#closed) return
    while (this.#seats.length < this.size) this.#addSeat()
    this.#next()
  }

  close(): void {
    this.#closed = true
    clearTimeout(this.#patience)
    for (const waiting of this.#queue.splice(0)) waiting.reject(stopped())
    for (const { busy, worker } of this.#seats) {
      busy?.reject(stopped())
      worker?.terminate()
    }
  }

  #addSeat(): void {
    const seat: Seat = { worker: null, busy: null }
    this.#seats.push(seat)
    this.#seatWorker(seat)
  }

  #seatWorker(seat: Seat): WorkerPort {
    const worker = this.makeWorker()
    seat.worker = worker
    worker.onMessage((message) => this.#finish(seat, worker, message as FromWorker))
    worker.onError((error) => this.#dismiss(seat, worker, error))
    for (const [key, value] of this.#provided) worker.post({ kind: 'provide', key, value }, [])
    return worker
  }

  #finish(seat: Seat, worker: WorkerPort, message: FromWorker): void {
    if (seat.worker !== worker) return
    const waiting = seat.busy
    seat.busy = null
    if (waiting && waiting.id === message.id) {
      if (waiting.signal?.aborted) waiting.reject(stopped())
      else if ('failure' in message) waiting.reject(new Error(message.failure))
      else waiting.resolve(message.output)
    }
    this.#next()
  }

  /**
   * A worker that died takes its task with it. A fresh one is started only when there is work for
   * it, so that workers which cannot start at all do not follow one another for ever.
   */
  #dismiss(seat: Seat, worker: WorkerPort, error: Error): void {
    worker.terminate()
    if (this.#closed || seat.worker !== worker) return
    seat.worker = null
    const waiting = seat.busy
    seat.busy = null
    waiting?.reject(new Error(`A worker stopped unexpectedly: ${error.message}`))
    this.#next()
  }

  #next(): void {
    for (const seat of this.#seats) {
      while (!seat.busy) {
        const waiting = takeWaiting(this.#queue)
        if (!waiting) break
        this.#send(seat, waiting)
      }
    }
    this.#mindWaiting()
  }

  /** Adds a seat once work has waited long enough; what waits less is not worth a worker's start. */
  #mindWaiting(): void {
    if (this.#queue.length === 0 || this.#seats.length === this.size) {
      clearTimeout(this.#patience)
      this.#patience = undefined
      return
    }
    this.#patience ??= setTimeout(() => {
      this.#patience = undefined
      this.#addSeat()
      this.#next()
    }, PATIENCE)
  }

  /** Hands a task over; what cannot be sent fails alone and leaves the worker free. */
  #send(seat: Seat, waiting: Waiting): void {
    const { id, task, input, transfer } = waiting
    seat.busy = waiting
    try {
      const worker = seat.worker ?? this.#seatWorker(seat)
      worker.post({ kind: 'run', id, task, input } satisfies ToWorker, transfer)
    } catch (error) {
      seat.busy = null
      waiting.reject(error instanceof Error ? error : new Error(String(error)))
    }
  }

  /** Tells all that asked under a signal once it is aborted; one ear for all their tasks. */
  #listen(signal: AbortSignal): void {
    if (this.#heard.has(signal)) return
    this.#heard.add(signal)
    const tell = () => {
      const asked = [...this.#queue, ...this.#seats.flatMap(({ busy }) => busy ?? [])]
      for (const waiting of asked) if (waiting.signal === signal) waiting.reject(stopped())
    }
    signal.addEventListener('abort', tell, { once: true })
  }
}

/** The first waiting task that nobody has stopped; those that were are turned away on the way. */
function takeWaiting(queue: Waiting[]): Waiting | undefined {
  for (;;) {
    const waiting = queue.shift()
    if (!waiting || !waiting.signal?.aborted) return waiting
    waiting.reject(stopped())
  }
}
