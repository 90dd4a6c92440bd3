/** Reads tables whose rows are wavelengths: one scan, many, or panel and spot. */
import { assembleOn, settleAxis, type RawScan, type RawScans } from './assemble'
import { columnFault, leftOutAt } from './column-faults'
import { decimalSign, readBody, type Body, type RowFault } from './body'
import { isEmpty, rolesOf, type Roles } from './column-roles'
import { keepForm } from './familiar'
import type { CellFormat } from './head'
import { isReflectanceHeading, isWavelengthHeading } from './headings'
import type { Look, Problem, ReadResult } from './input'
import { MetadataCollector } from './metadata'
import type { Preamble } from './preamble'
import { axisWords, columnNames, headingPattern, lookOf } from './look'
import { COMMA } from './numbers'
import { fieldOf, recognise } from './recognise'
import { quoted, stemOf } from './result'
import { rowFaultWords, rowProblem } from './row-problem'
import { delimiterName, type TextFile } from './text-file'

/** Reads a table of numbers in columns from its first row on. */
export function readColumns(
  text: TextFile,
  start: number,
  firstLine: number,
  format: CellFormat,
  head: Preamble,
): ReadResult {
  const body = readBody(text.bytes, start, firstLine, format)
  if (body.rowFault !== null) return rowProblem(text, body.rowFault, format)
  const preamble = withRemarks(head, body.remarks ?? [])
  const found = rolesOf(body, preamble.headings, format.columns)
  const names = columnNames(preamble.headings, format.columns)
  const look = lookOf(
    [
      found.layout,
      delimiterName(format.delimiter) ?? '',
      format.decimal === COMMA ? 'decimal comma' : '',
      axisWords(body.columns[found.wavelength]),
      headingPattern(preamble.headings),
    ],
    format.columns > 2
      ? names.filter((_, column) => column !== found.wavelength && !isEmpty(body, column))
      : [],
  )
  const asked = text.overrides.column
  if (asked === undefined) return { ...readRoles(text, body, found, format, preamble, look), look }
  const column = names.indexOf(asked)
  if (column < 0 || column === found.wavelength) {
    const problem = `no column ${quoted(asked)} to take for reflectance; here are ${look.columns.map(quoted).join(', ')}`
    const advice = 'choose another column for files alike'
    return { ...leftOutAt(text, firstLine, { problem, advice }), look }
  }
  const roles: Roles = {
    wavelength: found.wavelength,
    scans: [column],
    ratio: null,
    layout: CHOSEN,
  }
  return { ...readRoles(text, body, roles, format, preamble, look), look }
}

/** The metadata with what stands among and below the rows. */
function withRemarks(preamble: Preamble, remarks: readonly string[]): Preamble {
  if (remarks.length === 0) return preamble
  const metadata = new MetadataCollector()
  for (const [key, value] of Object.entries(preamble.metadata)) metadata.add(key, value)
  for (const remark of remarks) metadata.addLine(remark)
  return { ...preamble, metadata: metadata.record() }
}

/** What a layout is called in which a person has said which column is reflectance. */
const CHOSEN = 'a column that was chosen'

function readRoles(
  text: TextFile,
  body: Body,
  roles: Roles,
  format: CellFormat,
  preamble: Preamble,
  look: Look,
): ReadResult {
  const fault = columnFault(text, body, roles, format, preamble)
  if (fault !== null) return fault
  const { scans, problems } = scansOf(text, body, roles, format, preamble)
  const raw = rawScans(text, body, roles, format, preamble, scans)
  const settled = settleAxis(raw, text.overrides, problems)
  if ('layout' in settled) return settled
  const result = assembleOn(settled, raw, text.overrides, problems)
  const { stencil } = body
  const isForm = result.kind === 'scans' && result.problems.length === 0 && settled.splice === null
  if (stencil !== undefined && isForm && isSettledByHead(text, roles, preamble)) {
    const head = text.bytes.subarray(0, text.bytes.length - stencil.length)
    const isNamedByFile = nameInHead(preamble, 1) === null
    keepForm({ head, stencil, raw, settled, isNamedByFile, look })
  }
  return result
}

/**
 * Whether head and axis alone say what such a file is: nothing was said by hand, its bytes are its
 * text, and its first column is headed as wavelengths or not at all.
 */
function isSettledByHead(
  { overrides, encoding }: TextFile,
  { wavelength, scans, layout }: Roles,
  { headings }: Preamble,
): boolean {
  const isPlain = wavelength === 0 && scans.length === 1 && layout === 'two columns'
  const isAsWritten = Object.keys(overrides).length === 0 && encoding === 'UTF-8'
  return isPlain && isAsWritten && (headings === null || isWavelengthHeading(headings[0]))
}

function rawScans(
  text: TextFile,
  body: Body,
  roles: Roles,
  format: CellFormat,
  preamble: Preamble,
  scans: readonly RawScan[],
): RawScans {
  const { headings, headingText, metadata } = preamble
  const first = roles.scans[0] ?? 0
  const reflectanceHint = roles.ratio
    ? 'fraction'
    : `${headings?.[first] ?? reflectancePart(headingText)} ${reflectanceKeys(metadata)}`
  const isOneOfMany = format.columns > 2 && roles.scans.length === 1
  return {
    file: text.file,
    axis: body.columns[roles.wavelength],
    lineOf: (channel) => `line ${body.lines[channel]}`,
    lineNumber: (channel) => body.lines[channel] ?? null,
    scans,
    wavelengthHint: headings?.[roles.wavelength] ?? wavelengthHint(preamble),
    reflectanceHint,
    layout: {
      name: roles.layout,
      ...(isOneOfMany ? { column: columnNames(headings, format.columns)[first] } : {}),
      decimal: decimalSign(format.decimal),
      delimiter: delimiterName(format.delimiter),
      encoding: text.encoding,
    },
  }
}

/** The scans of a table, and what is told of those that a bad cell costs. */
function scansOf(
  text: TextFile,
  body: Body,
  { scans: columns, ratio }: Roles,
  format: CellFormat,
  preamble: Preamble,
): { scans: RawScan[]; problems: Problem[] } {
  const problems: Problem[] = []
  const isBad = (column: number, name: string): boolean => {
    const fault = body.cellFaults.get(column)
    if (fault !== undefined) problems.push(scanProblem(text, fault, format, name))
    return fault !== undefined
  }
  const line = body.lines[0] ?? null
  if (ratio !== null) {
    const { panel, spots, dark } = ratio
    if ([panel, dark].some((column) => isBad(column, stemOf(text.file))))
      return { scans: [], problems }
    const isOne = spots.length === 1
    const scans = spots.flatMap((spot): RawScan[] => {
      const name = scanName(text.file, preamble, isOne ? -1 : spot, spots.length)
      if (isBad(spot, name)) return []
      const metadata = isOne ? preamble.metadata : scanMetadata(preamble, spot)
      return [{ name, values: reflectanceFrom(body, panel, spot, dark), metadata, line }]
    })
    return { scans, problems }
  }
  const scans = columns.flatMap((column): RawScan[] => {
    const name = scanName(text.file, preamble, column, columns.length)
    if (isBad(column, name)) return []
    const metadata = scanMetadata(preamble, column)
    return [{ name, values: body.columns[column], metadata, line }]
  })
  return { scans, problems }
}

function scanProblem(text: TextFile, fault: RowFault, format: CellFormat, name: string): Problem {
  const { problem, advice } = rowFaultWords(text, fault, format)
  const done = `the scan ${quoted(name)} was left out; ${advice}`
  return { file: text.file, line: fault.line, problem, done }
}

/** (spot − dark) / (panel − dark); a gap where the panel has no signal. */
function reflectanceFrom(body: Body, panel: number, spot: number, dark: number): Float64Array {
  const panelSignal = body.columns[panel]
  const spotSignal = body.columns[spot]
  return panelSignal.map((signal, row) => {
    const base = dark >= 0 ? body.columns[dark][row] : 0
    return signal - base > 0 ? (spotSignal[row] - base) / (signal - base) : NaN
  })
}

const PLAIN_HEADING =
  /^(refl?(ectance)?s?|r|value|y|intensity|reflect|albedo|data|spectrum|signal|target|rock)$/u

/** The heading where it names the scan, else a name in the metadata, else the file's own. */
function scanName(file: string, preamble: Preamble, column: number, scans: number): string {
  const own = headingName(preamble, column) ?? nameInRows(preamble, column)
  if (own !== null) return own
  const named = nameInHead(preamble, column) ?? stemOf(file)
  const heading = preamble.headings?.[column] ?? ''
  if (scans <= 1) return named
  return heading === '' ? `${named} ${column}` : `${named} ${heading}`
}

/** The name that the head gives, in a column's heading or in a line of its own; or null. */
function nameInHead(preamble: Preamble, column: number): string | null {
  return headingName(preamble, column) ?? recognise(preamble.metadata).name
}

/** A name in a row of its own above or below the headings: beside nothing, or beside a word for names. */
function nameInRows({ columnRows }: Preamble, column: number): string | null {
  const row = columnRows.find(([first]) => {
    const field = fieldOf(first)
    return first === '' || field === 'name' || field === 'sample'
  })
  const name = row?.[column] ?? ''
  return /\p{L}|\d/u.test(name) ? name : null
}

/** A column's heading, where it names the scan rather than what was measured; or null. */
function headingName({ headings }: Preamble, column: number): string | null {
  const heading = headings?.[column] ?? ''
  const words = heading
    .slice(0, 300)
    .replace(/\([^)]*\)|\[[^\]]*\]|%|[./]/g, '')
    .trim()
    .toLowerCase()
  const isName = words !== '' && !PLAIN_HEADING.test(words) && !isReflectanceHeading(heading)
  return isName ? heading : null
}

function scanMetadata(preamble: Preamble, column: number): Record<string, string> {
  const metadata: Record<string, string> = { ...preamble.metadata }
  const [first] = preamble.headings ?? ['']
  // Depths or samples that head the columns, beside their word.
  if (column > 0 && !isWavelengthHeading(first) && fieldOf(first) !== null)
    metadata[first] = preamble.headings?.[column] ?? ''
  for (const row of preamble.columnRows) {
    if (row[0] !== '' && row[column] !== '' && row[column] !== undefined)
      metadata[row[0].replace(/\s*[:=]$/, '')] = row[column]
  }
  return metadata
}

function wavelengthHint(preamble: Preamble): string {
  const keyed = Object.entries(preamble.metadata)
    .filter(([key]) => /wave\s*-?(length|number)|^x\s*-?units?$/iu.test(key))
    .map(([key, value]) => `${key} ${value}`)
  return [preamble.headingText, ...keyed].join(' ')
}

function reflectanceKeys(metadata: Readonly<Record<string, string>>): string {
  return Object.entries(metadata)
    .filter(([key]) =>
      /^(reflectance|y)\s*-?(units?|scale|in)$|^(data )?units?$|^reflectance$/iu.test(key),
    )
    .map(([, value]) => value)
    .join(' ')
}

/** What a heading line without columns says after its wavelength. */
function reflectancePart(heading: string): string {
  return /refl.*$|%.*$/iu.exec(heading)?.[0] ?? ''
}
