/** CSV: RFC 4180 against its text, and read back by Python's csv module. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { csv, textCell, type CsvColumn } from '../../src/layers/csv'
import { fixed, indexDecimals } from '../../src/layers/decimals'
import { hasPython, inFolder, put, python } from './outside'

interface Row {
  readonly name: string | null
  readonly value: number | null
}
const COLUMNS: CsvColumn<Row>[] = [
  { name: 'name', text: (row) => row.name },
  { name: 'value', decimals: 2, number: (row) => row.value },
]
const written = (rows: Row[]): string => new TextDecoder().decode(csv(COLUMNS, rows))

describe('RFC 4180', () => {
  test('lines end in CRLF, the last too, and there is no byte order mark', () => {
    const bytes = csv(COLUMNS, [{ name: 'Ä', value: 1 }])
    expect([...bytes.subarray(0, 4)]).toEqual([...new TextEncoder().encode('name')])
    expect(written([{ name: 'Ä', value: 1 }])).toBe('name,value\r\nÄ,1.00\r\n')
  })

  test('commas, quotes and line breaks are quoted, quotes doubled (section 2, rules 6 and 7)', () => {
    expect(textCell('aaa')).toBe('aaa')
    expect(textCell('b,bb')).toBe('"b,bb"')
    expect(textCell('b"bb')).toBe('"b""bb"')
    expect(textCell('b\r\nbb')).toBe('"b\r\nbb"')
  })

  test('blanks at either end are quoted, which readers that trim then keep', () => {
    expect(textCell(' a')).toBe('" a"')
    expect(textCell('a\u00a0')).toBe('"a\u00a0"')
    expect(textCell('a b')).toBe('a b')
  })

  test('null is an empty cell', () => {
    expect(written([{ name: null, value: null }])).toBe('name,value\r\n,\r\n')
  })
})

describe('text that a spreadsheet would run', () => {
  test.each(['=1+1', '+1', '-1', '@SUM(A1)', '\tx', '\rx'])('%j gets an apostrophe', (text) => {
    expect(textCell(text)).toBe(`"'${text}"`)
  })

  test('headings too, and quotes inside are still doubled', () => {
    const bytes = csv([{ name: '=HYPERLINK("x")', text: () => null }], [])
    expect(new TextDecoder().decode(bytes)).toBe('"\'=HYPERLINK(""x"")"\r\n')
  })

  test('a negative number is a number', () => {
    expect(written([{ name: 'a', value: -1.5 }])).toBe('name,value\r\na,-1.50\r\n')
  })
})

describe('decimals', () => {
  test('are fixed, with a point, and never a negative zero', () => {
    expect(fixed(2205.456, 2)).toBe('2205.46')
    expect(fixed(-0.001, 2)).toBe('0.00')
    expect(fixed(7211000, 2)).toBe('7211000.00')
    expect(fixed(NaN, 2)).toBe('')
    expect(fixed(Infinity, 2)).toBe('')
    expect(Number(fixed(1e300, 2))).toBe(1e300)
  })

  test('an index has those of its unit, and four digits of its largest value at least', () => {
    expect(indexDecimals('nm', 2210)).toBe(2)
    expect(indexDecimals('', 1.3)).toBe(4)
    expect(indexDecimals('ppm', 4200)).toBe(3)
    expect(indexDecimals('furlong', 12)).toBe(4)
    expect(indexDecimals('', 0.00012)).toBe(7)
    expect(indexDecimals('constructor', 0)).toBe(4)
  })
})

test.skipIf(!hasPython)('Python’s csv module reads every cell back', () => {
  const cells = fc.array(fc.tuple(fc.string({ unit: 'binary' }), fc.double()), { minLength: 1 })
  const rows = fc.sample(cells, { seed: 2, numRuns: 60 }).flat()
  const wide = rows.map(([name, value]): Row => ({ name, value }))
  const read = inFolder((folder) => {
    const file = put(folder, 'rows.csv', csv(COLUMNS, wide))
    return python(
      `import csv, json, sys
with open(sys.argv[1], encoding='utf-8', newline='') as f:
    print(json.dumps(list(csv.reader(f, strict=True))))`,
      file,
    ) as string[][]
  })
  expect(read.length).toBe(wide.length + 1)
  const clean = (text: string): string =>
    new TextDecoder().decode(new TextEncoder().encode(text)).replaceAll('\0', '\uFFFD')
  const bare = (text: string): string => text.replace(/^'(?=[=+\-@\t\r\n＝＋－＠])/, '')
  wide.forEach((row, i) => {
    expect(bare(read[i + 1][0])).toBe(bare(clean(row.name ?? '')))
    expect(read[i + 1][1]).toBe(fixed(row.value, 2))
  })
})
