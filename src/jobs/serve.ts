/** A worker's side: takes messages, runs tasks, sends results. */
import type { FromWorker, ToWorker } from './pool'
import { tasks, type TaskName, type Transferred } from './tasks'

type Send = (message: FromWorker, transfer: readonly ArrayBuffer[]) => void

/**
 * Gives a worker's message handler.
 *
 * @param send posts a message back, handing over the buffers named
 * @param afterProvided told of all that is provided, each time something was
 * @param own what the worker itself provides
 */
export function serve(
  send: Send,
  afterProvided: (provided: ReadonlyMap<string, unknown>) => void = () => undefined,
  own: ReadonlyMap<string, unknown> = new Map(),
): (message: unknown) => Promise<void> {
  const provided = new Map(own)
  return async (message) => {
    const request = message as ToWorker
    if (request.kind === 'provide') {
      provided.set(request.key, request.value)
      afterProvided(provided)
      return
    }
    if (request.kind === 'withdraw') {
      provided.delete(request.key)
      return
    }
    try {
      const run = tasks[request.task as TaskName] as (
        input: unknown,
        provided: ReadonlyMap<string, unknown>,
      ) => Transferred<unknown> | Promise<Transferred<unknown>>
      const { output, transfer } = await run(request.input, provided)
      send({ id: request.id, output }, transfer)
    } catch (error) {
      const failure = error instanceof Error ? error.message : String(error)
      send({ id: request.id, failure }, [])
    }
  }
}
