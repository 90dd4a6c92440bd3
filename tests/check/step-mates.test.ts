/** Which scans are asked about the steps of others. */
import { expect, test } from 'vitest'
import { stepMates, type SteppedScan } from '../../src/check/step-mates'

const MORNING = 1_700_000_000

function moment(minutes: number) {
  return { seconds: MORNING + 60 * minutes, zoneStated: true }
}

/** A scan a minute, a rock each, under one white reference. */
function scanAt(minute: number, more: Partial<SteppedScan> = {}): SteppedScan {
  return {
    time: moment(minute),
    whiteReference: moment(-2),
    axis: 0,
    folder: 'day/',
    rock: `rock ${minute}`,
    ...more,
  }
}

test('mates are of other rocks, the nearest in time first, a list a rock', () => {
  const scans = [0, 1, 3, 4, 5].map((minute) => scanAt(minute))
  const twins = [...scans, scanAt(3.5, { rock: 'rock 3' }), scanAt(4.2, { rock: 'rock 4' })]
  expect(stepMates(twins, [2]).get(2)).toEqual([[3, 6], [1], [4], [0]])
})

test('a new white reference, another axis and another day begin anew', () => {
  const scans = [
    scanAt(0),
    scanAt(1),
    scanAt(2, { axis: 1 }),
    scanAt(30, { whiteReference: moment(29) }),
    scanAt(31, { whiteReference: moment(29) }),
    scanAt(32),
  ]
  const mates = stepMates(scans, [0, 2, 3])
  expect(mates.get(0)).toEqual([[1]])
  expect(mates.get(2)).toEqual([])
  // The reference of minute 29 is the last one at minute 32, whichever file tells of it.
  expect(mates.get(3)).toEqual([[4], [5]])
  const unknown = [0, 1, 24 * 60].map((minute) => scanAt(minute, { whiteReference: null }))
  expect(stepMates(unknown, [0]).get(0)).toEqual([[1]])
})

test('where no time is known the folder stands for the session, the order for the time', () => {
  const scans = ['a/', 'a/', 'b/', 'a/', 'a/'].map((folder, i) =>
    scanAt(i, { time: null, whiteReference: null, folder }),
  )
  expect(stepMates(scans, [3]).get(3)).toEqual([[4], [1], [0]])
})

test('at most 24 rocks of three scans are asked, and no more than 200 scans looked at', () => {
  const many = Array.from({ length: 400 }, (_, i) => scanAt(i, { rock: `${Math.floor(i / 5)}` }))
  const mates = stepMates(many, [200]).get(200) ?? []
  expect(mates).toHaveLength(24)
  expect(Math.max(...mates.map((rock) => rock.length))).toBe(3)
  const same = many.map((scan, i) => ({ ...scan, rock: i < 10 ? `${i}` : 'same' }))
  expect(stepMates(same, [399]).get(399)).toEqual([])
})
