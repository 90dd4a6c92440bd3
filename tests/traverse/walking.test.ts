/** Walking: published speeds, quickest ways against SciPy, and times of a day. */
import { expect, test } from 'vitest'
import { TimeQueue } from '../../src/traverse/time-queue'
import { timetableOf } from '../../src/traverse/timetable'
import { lengthOf, nearestNode, waysFrom, wayTo, type WalkGrid } from '../../src/traverse/walk-grid'
import { naismithSeconds, toblerSpeed } from '../../src/traverse/walking'
import { uniform } from '../spectra/chance'
import oracle from './walk-grid.json'

test('walking speed: 5.04 km/h on the flat, 6 at a slope of −0.05 (Tobler 1993)', () => {
  expect(3.6 * toblerSpeed(0)).toBeCloseTo(5.037, 3)
  expect(3.6 * toblerSpeed(-0.05)).toBeCloseTo(6, 12)
  expect(toblerSpeed(0.2)).toBeLessThan(toblerSpeed(-0.2))
})

test('Naismith’s rule: an hour for 5 km, and an hour for 600 m climbed', () => {
  expect(naismithSeconds(10_000, 600)).toBe(3 * 3600)
})

function flat(columns: number, rows: number, cell = 10): WalkGrid {
  return {
    grid: { west: 0, north: rows * cell, cell, columns, rows },
    elevation: new Float64Array(columns * rows),
    metresPerUnit: 1,
    pace: 1,
    steepest: 0.6,
  }
}

test('on the flat a way is at most 2.8 % longer than straight, and exact along sixteen directions', () => {
  const ground = flat(61, 61)
  const middle = 30 * 61 + 30
  const { seconds } = waysFrom(ground, middle)
  let worst = 0
  seconds.forEach((time, node) => {
    const away = 10 * Math.hypot((node % 61) - 30, Math.floor(node / 61) - 30)
    if (away > 0) worst = Math.max(worst, (time * toblerSpeed(0)) / away)
  })
  expect(worst).toBeLessThan(1.0281)
  for (const [right, down] of [
    [20, 0],
    [20, 10],
    [20, 20],
    [-10, 20],
  ]) {
    const time = seconds[(30 + down) * 61 + 30 + right]
    expect(time * toblerSpeed(0)).toBeCloseTo(10 * Math.hypot(right, down), 6)
  }
})

test('quickest times over a rough hill with a hole agree with SciPy’s (tests/oracles/walk-grid.py)', () => {
  const { columns, rows, cell, pace, steepest, source } = oracle
  const ground: WalkGrid = {
    grid: { west: 0, north: rows * cell, cell, columns, rows },
    elevation: Float64Array.from(oracle.elevation, (height) => height ?? NaN),
    metresPerUnit: 1,
    pace,
    steepest,
  }
  const { seconds } = waysFrom(ground, source)
  let reached = 0
  oracle.seconds.forEach((time, node) => {
    if (time === null) expect(seconds[node]).toBe(Infinity)
    else {
      reached++
      expect(Math.abs(seconds[node] - time)).toBeLessThan(1e-6)
    }
  })
  expect(reached).toBeGreaterThan(300)
  expect(reached).toBeLessThan(columns * rows)
})

test('a way goes round what is closed, and nowhere where nothing leads', () => {
  const ground = flat(21, 21)
  for (let row = 0; row < 20; row++) ground.elevation[row * 21 + 10] = NaN
  const ways = waysFrom(ground, 5)
  const nodes = wayTo(ways, 15)
  expect([nodes[0], nodes.at(-1)]).toEqual([5, 15])
  expect(nodes.some((node) => Math.floor(node / 21) === 20)).toBe(true)
  expect(nodes.every((node) => !Number.isNaN(ground.elevation[node]))).toBe(true)
  expect(lengthOf(ground, nodes).distance / toblerSpeed(0)).toBeCloseTo(ways.seconds[15], 6)
  const shut = { ...ground, elevation: ground.elevation.slice() }
  shut.elevation[20 * 21 + 10] = NaN
  expect(wayTo(waysFrom(shut, 5), 15)).toEqual([])
  expect(waysFrom(shut, 10).seconds.every((time) => time === Infinity)).toBe(true)
})

test('climb and descent are told apart, and length is in metres whatever the unit', () => {
  const ground = { ...flat(4, 1, 1), metresPerUnit: 1000 }
  ground.elevation.set([0, 30, 10, 25])
  expect(lengthOf(ground, [0, 1, 2, 3])).toEqual({ distance: 3000, climb: 45, descent: 20 })
  expect(nearestNode(ground.grid, 2.4, 0.2)).toBe(2)
  expect(nearestNode(ground.grid, 4.1, 0.2)).toBe(-1)
})

test('the queue gives the earliest first', () => {
  const chance = uniform(6)
  const queue = new TimeQueue()
  const times = Array.from({ length: 500 }, () => Math.floor(100 * chance()))
  times.forEach((time, node) => queue.push(node, time))
  const out = times.map(() => {
    queue.pop()
    return queue.poppedAt
  })
  expect(out).toEqual([...times].sort((a, b) => a - b))
  expect(queue.pop()).toBe(-1)
})

test('a day’s times, and the battery in use at each stop', () => {
  const leg = (seconds: number) => ({ seconds, distance: 500, climb: 10, descent: 0 })
  const legs = [leg(600), leg(1200), leg(900)]
  const { stops, seconds, distance, climb, naismith } = timetableOf(legs, 900, {
    count: 2,
    seconds: 2000,
  })
  expect(stops).toEqual([
    { arrive: 600, leave: 1500, battery: 1 },
    { arrive: 2700, leave: 3600, battery: 2 },
  ])
  expect([seconds, distance, climb]).toEqual([4500, 1500, 30])
  expect(naismith).toBeCloseTo(1080 + 180, 9)
  expect(timetableOf(legs, 900, null).stops[1].battery).toBeNull()
  const atStart = timetableOf([leg(0), leg(600)], 0, { count: 2, seconds: 2000 })
  expect(atStart.stops[0].battery).toBe(1)
})
