/** Numbers in the cells of sample tables, as spreadsheets of several countries write them. */
import { describe, expect, test } from 'vitest'
import { readPlaceTable } from '../../src/places/tables'

describe('thousands in cells', () => {
  const made = (cells: readonly string[][], commaSeparated: boolean) =>
    readPlaceTable(
      {
        file: 's.csv',
        header: ['Sample', 'East', 'North', 'Cu'],
        rows: cells.map((row, i) => [`S${i}`, ...row]),
        lines: cells.map((_, i) => i + 2),
        commaSeparated,
      },
      { file: 's.csv', crs: 'EPSG:32719' },
    ).rows.map(({ spot, columns }) => [spot?.x, spot?.y, columns.Cu])

  test('by commas, by points and by blanks of any width', () => {
    const read = [470000.5, 7240000, 1250]
    expect(made([['470,000.5', '7,240,000', '1,250']], true)).toEqual([read])
    expect(made([['470.000,5', '7.240.000', '1.250']], false)).toEqual([read])
    expect(made([['470\u00a0000,5', '7\u202f240\u202f000', '1250,0']], false)).toEqual([read])
  })

  test('a comma before three digits is a decimal comma unless commas part the cells', () => {
    const rows = [['470000', '7240000', '1,250']]
    expect(made(rows, true)).toEqual([[470000, 7240000, 1250]])
    expect(made(rows, false)).toEqual([[470000, 7240000, 1.25]])
    expect(made([...rows, ['470000', '7240000', '0,125']], true)[0][2]).toBe(1.25)
  })
})
