/** Stations explored before anything is mapped. */
import { expect, test } from 'vitest'
import { placeOf, run, sampleTable, source, valueAt } from './field'

test('an index is explored at its stations, duplicates counted', async () => {
  const [x, y] = placeOf(3)
  const again = `${sampleTable()}Again,${x.toFixed(2)},${y.toFixed(2)},41\n`
  const { results } = await run([], [source('samples.csv', again)])
  const found = results.exploring?.value('copper')
  if (!found || 'failure' in found) throw new Error(found?.failure)
  expect(found).toMatchObject({ unit: 'ppm', stations: 65, duplicates: 1 })
  const values = [...Array.from({ length: 64 }, (_, i) => Number(valueAt(i).toFixed(3))), 41]
  expect(found.plain.mean).toBeCloseTo(values.reduce((a, b) => a + b) / 65, 9)
  expect(found.plain.most).toBe(Math.max(...values))
  expect(found.weights.reduce((a, b) => a + b)).toBeCloseTo(65, 9)
  expect(results.exploring?.value('copper')).toBe(found)
})

test('stations crowded on high ground weigh less, and a missing index says so', async () => {
  const crowd = Array.from({ length: 60 }, (_, i) => {
    const [dx, dy] = [20 * Math.cos(i), 20 * Math.sin(2 * i)]
    return `C${i},${(500350 + dx).toFixed(2)},${(7200350 + dy).toFixed(2)},${100 + (i % 7)}`
  })
  const plain = await run([])
  const crowded = await run([], [source('samples.csv', sampleTable() + crowd.join('\n') + '\n')])
  const meanOf = ({ results }: typeof plain, which: 'plain' | 'declustered') => {
    const found = results.exploring?.value('copper')
    if (!found || 'failure' in found) throw new Error(found?.failure)
    return found[which].mean
  }
  const truth = meanOf(plain, 'plain')
  expect(meanOf(crowded, 'plain')).toBeGreaterThan(1.5 * truth)
  expect(meanOf(crowded, 'declustered')).toBeLessThan(1.15 * truth)
  expect(plain.results.exploring?.value('gold')).toHaveProperty('failure')
  expect(plain.results.exploring?.value('copper', ['soil'])).toHaveProperty('failure')
})

test('class proportions of stations from a table sum to 1, and thin out a crowd', async () => {
  const crowd = Array.from({ length: 60 }, (_, i) => {
    const [dx, dy] = [20 * Math.cos(i), 20 * Math.sin(2 * i)]
    return `C${i},${(500350 + dx).toFixed(2)},${(7200350 + dy).toFixed(2)},${100 + (i % 7)}`
  })
  const sources = [source('samples.csv', sampleTable() + crowd.join('\n') + '\n')]
  const { results } = await run([], sources, undefined, [
    { name: 'high', when: '[copper] >= 60', colour: '#CC79A7', symbol: 'triangle' },
  ])
  const found = results.exploring?.classes()
  if (!found || 'failure' in found) throw new Error(found?.failure)
  expect(found.stations).toBe(124)
  expect(found.proportions.map((each) => each.class).sort()).toEqual(['high', 'unclassified'])
  for (const which of ['plain', 'declustered'] as const)
    expect(found.proportions.reduce((sum, each) => sum + each[which], 0)).toBeCloseTo(1, 9)
  const high = found.proportions.find((each) => each.class === 'high')
  const walked = Array.from({ length: 64 }, (_, i) => valueAt(i)).filter((v) => v >= 60).length / 64
  expect(high?.plain).toBeGreaterThan(0.6)
  expect(Math.abs((high?.declustered ?? 1) - walked)).toBeLessThan(0.1)
})
