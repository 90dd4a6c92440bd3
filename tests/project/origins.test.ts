/** Origins are the geologist's word: kept, found by formulas, exported. */
import { expect, test } from 'vitest'
import { compileFormula } from '../../src/indices/compile'
import { scanValues } from '../../src/indices/context'
import { evaluate } from '../../src/indices/evaluate'
import { mineralsCsv } from '../../src/layers/minerals-csv'
import type { Placement } from '../../src/places/place-scans'
import { parseDecisions, writeDecisions, type Decision } from '../../src/project/decisions'
import { stationOrigins, withOrigins } from '../../src/project/origins'
import type { ScanHead } from '../../src/project/project'

const heads = ['a', 'b', 'c'].map((name) => ({ name, file: 'f.csv' }) as unknown as ScanHead)
const placement = {
  stations: [{ scans: [0, 1] }, { scans: [2] }],
  scans: [{ station: 0 }, { station: 0 }, { station: 1 }],
} as unknown as Placement

function said(scan: string, mineral: string, origin: 'hypogene' | 'supergene'): Decision {
  const about = { kind: 'origin' as const, mineral, origin }
  return { file: 'f.csv', scan, about, who: 'x', when: '2026-01-01T00:00:00Z', why: 'veins' }
}

test('a decision about one scan speaks of its whole station, and the last one counts', () => {
  const list = [said('a', 'alunite', 'hypogene'), said('b', 'alunite', 'supergene')]
  const origins = stationOrigins(placement, heads, { decisions: 1, list })
  expect(origins[0].get('alunite')).toBe('supergene')
  expect(origins[1].size).toBe(0)
})

test('decisions about origins survive their file', () => {
  const decisions = { decisions: 1 as const, list: [said('a', 'alunite', 'supergene')] }
  expect(parseDecisions(writeDecisions(decisions))).toEqual(decisions)
  const wrong = writeDecisions(decisions).replace('supergene', 'magmatic')
  expect(() => parseDecisions(wrong)).toThrow(/about\.origin.*none of unknown, hypogene, supergene/)
})

test('formulas ask for origins; one that nobody stated is unknown, not missing', () => {
  const known = { minerals: ['alunite', 'kaolinite'], groups: [], columns: [], indices: [] }
  const rule = compileFormula('origin("alunite") = "supergene"', known, 'boolean')
  const cells = withOrigins({ Cu: 5 }, new Map([['alunite', 'supergene']]))
  const at = (columns: typeof cells) =>
    Object.assign(scanValues(new Map(), null, columns), {
      index: () => ({ value: null, error: null }),
    })
  expect(evaluate(rule, at(cells)).value).toBe(true)
  expect(evaluate(rule, at({ Cu: 5 })).value).toBe(false)
  expect(() => compileFormula('origin("unobtainium")', known)).toThrow(/no mineral/)
})

test('minerals.csv has the column once an origin is stated, and not before', () => {
  const minerals = [{ mineral: 'alunite', group: 'alunite', share: 1, fit: 0.9 }]
  const text = (bytes: Uint8Array) => new TextDecoder().decode(bytes).split('\r\n')
  const silent = mineralsCsv([{ scan: 'a', minerals, originOf: () => 'unknown' }])
  expect(text(silent)[0]).toBe('scan,rank,mineral,group,share,fit')
  const spoken = mineralsCsv([{ scan: 'a', minerals, originOf: () => 'supergene' }])
  expect(text(spoken)[0]).toBe('scan,rank,mineral,group,share,fit,origin')
  expect(text(spoken)[1]).toMatch(/,supergene$/)
})
