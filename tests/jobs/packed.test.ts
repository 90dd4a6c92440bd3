/** What workers find, packed for the way and for keeping, comes back as it was. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { measureScan } from '../../src/check/measure-scan'
import { MISSING, type Measured } from '../../src/indices/rule'
import {
  copyRow,
  emptyColumn,
  lengthened,
  measuredIn,
  setMeasured,
} from '../../src/jobs/measured-column'
import {
  packedBuffers,
  packRecords,
  unpackRecord,
  unpackRecords,
} from '../../src/jobs/packed-records'
import { NOTHING_DIAGNOSTIC } from '../../src/minerals/reference'

describe('records', () => {
  /** Every value that JSON has, and the numbers that it has not. */
  const value = fc.letrec((tie) => ({
    any: fc.oneof(
      { depthSize: 'small' },
      fc.double(),
      fc.string(),
      fc.boolean(),
      fc.constant(null),
      fc.array(tie('any')),
      tie('fields'),
    ),
    // JSON.parse makes `__proto__` a field, assignment does not; no record has one.
    fields: fc.dictionary(
      fc.string().filter((name) => name !== '__proto__'),
      tie('any'),
      { noNullPrototype: true },
    ),
  }))

  test('come back equal, NaN and −0 too, whatever they are made of', () => {
    const records = fc.array(value.fields as fc.Arbitrary<object>)
    fc.assert(
      fc.property(records, (list) => {
        const sent = structuredClone(packRecords(list))
        expect(unpackRecords(sent)).toStrictEqual(list)
      }),
      { numRuns: 500 },
    )
  })

  test('a scan’s measures come back equal, with gaps and without', () => {
    const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)
    const whole = Float32Array.from(wavelengths, (nm) => 0.4 + 0.1 * Math.sin(nm / 90))
    const gaps = whole.map((level, i) => (i % 7 === 0 || i > 1900 ? NaN : level))
    const empty = whole.map(() => NaN)
    const measures = [whole, gaps, empty].map((reflectance) =>
      measureScan({ wavelengths, reflectance }),
    )
    expect(unpackRecords(packRecords(measures))).toEqual(measures)
  })

  test('how they are built, and texts, stand once for all that share them', () => {
    const packed = packRecords(
      Array.from({ length: 100 }, (_, i) => ({ name: NOTHING_DIAGNOSTIC, at: [i, i / 2] })),
    )
    expect(packed.builds).toEqual(['{"name":1,"at":[0,0]}'])
    expect(packed.texts).toEqual([NOTHING_DIAGNOSTIC])
    expect(packed.numbers).toHaveLength(300)
    expect(packedBuffers(packed)).toHaveLength(3)
    expect(unpackRecord(packed, 99)).toEqual({ name: NOTHING_DIAGNOSTIC, at: [99, 49.5] })
  })

  test('a field without a value is left out; what is no plain value is refused', () => {
    expect(unpackRecords(packRecords([{ a: 1, b: undefined }]))).toStrictEqual([{ a: 1 }])
    expect(() => packRecords([{ a: Float64Array.of(1) }])).toThrow(/typed array/)
    expect(() => packRecords([{ a: () => 1 }])).toThrow(/function/)
    expect(() => unpackRecord(packRecords([{ a: 1 }]), 1)).toThrow(/no record 1 among 1/)
  })
})

describe('columns of what leaves measured', () => {
  const found: Measured[] = [
    { value: 0.25, error: 0.01 },
    { value: -3, error: null },
    { value: null, error: null },
    ...MISSING.map((missing) => ({ value: null, error: null, missing })),
  ]

  test('each row comes back as it was, and one that was never written as nothing', () => {
    const column = emptyColumn(found.length + 1)
    found.forEach((measured, row) => setMeasured(column, row, measured))
    expect(found.map((_, row) => measuredIn(column, row))).toStrictEqual(found)
    expect(measuredIn(column, found.length)).toBeUndefined()
  })

  test('rows are kept where a column is lengthened, and copied from one to another', () => {
    const short = emptyColumn(1)
    setMeasured(short, 0, found[0])
    const long = lengthened(short, 3)
    copyRow(long, 2, short, 0)
    expect([0, 1, 2].map((row) => measuredIn(long, row))).toEqual([found[0], undefined, found[0]])
    expect(lengthened(long, 2)).toBe(long)
    expect(measuredIn(long, 3)).toBeUndefined()
  })
})
