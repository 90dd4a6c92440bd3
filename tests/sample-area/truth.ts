/** Reads the sample area's truth and the command line's tables. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'

export const SAMPLE_AREA = 'sample-area'

/** A row of a table by its headings. */
export type Row = Readonly<Record<string, string>>

/** The rows of a comma-separated text with one header row (RFC 4180). */
export function rowsOf(text: string): Row[] {
  const [head, ...rows] = records(text)
  return rows.map((cells) => Object.fromEntries(head.map((key, i) => [key, cells[i] ?? ''])))
}

function records(text: string): string[][] {
  const rows: string[][] = []
  let row: string[] = []
  for (const [, quoted, plain, end] of text.matchAll(
    /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r?\n|$)/g,
  )) {
    row.push(quoted?.replaceAll('""', '"') ?? plain ?? '')
    if (end === ',') continue
    if (row.length > 1 || row[0] !== '') rows.push(row)
    row = []
  }
  return rows
}

/** `truth/scans.csv`, a row a scan. */
export function truthOfScans(): Row[] {
  return rowsOf(readFileSync(join(SAMPLE_AREA, 'truth/scans.csv'), 'utf8'))
}

/** `truth/faults.csv`, a row for each fault put in on purpose. */
export function truthOfFaults(): Row[] {
  return rowsOf(readFileSync(join(SAMPLE_AREA, 'truth/faults.csv'), 'utf8'))
}

/** The codes of `truth/zones.tif` by zone. */
export function zoneCodes(): Map<string, number> {
  const rows = rowsOf(readFileSync(join(SAMPLE_AREA, 'truth/zones.csv'), 'utf8'))
  return new Map(rows.map(({ code, zone }) => [zone, Number(code)]))
}
