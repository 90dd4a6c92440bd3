/** Work that is asked for faster than it can be done. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { Latest } from '../../src/views/latest'

beforeEach(() => void vi.useFakeTimers())
afterEach(() => void vi.useRealTimers())

/** A piece of work of 100 ms that gives its name. */
const work = (name: string) => () =>
  new Promise<string>((resolve) => setTimeout(() => resolve(name), 100))

function taken(rest?: number) {
  const list: string[] = []
  const failed: unknown[] = []
  const latest = new Latest<string>(
    (name) => list.push(name),
    (error) => failed.push(error),
    rest,
  )
  return { list, failed, latest }
}

test('of what waits only the newest is done', async () => {
  const { list, latest } = taken()
  for (const name of ['a', 'b', 'c', 'd']) latest.ask(work(name))
  await vi.advanceTimersByTimeAsync(250)
  expect(list).toEqual(['a', 'd'])
})

test('what is not urgent rests after the one before; what is goes at once, even asked meanwhile', async () => {
  const { list, latest } = taken(1000)
  latest.ask(work('a'), false)
  latest.ask(work('b'), false)
  await vi.advanceTimersByTimeAsync(1050)
  expect(list).toEqual(['a'])
  await vi.advanceTimersByTimeAsync(200)
  expect(list).toEqual(['a', 'b'])
  latest.ask(work('c'), true)
  await vi.advanceTimersByTimeAsync(50)
  latest.ask(work('last'), true)
  await vi.advanceTimersByTimeAsync(160)
  expect(list).toEqual(['a', 'b', 'c', 'last'])
})

test('a failure is told, and the next is done all the same', async () => {
  const { list, failed, latest } = taken()
  latest.ask(() => Promise.reject(new Error('no place on the map')))
  latest.ask(work('b'))
  await vi.advanceTimersByTimeAsync(150)
  expect(failed).toHaveLength(1)
  expect(list).toEqual(['b'])
})
