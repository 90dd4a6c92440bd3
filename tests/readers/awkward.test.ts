/**
 * Awkward but plausible files beside what an independent script says of each: text, numbers and
 * expected values are made by `tests/oracles/awkward-files.py`.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import type { ReadScan } from '../../src/readers/input'
import { readFile } from '../../src/readers/read-file'
import { recognise, type KnownFields } from '../../src/readers/recognise'
import { bytesOf, fileOf } from './spectra'

interface Expected {
  readonly nm: readonly number[]
  /** null is a gap. */
  readonly r: readonly (number | null)[]
  readonly name?: string
  /** Of known fields; a time in seconds. */
  readonly known?: Readonly<Record<string, string | number | null>>
}

interface Case {
  readonly name: string
  readonly text?: string
  readonly base64?: string
  readonly scans: readonly Expected[]
  readonly anyOrder?: boolean
  /** What the problem's words must match. */
  readonly refused?: string
  /** Rows of the one table. */
  readonly table?: number
  readonly header?: readonly string[]
  /** Whether the time's zone is stated. */
  readonly zone?: boolean
}

const CASES = JSON.parse(
  readFileSync(new URL('awkward.json', import.meta.url), 'utf8'),
) as readonly Case[]

function bytesIn({ text, base64 }: Case): Uint8Array {
  return text === undefined ? new Uint8Array(Buffer.from(base64 ?? '', 'base64')) : bytesOf(text)
}

function expectScan(scan: ReadScan, { nm, r, name, known = {} }: Expected): void {
  expect(scan.wavelengths).toHaveLength(nm.length)
  nm.forEach((wavelength, i) => {
    expect(scan.wavelengths[i]).toBeCloseTo(wavelength, 3)
    const value = r[i]
    if (value === null) expect(scan.reflectance[i]).toBeNaN()
    else expect(scan.reflectance[i]).toBeCloseTo(value, 5)
  })
  if (name !== undefined) expect(scan.name).toBe(name)
  const found = recognise(scan.metadata)
  for (const [field, value] of Object.entries(known)) {
    const own = found[field as keyof KnownFields] ?? null
    expect([field, typeof own === 'object' && own !== null ? own.seconds : own]).toEqual([
      field,
      value,
    ])
  }
}

describe(`${CASES.length} awkward files`, () => {
  test('are eighty or more', () => expect(CASES.length).toBeGreaterThanOrEqual(80))

  test.each(CASES.map((each): [string, Case] => [each.name, each]))('%s', (_, each) => {
    const { scans, tables, problems } = readFile(fileOf(bytesIn(each)))
    const told = problems.map(({ problem, done }) => `${problem}; ${done}`).join('\n')
    if (each.refused === undefined) expect(told).toBe('')
    else expect(told).toMatch(new RegExp(each.refused, 'u'))
    expect(scans).toHaveLength(each.scans.length)
    const inOrder = each.anyOrder
      ? each.scans.map(({ name }) => scans.filter((scan) => scan.name === name)[0])
      : scans
    each.scans.forEach((expected, i) => expectScan(inOrder[i], expected))
    expect(tables.map(({ rows }) => rows.length)).toEqual(
      each.table === undefined ? [] : [each.table],
    )
    if (each.header) expect(tables[0].header).toEqual(each.header)
    if (each.zone) expect(recognise(scans[0].metadata).time?.zoneStated).toBe(true)
  })
})
