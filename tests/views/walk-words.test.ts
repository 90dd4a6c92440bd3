/** A planned walk in words: sentences, the list of stops, and when it is not the one asked for. */
import { expect, test } from 'vitest'
import type { TraverseRule } from '../../src/project/recipe-traverse'
import type { Results } from '../../src/project/results'
import type { TraversePlan, TraverseStop } from '../../src/project/traverse-plan'
import {
  durationWords,
  isOldWalk,
  lastWay,
  lengthWords,
  stopRows,
  surerSentence,
  walkingSentence,
  walkSentence,
} from '../../src/views/traverse/walk-words'

const plainly = (text: string) => text.replaceAll('\u202f', ' ')
const none = new Float64Array()
const leg = (seconds: number, distance: number, climb: number) => ({
  seconds,
  distance,
  climb,
  descent: climb,
  x: none,
  y: none,
  z: none,
})
const stop = (arrive: number, battery: number | null, station: string | null): TraverseStop => ({
  arrive,
  leave: arrive + 900,
  battery,
  station,
  x: 0,
  y: 0,
  longitude: null,
  latitude: null,
  fall: 0.0234,
})
const RULE: TraverseRule = {
  surface: 'mica',
  start: { longitude: 0, latitude: 0 },
  leave: '07:30',
  back: '09:30',
  stop_minutes: 15,
}
const END = { x: 0, y: 0, longitude: null, latitude: null }
const PLAN: TraversePlan = {
  start: END,
  end: END,
  stops: [stop(600, 1, null), stop(2100, 2, 'C07')],
  legs: [leg(600, 640, 12), leg(600, 996, 4), leg(1800, 1500, 0)],
  seconds: 4800,
  distance: 3136,
  climb: 16,
  naismith: 2353,
  budget: 7200,
  isEndedByBatteries: false,
  error: [2.104, 1.737],
  unit: 'nm',
  fall: 0.312,
  unreached: [],
  terrain: 'terrain.tif',
}

test('durations and lengths', () => {
  expect(plainly(durationWords(8 * 3600 + 20 * 60))).toBe('8 h 20 min')
  expect(plainly(durationWords(59.6 * 60))).toBe('1 h')
  expect(plainly(durationWords(25 * 60))).toBe('25 min')
  expect(plainly(lengthWords(994))).toBe('990 m')
  expect(plainly(lengthWords(996))).toBe('1.0 km')
})

test('the sentences say how long, back when, and how much surer', () => {
  expect(plainly(walkSentence(PLAN, RULE))).toBe(
    '2 stops in 1 h 20 min, 3.1 km, 20 m climbed; back at 08:50, 40 min to spare.',
  )
  expect(plainly(walkSentence({ ...PLAN, budget: 4810, terrain: null }, RULE))).toBe(
    '2 stops in 1 h 20 min, 3.1 km; back at 08:50, nothing to spare.',
  )
  expect(plainly(surerSentence(PLAN, 'mica'))).toBe(
    'The mean standard error of mica falls from 2.10 to 1.74 nm (variance −31 %).',
  )
  const small = { ...PLAN, error: [0.5, 0.4996] as const, fall: 0.0016, unit: '' }
  expect(plainly(surerSentence(small, 'mica'))).toBe(
    'The mean standard error of mica falls from 0.50000 to 0.49960 (variance −0.2 %).',
  )
  expect(plainly(walkingSentence(PLAN))).toMatch(/^Walking takes 50 min of it; .* be 39 min\.$/)
})

test('stops have their times, ways, worth, station and change of battery', () => {
  const rows = stopRows(PLAN, RULE).map((row) => ({ ...row, way: plainly(row.way) }))
  expect(rows).toEqual([
    {
      times: '07:40–07:55',
      way: '10 min, 640 m, 10 m up',
      fall: '−2.3\u202f%',
      station: null,
      battery: null,
    },
    {
      times: '08:05–08:20',
      way: '10 min, 1.0 km',
      fall: '−2.3\u202f%',
      station: 'C07',
      battery: 2,
    },
  ])
  expect(plainly(lastWay(PLAN))).toBe('30 min, 1.5 km')
})

test('a walk is old while another is asked for, planned, or its surface computed', () => {
  const results = (rule: TraverseRule, state: 'ready' | 'computing', surface = 'ready') =>
    ({
      traverse: { rule, state, failure: null, plan: PLAN },
      surfaces: [{ rule: { name: 'mica' }, state: surface }],
    }) as unknown as Results
  expect(isOldWalk(RULE, results(RULE, 'ready'))).toBe(false)
  expect(isOldWalk(RULE, results({ ...RULE }, 'ready'))).toBe(true)
  expect(isOldWalk(RULE, results(RULE, 'computing'))).toBe(true)
  expect(isOldWalk(RULE, results(RULE, 'ready', 'computing'))).toBe(true)
  expect(isOldWalk(undefined, results(RULE, 'computing'))).toBe(false)
})
