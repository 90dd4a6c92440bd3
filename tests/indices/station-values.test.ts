/** Scans to stations. */
import { describe, expect, test } from 'vitest'
import { scanValues } from '../../src/indices/context'
import { compileIndices, evaluateIndices } from '../../src/indices/index-set'
import type { Measured } from '../../src/indices/rule'
import {
  countsForStation,
  stationContext,
  stationIndices,
  stationMean,
} from '../../src/indices/station-values'
import { robustMean } from '../../src/indices/robust-mean'
import type { Identification } from '../../src/minerals/reference'
import { KNOWN, NOTHING } from './sample'

const measured = (value: number, error: number | null): Measured => ({ value, error })

describe('the mean of scans', () => {
  test('scans that scatter more than their errors: the scatter counts', () => {
    // 1, 2, 3: variance 1, so the standard error of the mean is 1/√3.
    const { value, error, n } = stationMean([measured(1, 0.1), measured(2, 0.1), measured(3, 0.1)])
    expect([value, n]).toEqual([2, 3])
    expect(error).toBeCloseTo(1 / Math.sqrt(3), 12)
  })
  test('scans that agree by luck: their own errors count', () => {
    const { error } = stationMean([measured(2, 0.3), measured(2, 0.4), measured(2, 0.5)])
    expect(error).toBeCloseTo(Math.sqrt((0.09 + 0.16 + 0.25) / 3 / 3), 12)
  })
  test('one scan has its own error, and none where it states none', () => {
    expect(stationMean([measured(5, 0.2)])).toEqual({ value: 5, error: 0.2, n: 1 })
    expect(stationMean([measured(5, null)])).toEqual({ value: 5, error: null, n: 1 })
    expect(stationMean([measured(5, null), measured(7, null)]).error).toBeCloseTo(1, 12)
  })
  test('missing scans are left out, and the usual reason stands where all are', () => {
    expect(stationMean([NOTHING, measured(4, 1), NOTHING])).toEqual({ value: 4, error: 1, n: 1 })
    const gated: Measured = { value: null, error: null, missing: 'condition false' }
    expect(stationMean([NOTHING, gated, gated])).toEqual({ ...gated, n: 0 })
    expect(stationMean([])).toEqual({ value: null, error: null, missing: 'no scan', n: 0 })
  })
})

describe('the robust mean', () => {
  test('agrees with huber of R’s MASS on copper in flour (Analytical Methods Committee 1989)', () => {
    const chem = [
      2.9, 3.1, 3.4, 3.4, 3.7, 3.7, 2.8, 2.5, 2.4, 2.4, 2.7, 2.2, 5.28, 3.37, 3.03, 3.03, 28.95,
      3.77, 3.4, 2.2, 3.5, 3.6, 3.7, 3.7,
    ]
    expect(robustMean(chem)).toBeCloseTo(3.20672412964, 5)
  })
  test('one odd scan of three pulls little, and stays in the error', () => {
    const scans = [measured(2200, 0.1), measured(2200.2, 0.1), measured(2206, 0.1)]
    const plain = stationMean(scans)
    const robust = stationMean(scans, 'robust')
    expect(robust.value).toBeGreaterThan(2200.2)
    expect(robust.value).toBeLessThan(2200.6)
    expect(robust.error).toBe(plain.error)
  })
  test('scans that differ by no more than their errors have the plain mean', () => {
    const scans = [measured(1, 3), measured(2, 3), measured(6, 3)]
    expect(stationMean(scans, 'robust').value).toBeCloseTo(3, 9)
    expect(robustMean([4, 4, 4])).toBe(4)
  })
})

test('only sound scans of the wanted targets count', () => {
  expect(countsForStation({ check: 'sound' }, 'matrix', ['matrix'])).toBe(true)
  expect(countsForStation({ check: 'doubtful' }, 'matrix', ['matrix'])).toBe(false)
  expect(countsForStation({ check: 'set aside' }, 'matrix', ['matrix'])).toBe(false)
  expect(countsForStation({ check: 'sound' }, 'vein', ['matrix', 'cut'])).toBe(false)
})

const found = (...minerals: [mineral: string, group: string, share: number][]): Identification => ({
  minerals: minerals.map(([mineral, group, share]) => ({ mineral, group, share, fit: 0.9 })),
  runnerUp: null,
  doubt: '',
})

const DEPTH = 'depth(2185, 2225, 2185, 2225)'
const set = compileIndices(
  [
    { name: 'root', formula: 'sqrt(depth(2185, 2225))' },
    { name: 'copper', formula: 'column("Cu_ppm")' },
    { name: 'ratio', formula: '[root] / [copper]' },
  ],
  KNOWN,
)

test('an index is the mean of the scans, not the formula of the means', () => {
  const columns = { Cu_ppm: 50 }
  const scans = [0.04, 0.16].map((value) =>
    scanValues(new Map([[DEPTH, measured(value, 0.01)]]), null, columns),
  )
  const values = stationIndices(
    set,
    scans.map((scan) => evaluateIndices(set, scan)),
    columns,
  )
  expect(values.get('root')?.value).toBeCloseTo(0.3, 12)
  expect(values.get('root')?.n).toBe(2)
  expect(values.get('copper')).toEqual({ value: 50, error: null, n: 2 })
  expect(values.get('ratio')?.value).toBeCloseTo(0.006, 12)
})

test('a row of a table without a scan has what the table gives', () => {
  const values = stationIndices(set, [], { Cu_ppm: 50 })
  expect(values.get('copper')).toEqual({ value: 50, error: null, n: 0 })
  expect(values.get('root')).toEqual({ value: null, error: null, missing: 'no scan', n: 0 })
  expect(stationIndices(set, [], {}).get('copper')?.missing).toBe('no such cell')
})

test('a station’s context: means of leaves and shares, its own indices, its row', () => {
  const scans = [
    scanValues(new Map([[DEPTH, measured(0.1, 0.01)]]), found(['alunite', 'alunite', 0.9]), {}),
    scanValues(new Map([[DEPTH, measured(0.3, 0.01)]]), found(['kaolinite', 'kaolin', 1]), {}),
    scanValues(new Map([[DEPTH, NOTHING]]), null, {}),
  ]
  const context = stationContext(scans, new Map([['root', measured(7, 1)]]), { lithology: 'tuff' })
  expect(context.leaf(DEPTH).value).toBeCloseTo(0.2, 12)
  expect(context.share('alunite').value).toBeCloseTo(0.45, 12)
  expect(context.group('kaolin').value).toBeCloseTo(0.5, 12)
  expect(context.fit('alunite').value).toBeCloseTo(0.45, 12)
  expect(context.group('chlorite').value).toBe(0)
  expect(context.index('root').value).toBe(7)
  expect(context.index('other').missing).toBe('no scan')
  expect(context.column('lithology')).toBe('tuff')
  expect(context.column('toString')).toBeUndefined()
  expect(stationContext([scans[2]], new Map(), {}).group('alunite').missing).toBe('not identified')
})
