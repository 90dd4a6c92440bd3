/** The Check step's table. */
import { expect, test } from 'vitest'
import type { Verdict } from '../../src/check/verdict'
import type { ScanHead } from '../../src/project/project'
import { checkRows, countReasons, countUntold, shownRows } from '../../src/views/check/check-rows'

const verdict = (check: Verdict['check'], reasons: string[], cannotTell?: string[]): Verdict => ({
  check,
  reasons: reasons.map((reason) => ({ reason, measure: 1, limit: 0, unit: '', words: '' })),
  noise: null,
  ...(cannotTell ? { cannotTell } : {}),
})
const NO_TIME = 'The age of the white reference: no time is known.'
const verdicts = [
  verdict('sound', [], [NO_TIME]),
  verdict('doubtful', ['wet sample', 'wet sample'], [NO_TIME]),
  verdict('set aside', ['panel']),
]
const heads = ['S10', 'S2', 'S1'].map(
  (name) => ({ name, file: `${name}.txt`, known: { time: null } }) as unknown as ScanHead,
)

test('a filter by reason, by what cannot be told, and of all that is doubted', () => {
  const rows = checkRows(heads, verdicts)
  const names = (filter: Parameters<typeof shownRows>[1]) =>
    shownRows(rows, filter, 'scan', false).map(({ name }) => name)
  expect(names({ by: 'all' })).toEqual(['S1', 'S2', 'S10'])
  expect(names({ by: 'doubted' })).toEqual(['S1', 'S2'])
  expect(names({ by: 'reason', reason: 'wet sample' })).toEqual(['S2'])
  expect(names({ by: 'cannot tell', what: NO_TIME })).toEqual(['S2', 'S10'])
})

test('a scan counts once for a reason, and for what cannot be told', () => {
  expect(countReasons(verdicts)).toEqual([
    ['wet sample', 1],
    ['panel', 1],
  ])
  expect(countUntold(verdicts)).toEqual([[NO_TIME, 2]])
})

test('a stretch of a day keeps what was taken in it, and nothing without a time', () => {
  const at = (seconds: number | null) =>
    ({
      name: `S${seconds}`,
      file: 'f',
      known: { time: seconds === null ? null : { seconds } },
    }) as unknown as ScanHead
  const rows = checkRows([at(100), at(200), at(300), at(null)], [...verdicts, verdicts[0]])
  const shown = shownRows(rows, { by: 'all' }, 'time', false, { from: 100, to: 200 })
  expect(shown.map(({ name }) => name)).toEqual(['S100', 'S200'])
})
