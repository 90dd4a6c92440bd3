/** Reads any table of text: finds what it is and hands it to its reader. */
import { decimalByte, readBody } from './body'
import { readColumns } from './columns'
import { textOf } from './decode'
import {
  MOST_LINES,
  numericFormat,
  readHead,
  textFormat,
  textFormatWithEmptyTails,
  underHeading,
  type CellFormat,
  type Head,
  type HeadLine,
} from './head'
import {
  areAssays,
  isChannelHeading,
  isOtherQuantity,
  isPlaceHeading,
  isReflectanceHeading,
  isWavelengthHeading,
} from './headings'
import type { ReadResult } from './input'
import { BLANK, CellSplitter, LONGEST_LINE, nextLine, SEMICOLON, TAB } from './lines'
import { MetadataCollector } from './metadata'
import { COMMA, isGapMark, parseNumber } from './numbers'
import { fieldOf } from './recognise'
import { withoutQuotedBreaks } from './quoted-breaks'
import { readPreamble, type Preamble } from './preamble'
import { leftOut, quoted } from './result'
import { numberAdvice, PLAIN_ADVICE } from './row-problem'
import { readStacked } from './stacked'
import { readTable } from './table'
import { pairDelimiter, type TextFile } from './text-file'
import { axisFault, decideWavelengthUnit, FEWEST_CHANNELS, toNanometres } from './units'
import { readValues } from './values'
import { namesScans } from './wide-or-columns'
import { readWide, wideHeading, type WideHeading } from './wide'

/** Scans or a table out of a text, or a problem that says why there are none. */
export function readText(text: TextFile): ReadResult {
  const alone = readOneTable(text)
  const isRead = alone.kind !== 'unknown' || alone.problems.length === 0
  return isRead ? alone : (readStacked(text, readOneTable) ?? alone)
}

function readOneTable(written: TextFile): ReadResult {
  const text = withoutQuotedBreaks(written)
  const head = readHead(text.bytes)
  if (head.tooLong !== null) {
    const problem = `a line of over ${LONGEST_LINE / 1e6} million bytes, which is no table`
    return leftOut(
      text.file,
      head.tooLong,
      problem,
      'export the scan again as text, a line a wavelength',
    )
  }
  if (head.lines.length === 0)
    return leftOut(text.file, null, 'the file is empty', 'copy it again from the instrument')
  return head.numeric < 0 ? readTextRows(text, head) : readNumberRows(text, head)
}

function readNumberRows(text: TextFile, head: Head): ReadResult {
  const { bytes } = text
  const sign = text.overrides.decimal
  const sample = head.lines.slice(head.numeric)
  const written = numericFormat(bytes, sample, sign === undefined ? undefined : decimalByte(sign))
  const format = underHeading(bytes, written, head.lines[head.numeric - 1], sample)
  const wide = findWide(text, head.lines.slice(0, head.numeric + 1), format.delimiter)
  if (wide !== null) {
    // A row of values that rise may pass for such a heading: then the rows begin with it.
    const isRow = !Number.isNaN(Number(wide.heading.cells[0] || NaN))
    const rows = Math.max(isRow ? wide.index : wide.index + 1, head.numeric)
    const below = head.lines[rows]?.start ?? bytes.length
    if (!namesScans(bytes, wide.heading, below, format.delimiter))
      return readWideUnder(text, head, wide, format.delimiter)
  }
  const first = bodyStart(bytes, head, format)
  if (format.columns === 1) return readValues(text, { ...head, numeric: first }, format)
  const preamble = readPreamble(bytes, head.lines.slice(0, first), format)
  const line = head.lines[first]
  if (isSampleTable(text, line, format, preamble)) {
    if (hasOnlyChannels(preamble.headings ?? [])) {
      const problem = 'channels that are numbered, without wavelengths'
      return leftOut(text.file, line.number, problem, 'export the wavelengths beside them')
    }
    return tableAt(text, head, Math.max(0, preamble.headingLine), format.delimiter)
  }
  if (preamble.damaged >= 0) return damagedLine(text, head.lines[preamble.damaged])
  return readColumns(text, line.start, line.number, format, preamble)
}

/**
 * The first row: the first line from where numbers begin that has as many cells as the others and
 * a wavelength; or further up where lines begin with a number too, so that a bad cell in the first
 * rows is seen rather than taken for a heading.
 */
function bodyStart(bytes: Uint8Array, head: Head, format: CellFormat): number {
  const isRow = ({ start, end }: HeadLine): boolean => {
    cells.split(bytes, start, end, format.delimiter)
    if (cells.filled(format.columns) !== format.columns) return false
    return format.columns === 1 || !isGapMark(bytes, cells.starts[0], cells.ends[0])
  }
  let first = head.lines.findIndex((line, i) => i >= head.numeric && isRow(line))
  if (first < 0) return head.numeric
  const startsWithNumber = (line: HeadLine): boolean =>
    isRow(line) && !Number.isNaN(parseNumber(bytes, cells.starts[0], cells.ends[0], format.decimal))
  while (first > 0 && format.columns > 1 && startsWithNumber(head.lines[first - 1])) first--
  return first
}

interface FoundWide {
  readonly heading: WideHeading
  readonly index: number
}

/**
 * The line of wavelengths of a wide table: that with the most of them; of several the lowest that
 * holds a word, for reflectances beside a number for a name may rise as wavelengths do.
 */
function findWide(text: TextFile, lines: readonly HeadLine[], delimiter: number): FoundWide | null {
  let best: FoundWide | null = null
  let most = 0
  for (let index = lines.length - 1; index >= 0; index--) {
    const { start, end } = lines[index]
    if (cells.split(text.bytes, start, end, delimiter) < FEWEST_CHANNELS) continue
    const texts = cellTexts(text.bytes, lines[index], delimiter)
    const heading = wideHeading(texts)
    if (heading === null) continue
    const worth = 2 * (heading.to - heading.from) + (texts.some(isWord) ? 1 : 0)
    if (worth <= most) continue
    best = { heading, index }
    most = worth
  }
  return best
}

function isWord(cell: string): boolean {
  return /^\p{L}{2}/u.test(cell) && !/\d/.test(cell)
}

/** Splits one line after another; nothing is kept in it. */
const cells = new CellSplitter()

function cellTexts(bytes: Uint8Array, line: HeadLine, delimiter: number): string[] {
  const count = cells.split(bytes, line.start, line.end, delimiter)
  const texts: string[] = []
  for (let c = 0; c < count; c++) texts.push(textOf(bytes, cells.starts[c], cells.ends[c]))
  return texts
}

function readWideUnder(
  text: TextFile,
  head: Head,
  { heading, index }: FoundWide,
  delimiter: number,
): ReadResult {
  const metadata = new MetadataCollector()
  for (const line of head.lines.slice(0, index))
    metadata.addLine(textOf(text.bytes, line.start, line.end), pairDelimiter(delimiter))
  return readWide(text, heading, head.lines[index], delimiter, metadata.record())
}

/**
 * Whether rows of numbers under a heading are samples rather than wavelengths: no heading names
 * wavelengths, and one names a place or the first column is no plausible axis.
 */
function isSampleTable(
  text: TextFile,
  line: HeadLine,
  format: CellFormat,
  preamble: Preamble,
): boolean {
  // Two columns have headings only where these name wavelengths; a table's stand in its first line.
  const headings = preamble.headings ?? (preamble.isAboveFirst ? preamble.above : null)
  if (headings === null || headings.some(isWavelengthHeading)) return false
  if (![BLANK, TAB, SEMICOLON, COMMA].includes(format.delimiter)) return false
  if (headings.filter(isPlaceHeading).length > 1) return true
  if (isHeadedAsTable(headings)) return true
  if (preamble.headings === null) return false
  if (headings[0] === '') return false
  const body = readBody(text.bytes, line.start, line.number, format)
  if (body.rowFault !== null || body.cellFaults.has(0)) return true
  return !isPlausibleAxis(body.columns[isChannelHeading(headings[0]) ? 1 : 0])
}

/** Whether headings name channels and a quantity of light, and no wavelengths. */
function hasOnlyChannels([first, ...others]: readonly string[]): boolean {
  if (!isChannelHeading(first ?? '') || others.some(isPlaceHeading)) return false
  return others.some((heading) => isReflectanceHeading(heading) || isOtherQuantity(heading))
}

/** What a table's first column may be that no axis of wavelengths is called. */
const FIRST_OF_TABLE: ReadonlySet<string> = new Set([
  'hole',
  'from',
  'to',
  'depth',
  'date',
  'dateTime',
  'latitude',
  'longitude',
])

/** Whether words beside a depth, a time or the like, or assays beside a name, make a table. */
function isHeadedAsTable([first, ...others]: readonly string[]): boolean {
  const words = others.filter((heading) => /^\p{L}/u.test(heading))
  if (words.length === 0 || 2 * words.length < others.length) return false
  if (others.some(isReflectanceHeading)) return false
  const field = fieldOf(first)
  if (field !== null && FIRST_OF_TABLE.has(field)) return true
  return isPlaceHeading(first) && areAssays(words)
}

/** Thirty or more wavelengths in order, between 200 nm and 30 µm. */
function isPlausibleAxis(axis: Float64Array): boolean {
  if (axis.length < 30 || axis.some(Number.isNaN) || axisFault(axis, String) !== null) return false
  const { unit } = decideWavelengthUnit(axis, null)
  const ends = [toNanometres(axis[0], unit), toNanometres(axis[axis.length - 1], unit)]
  return Math.min(...ends) >= 200 && Math.max(...ends) <= 30_000
}

function readTextRows(text: TextFile, head: Head): ReadResult {
  const plain = readTextTable(text, head, textFormat(text.bytes, head.lines))
  if (plain !== null) return plain
  const tailed = readTextTable(text, head, textFormatWithEmptyTails(text.bytes, head.lines))
  return tailed?.kind === 'table' ? tailed : noTable(text)
}

/** A table of text cells, or of scans under text; null where the lines are neither so written. */
function readTextTable(
  text: TextFile,
  head: Head,
  format: (CellFormat & { readonly first: number }) | null,
): ReadResult | null {
  if (format !== null) {
    const wide = findWide(text, head.lines.slice(0, format.first + 1), format.delimiter)
    if (wide !== null) return readWideUnder(text, head, wide, format.delimiter)
    const below = wideBelow(text, head, format.first, format.delimiter)
    if (below !== null) return readWideUnder(text, head, below, format.delimiter)
    const first = firstHeading(text, head, format.first, format.delimiter)
    const heading = head.lines[first]
    const cells = cellTexts(text.bytes, heading, format.delimiter)
    if (cells.some(isWavelengthHeading) && cells.some(isSampleName)) return longTable(text, heading)
    if (cells.some(isWavelengthHeading)) return notNumeric(text, head, first + 1)
    const beginsWithNumber = !Number.isNaN(Number(cells[0] || NaN))
    if (beginsWithNumber) return notNumeric(text, head, first)
    const next = head.lines.at(first + 1)
    const isParted = next !== undefined && partedHeading(text, heading, next, format.delimiter)
    if (isParted && isTableOfPlaces(text, head, next, format.delimiter))
      return tableAt(text, head, first + 1, format.delimiter)
    if (isTableHeading(cells) && isTableOfPlaces(text, head, heading, format.delimiter))
      return tableAt(text, head, first, format.delimiter)
  }
  if (head.lines.length >= MOST_LINES) {
    const problem = `no numbers in the first ${MOST_LINES} lines`
    return leftOut(text.file, null, problem, 'shorten what stands above the numbers')
  }
  return null
}

function noTable(text: TextFile): ReadResult {
  return leftOut(
    text.file,
    null,
    'no table of wavelengths and reflectance, and no sample table',
    'if it should hold scans, export them as text; if samples, head one column Sample, East or the like',
  )
}

/** The first line from `index` on that is not a title alone in its row, as spreadsheets have above tables. */
function firstHeading(text: TextFile, head: Head, index: number, delimiter: number): number {
  const isTitle = (line: HeadLine): boolean => {
    const cells = cellTexts(text.bytes, line, delimiter)
    return cells.length > 2 && cells.slice(1).every((cell) => cell === '')
  }
  const found = head.lines.findIndex((line, i) => i >= index && !isTitle(line))
  return found < 0 ? index : found
}

/** Wavelengths in the line under one that is all but empty, as under a cell merged over them; or null. */
function wideBelow(text: TextFile, head: Head, index: number, delimiter: number): FoundWide | null {
  const cells = cellTexts(text.bytes, head.lines[index], delimiter)
  const filled = cells.filter((cell) => cell !== '').length
  if (filled > 0.3 * cells.length || index + 1 >= head.lines.length) return null
  const found = findWide(text, [head.lines[index + 1]], delimiter)
  return found && { ...found, index: index + 1 }
}

/** The table under a heading, whose first words may stand in the line above. */
function tableAt(text: TextFile, head: Head, index: number, delimiter: number): ReadResult {
  const { start, number } = head.lines[index]
  const above =
    index > 0 ? partedHeading(text, head.lines[index - 1], head.lines[index], delimiter) : null
  return readTable(text.file, text.bytes, start, number, delimiter, above ?? undefined)
}

/**
 * A heading in two lines, as over merged cells: the lower word of each column, else the upper one.
 * Null where the upper line has a word for every column, or either holds more than words.
 */
function partedHeading(
  text: TextFile,
  upper: HeadLine,
  lower: HeadLine,
  delimiter: number,
): string[] | null {
  if (delimiter === BLANK) return null
  const [above, below] = [upper, lower].map((line) => cellTexts(text.bytes, line, delimiter))
  const isWords = [...above, ...below].every((cell) => cell === '' || /^\p{L}/u.test(cell))
  const isPart = above.length === below.length && above.length > 2
  if (!isWords || !isPart || !above.slice(0, -1).includes('') || !below.includes('')) return null
  const merged = below.map((cell, column) => (cell === '' ? above[column] : cell))
  const isNamed = below.filter((cell) => isPlaceHeading(cell) || fieldOf(cell) !== null).length > 0
  return isNamed && merged.every((cell) => cell !== '') ? merged : null
}

/** Headings are words, at most a few of them missing, and at least half of them start with a letter. */
function isTableHeading(cells: readonly string[]): boolean {
  const filled = cells.filter((cell) => cell !== '')
  const words = filled.filter((cell) => /\p{L}/u.test(cell) && cell.length <= 80)
  return filled.length >= 2 && words.length === filled.length && filled.length >= 0.7 * cells.length
}

/**
 * Whether a table can serve, by its first lines: it has a row, and a heading is known or one of
 * three or more columns holds numbers.
 */
function isTableOfPlaces(
  { file, bytes }: TextFile,
  { lines }: Head,
  heading: HeadLine,
  delimiter: number,
): boolean {
  const end = nextLine(bytes, lines[lines.length - 1].end)
  const first = bytes.subarray(0, end)
  const table = readTable(file, first, heading.start, heading.number, delimiter).tables.at(0)
  if (table === undefined || table.rows.length === 0) return false
  if (table.header.some((name) => isPlaceHeading(name) || fieldOf(name) !== null)) return true
  return table.header.some((_, column) => {
    const numbers = table.rows.map((row) => Number(row[column].replace(',', '.') || NaN))
    const present = numbers.filter((value) => !Number.isNaN(value))
    return table.header.length > 2 && present.length >= 0.5 * numbers.length
  })
}

function isSampleName(heading: string): boolean {
  const field = fieldOf(heading)
  return field === 'name' || field === 'sample'
}

/** A table of a row for each wavelength of each sample. */
function longTable(text: TextFile, heading: HeadLine): ReadResult {
  const problem = 'a table with a row for each wavelength of each sample'
  const advice = 'turn it so that each scan has a row or a column of its own'
  return leftOut(text.file, heading.number, problem, advice)
}

function damagedLine(text: TextFile, line: HeadLine): ReadResult {
  const row = quoted(textOf(text.bytes, line.start, Math.min(line.end, line.start + 200)))
  const problem = `${row} stands just above the numbers and is neither their heading nor a row`
  return leftOut(text.file, line.number, problem, 'correct the line or export the scan again')
}

function notNumeric(text: TextFile, head: Head, index: number): ReadResult {
  const line = head.lines[Math.min(index, head.lines.length - 1)]
  const row = textOf(text.bytes, line.start, Math.min(line.end, line.start + 200))
  const cells = row.split(/[\t;,]/)
  const advice = cells
    .map((cell) => numberAdvice(cell.trim()))
    .find((words) => words !== PLAIN_ADVICE)
  return leftOut(
    text.file,
    line.number,
    `${quoted(row)} stands where numbers should`,
    advice ?? 'export the scan again as numbers',
  )
}
