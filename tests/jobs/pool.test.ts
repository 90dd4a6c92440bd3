/** The pool: order, stop, workers that die, what is provided, what cannot be sent. */
import { describe, expect, onTestFinished, test, vi } from 'vitest'
import { isStopped, startPool, type Pool } from '../../src/jobs/pool'
import type { TaskInput } from '../../src/jobs/tasks'
import { heldWorkers } from './ports'

/** A task told apart by its number; what it does is up to the held worker. */
function input(number: number): TaskInput<'lines on map'> {
  return { contours: [], tolerance: number, crs: 'local:m', centre: [0, 0] }
}

function ask(pool: Pool, number: number, signal?: AbortSignal): Promise<unknown> {
  return pool.run('lines on map', input(number), { signal })
}

/** How a promise ended. */
async function endOf(promise: Promise<unknown>): Promise<string> {
  try {
    return `gave ${JSON.stringify(await promise)}`
  } catch (error) {
    return isStopped(error) ? 'stopped' : `failed: ${(error as Error).message}`
  }
}

describe('order', () => {
  test('tasks begin in the order asked, one a worker, the next as one ends', async () => {
    const { made, make } = heldWorkers()
    const pool = startPool(make, 2)
    const ends = [1, 2, 3, 4].map((number) => endOf(ask(pool, number)))
    expect(made.map(({ tasks }) => tasks)).toEqual([[1], [2]])
    made[1].answer({ id: 2, output: 'two' })
    expect(made.map(({ tasks }) => tasks)).toEqual([[1], [2, 3]])
    made[0].answer({ id: 1, output: 'one' })
    made[0].answer({ id: 4, output: 'four' })
    made[1].answer({ id: 3, output: 'three' })
    expect(await Promise.all(ends)).toEqual(
      ['one', 'two', 'three', 'four'].map((w) => `gave "${w}"`),
    )
  })

  test('an urgent task goes before all that wait', () => {
    const { made, make } = heldWorkers()
    const pool = startPool(make, 1)
    for (const number of [1, 2]) void ask(pool, number)
    void pool.run('lines on map', input(3), { urgent: true })
    made[0].answer({ id: 1, output: 'one' })
    made[0].answer({ id: 3, output: 'three' })
    expect(made[0].tasks).toEqual([1, 3, 2])
  })

  test('a task’s own failure is its alone', async () => {
    const { made, make } = heldWorkers()
    const pool = startPool(make, 1)
    const ends = [endOf(ask(pool, 1)), endOf(ask(pool, 2))]
    made[0].answer({ id: 1, failure: 'no such plan' })
    made[0].answer({ id: 2, output: [] })
    expect(await Promise.all(ends)).toEqual(['failed: no such plan', 'gave []'])
    expect(made).toHaveLength(1)
  })

  test('a pool of no workers is refused', () => {
    for (const size of [0, -1, 1.5])
      expect(() => startPool(heldWorkers().make, size)).toThrow(RangeError)
  })
})

describe('workers that are put off', () => {
  test('come when work has waited long without a break, told all that was provided', () => {
    vi.useFakeTimers()
    onTestFinished(() => void vi.useRealTimers())
    const { made, make } = heldWorkers()
    const pool = startPool(make, 3, 1)
    pool.provide('references', { name: 'set' })
    for (const number of [1, 2, 3]) void ask(pool, number)
    vi.advanceTimersByTime(2900)
    made[0].answer({ id: 1, output: 'one' })
    made[0].answer({ id: 2, output: 'two' })
    // Nothing waits now, so that what comes next waits anew.
    vi.advanceTimersByTime(60_000)
    for (const number of [4, 5, 6]) void ask(pool, number)
    vi.advanceTimersByTime(2900)
    expect(made.map(({ tasks }) => tasks)).toEqual([[1, 2, 3]])
    vi.advanceTimersByTime(100)
    expect(made.map(({ tasks }) => tasks)).toEqual([[1, 2, 3], [4]])
    expect(made[1].posted[0]).toMatchObject({ kind: 'provide', key: 'references' })
    vi.advanceTimersByTime(3000)
    expect(made.map(({ tasks }) => tasks)).toEqual([[1, 2, 3], [4], [5]])
  })

  test('come at once when the pool is filled, and not to one that is closed', () => {
    const { made, make } = heldWorkers()
    const pool = startPool(make, 2, 1)
    for (const number of [1, 2]) void ask(pool, number)
    pool.fill()
    expect(made.map(({ tasks }) => tasks)).toEqual([[1], [2]])
    pool.fill()
    expect(made).toHaveLength(2)
    const closed = heldWorkers()
    const left = startPool(closed.make, 2, 1)
    left.close()
    left.fill()
    expect(closed.made).toHaveLength(1)
  })
})

describe('stop', () => {
  test('a task that waits is never posted, one that runs is dropped when it ends', async () => {
    const { made, make } = heldWorkers()
    const pool = startPool(make, 1)
    const controller = new AbortController()
    const ends = [1, 2, 3].map((n) => endOf(ask(pool, n, n < 3 ? controller.signal : undefined)))
    controller.abort()
    made[0].answer({ id: 1, output: 'late' })
    expect(made[0].tasks).toEqual([1, 3])
    made[0].answer({ id: 3, output: 'three' })
    expect(await Promise.all(ends)).toEqual(['stopped', 'stopped', 'gave "three"'])
  })

  test('whoever asked hears of it at once, not when the worker comes to the task’s end', async () => {
    const { made, make } = heldWorkers()
    const pool = startPool(make, 1)
    const controller = new AbortController()
    const running = endOf(ask(pool, 1, controller.signal))
    controller.abort()
    expect(await running).toBe('stopped')
    const next = endOf(ask(pool, 2))
    expect(made[0].tasks).toEqual([1])
    made[0].answer({ id: 1, output: 'late' })
    made[0].answer({ id: 2, output: 'two' })
    expect(await next).toBe('gave "two"')
  })

  test('what is asked with an aborted signal, or of a closed pool, is turned away', async () => {
    const { made, make } = heldWorkers()
    const pool = startPool(make, 1)
    expect(await endOf(ask(pool, 1, AbortSignal.abort()))).toBe('stopped')
    const ends = [endOf(ask(pool, 2)), endOf(ask(pool, 3))]
    pool.close()
    expect(await Promise.all(ends)).toEqual(['stopped', 'stopped'])
    expect(made[0].terminated).toBe(true)
    expect(await endOf(ask(pool, 4))).toMatch(/failed: .*closed/)
  })
})

describe('a worker that dies', () => {
  test('takes its own task with it; a fresh one, told all that was provided, does the rest', async () => {
    const { made, make } = heldWorkers()
    const pool = startPool(make, 1)
    pool.provide('references', { name: 'set' })
    pool.provide('gone', 1)
    pool.withdraw('gone')
    const ends = [endOf(ask(pool, 1)), endOf(ask(pool, 2))]
    made[0].die('out of memory')
    expect(made).toHaveLength(2)
    expect(made[0].terminated).toBe(true)
    expect(made[1].posted[0]).toEqual({
      kind: 'provide',
      key: 'references',
      value: { name: 'set' },
    })
    expect(made[1].tasks).toEqual([2])
    // What the dead one still says is not heard.
    made[0].answer({ id: 2, output: 'from beyond' })
    made[1].answer({ id: 2, output: 'two' })
    expect(await Promise.all(ends)).toEqual([
      'failed: A worker stopped unexpectedly: out of memory',
      'gave "two"',
    ])
  })

  test('while idle is followed by another only when there is work', async () => {
    const { made, make } = heldWorkers()
    const pool = startPool(make, 2)
    made[0].die('could not start')
    made[1].die('could not start')
    expect(made).toHaveLength(2)
    const end = endOf(ask(pool, 1))
    expect(made).toHaveLength(3)
    made[2].answer({ id: 1, output: 'one' })
    expect(await end).toBe('gave "one"')
  })

  test('whenever it is started fails each task and ends there', async () => {
    const { made, make } = heldWorkers()
    const pool = startPool(make, 1)
    const ends = [1, 2, 3].map((number) => endOf(ask(pool, number)))
    for (let i = 0; i < made.length; i++) made[i].die('no such file')
    expect(await Promise.all(ends)).toEqual(
      Array(3).fill('failed: A worker stopped unexpectedly: no such file'),
    )
    expect(made).toHaveLength(3)
  })

  test('after the pool was closed is not followed', () => {
    const { made, make } = heldWorkers()
    const pool = startPool(make, 1)
    pool.close()
    made[0].die('terminated')
    expect(made).toHaveLength(1)
  })
})

test('what cannot be sent fails alone and leaves its worker to the next', async () => {
  const { made, make } = heldWorkers()
  const pool = startPool(make, 1)
  const unsendable = { ...input(1), contours: [() => 1] as unknown as [] }
  const ends = [endOf(pool.run('lines on map', unsendable)), endOf(ask(pool, 2))]
  expect(made[0].tasks).toEqual([2])
  made[0].answer({ id: 2, output: 'two' })
  expect(await Promise.all(ends)).toEqual([
    expect.stringMatching(/failed: .*could not be cloned/),
    'gave "two"',
  ])
})
