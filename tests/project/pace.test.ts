/** Piecework: the same result in pieces, the event loop's turn between them, and stop. */
import { describe, expect, test } from 'vitest'
import { isStopped } from '../../src/jobs/pool'
import { Memo } from '../../src/project/memo'
import { paced } from '../../src/project/pace'
import { atOnce, mapPiecewise, type Piecework } from '../../src/spectra/piecework'

/** Pieces of a few ms each. */
function* slow(pieces: number): Piecework<number> {
  let done = 0
  while (done < pieces) {
    const until = performance.now() + 4
    while (performance.now() < until) done += 0
    done++
    yield
  }
  return done
}

const { signal } = new AbortController()

test('a list mapped in pieces is the list mapped', async () => {
  const list = Array.from({ length: 100 }, (_, i) => i)
  const squares = list.map((n) => n * n)
  expect(atOnce(mapPiecewise(list, (n) => n * n))).toEqual(squares)
  expect(
    await paced(
      mapPiecewise(list, (n) => n * n),
      signal,
    ),
  ).toEqual(squares)
  expect([...mapPiecewise(list, String)].length).toBeGreaterThan(3)
  expect(atOnce(mapPiecewise([], String))).toEqual([])
})

describe('paced work', () => {
  test('lets others have their turn', async () => {
    const order: string[] = []
    setTimeout(() => order.push('other'), 1)
    await paced(slow(30), signal).then(() => order.push('work'))
    expect(order).toEqual(['other', 'work'])
  })

  test('ends at the next turn once it is stopped', async () => {
    const controller = new AbortController()
    let pieces = 0
    const counted = function* () {
      for (const piece of slow(1000)) {
        pieces++
        yield piece
      }
    }
    setTimeout(() => controller.abort(), 1)
    const error: unknown = await paced(counted(), controller.signal).catch((e: unknown) => e)
    expect(isStopped(error)).toBe(true)
    expect(pieces).toBeLessThan(1000)
  })

  test('passes on what it throws', async () => {
    const failing = function* (): Piecework<number> {
      yield
      throw new Error('a bad scan')
    }
    await expect(paced(failing(), signal)).rejects.toThrow('a bad scan')
  })
})

describe('what is remembered of paced work', () => {
  test('is made once from the same ingredients', async () => {
    const memo = new Memo<number>()
    let made = 0
    const make = () => (made++, slow(2))
    const scans = [1]
    expect(await memo.getPaced([scans], make, signal)).toBe(2)
    expect(await memo.getPaced([scans], make, signal)).toBe(2)
    expect(memo.get([scans], () => 7)).toBe(2)
    expect(made).toBe(1)
    expect(await memo.getPaced([[1]], make, signal)).toBe(2)
    expect(made).toBe(2)
  })

  test('is nothing where it was stopped', async () => {
    const memo = new Memo<number>()
    const controller = new AbortController()
    controller.abort()
    await expect(memo.getPaced([1], () => slow(20), controller.signal)).rejects.toThrow()
    expect(memo.get([1], () => 7)).toBe(7)
  })
})
