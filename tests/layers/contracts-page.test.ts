/** The page of file contracts says what is written: its columns and members, held against the files. */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { exportLayers } from '../../src/layers/export-all'
import { prospect } from './prospect'

const page = readFileSync('docs/contracts.md', 'utf8')
const files = exportLayers(prospect())

/** The page's text under a heading, up to the next of any level. */
function under(heading: string): string {
  const [, after] = page.split(`\n${heading}\n`)
  if (after === undefined) throw new Error(`docs/contracts.md has no heading ${heading}.`)
  return after.split(/\n#/)[0]
}

/** What stands in backticks in the first cells of a table, header aside. */
function firstCells(section: string): string[] {
  const rows = section.split('\n').filter((line) => line.startsWith('|'))
  return rows.slice(2).flatMap((row) => words(row.split('|')[1]))
}

function words(text: string): string[] {
  return Array.from(text.matchAll(/`([^`]+)`/g), ([, word]) => word)
}

function headerOf(file: string): string[] {
  return new TextDecoder().decode(files.get(file)).split('\r\n')[0].split(',')
}

test('scans.csv begins with the columns of its table, then come the indices', () => {
  const columns = firstCells(under('### `scans.csv`'))
  const header = headerOf('scans.csv')
  expect(header.slice(0, columns.length)).toEqual(columns)
  expect(header.slice(columns.length)).toEqual([
    'white mica position',
    'white mica position error',
    'copper',
    'copper error',
  ])
})

test('stations.csv has station, scans and the rest of them', () => {
  const rest = firstCells(under('### `scans.csv`')).filter(
    (name) => name !== 'scan' && name !== 'station',
  )
  const header = headerOf('stations.csv')
  expect(header.slice(0, 2 + rest.length)).toEqual(['station', 'scans', ...rest])
})

test.each(['minerals.csv', 'problems.csv'])('%s has the columns that the page names', (file) => {
  expect(headerOf(file).join(', ')).toBe(words(under(`### \`${file}\``))[0])
})

test('every member of report.json has its row', () => {
  const report = JSON.parse(new TextDecoder().decode(files.get('report.json'))) as object
  const told = firstCells(under('## `report.json`'))
  expect(Object.keys(report).filter((member) => !told.includes(member))).toEqual([])
})
