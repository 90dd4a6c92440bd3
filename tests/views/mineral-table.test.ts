/** The minerals of a project in one table. */
import { expect, test } from 'vitest'
import type { Identification } from '../../src/minerals/reference'
import { mineralTable, spreadWords } from '../../src/views/minerals/mineral-table'

function named(
  ...minerals: readonly (readonly [mineral: string, share: number])[]
): Identification {
  return {
    minerals: minerals.map(([mineral, share]) => {
      const group = mineral === 'muscovite' ? 'white mica' : mineral
      return { mineral, group, share, fit: 1 }
    }),
    runnerUp: null,
    doubt: '',
  }
}

test('counts where a mineral is main and where it is found, and its mean share', () => {
  const rows = mineralTable([
    named(['muscovite', 0.7], ['goethite', 0.3]),
    named(['goethite', 1]),
    named(['muscovite', 0.9]),
    null,
  ])
  expect(rows.map(({ mineral, main, scans }) => [mineral, main, scans])).toEqual([
    ['muscovite', 2, 2],
    ['goethite', 1, 2],
  ])
  expect(rows[0].meanShare).toBeCloseTo(0.8, 12)
  expect(rows[0].variety).toBeNull()
})

/** Expected: numpy.quantile([2196, 2199, 2204, 2210], [0.25, 0.5, 0.75]). */
test('gives the median and quartiles of the scans that have a variety’s value', () => {
  const values = [2204, null, 2196, 2210, 2199]
  const rows = mineralTable(
    values.map(() => named(['muscovite', 1])),
    values.map((value) => new Map([['white-mica-position', { value, error: null }]])),
  )
  const { variety } = rows[0]
  expect(variety).toMatchObject({ median: 2201.5, low: 2198.25, high: 2205.5, scans: 4 })
  if (variety) expect(spreadWords(variety)).toContain('2201.5 (2198.3–2205.5)')
})
