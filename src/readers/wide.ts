/** Reads wide tables: a row a scan, headings that are wavelengths, and other columns as metadata. */
import { assemble, type RawScan, type RawScans } from './assemble'
import { decimalSign } from './body'
import { textOf } from './decode'
import type { CellFormat, HeadLine } from './head'
import type { Problem, ReadResult, ReadScan } from './input'
import { CellSplitter, isBlank, lineEnd, LONGEST_LINE, nextLine } from './lines'
import { axisWords, lookOf } from './look'
import { COMMA, isDeleted, isGapMark, parseNumber, POINT } from './numbers'
import { OTHER_QUANTITY_ADVICE, otherQuantity } from './other-quantity'
import { fieldOf, recognise } from './recognise'
import { leftOut, quoted, stemOf } from './result'
import { rowFaultWords } from './row-problem'
import { delimiterName, type TextFile } from './text-file'
import { FEWEST_CHANNELS, namedWavelengthUnit } from './units'

/** A heading row in which wavelengths stand side by side. */
export interface WideHeading {
  readonly cells: readonly string[]
  /** The wavelengths' columns are `[from, to)`. */
  readonly from: number
  readonly to: number
  readonly axis: Float64Array
  /** What stands before or after the numbers, such as `nm`. */
  readonly affix: string
}

const WAVELENGTH_CELL =
  /^([\p{L}_ ]{0,16}?[@([]?)[ _]?(\d+(?:[.,]\d+)?)\s*([\p{L}µμ_ ()⁻¹-]{0,12}\]?)$/u

/** The longest run of ten or more headings that are wavelengths alike written, rising or falling. */
export function wideHeading(cells: readonly string[]): WideHeading | null {
  let best: WideHeading | null = null
  for (let from = 0; from < cells.length;) {
    const first = WAVELENGTH_CELL.exec(cells[from])
    const axis: number[] = []
    let to = from
    for (; first !== null && to < cells.length; to++) {
      const match = WAVELENGTH_CELL.exec(cells[to])
      if (match === null || match[1] !== first[1] || match[3] !== first[3]) break
      const value = Number(match[2].replace(',', '.'))
      const n = axis.length
      if (n > 1 && (value - axis[n - 1]) * (axis[1] - axis[0]) <= 0) break
      axis.push(value)
    }
    const length = to - from
    if (first !== null && length > (best === null ? FEWEST_CHANNELS - 1 : best.to - best.from)) {
      const affix = `${first[1]} ${first[3]}`.trim()
      const candidate = { cells, from, to, axis: Float64Array.from(axis), affix }
      if (isAxis(candidate.axis, affix)) best = candidate
    }
    from = Math.max(from + 1, to)
  }
  return best
}

/**
 * A column outside the run whose heading is a wavelength or was one before it was damaged, or -1:
 * its channel would be lost, and read as metadata.
 */
function strayHeading({ cells, from, to, affix }: WideHeading): number {
  return cells.findIndex((cell, column) => {
    if (column >= from && column < to) return false
    const isBeside = column === from - 1 || column === to
    const match = WAVELENGTH_CELL.exec(cell)
    const isAlike = match !== null && `${match[1]} ${match[3]}`.trim() === affix
    if (isAlike && (isBeside || match[2].length > 2)) return true
    const digits = cell.replace(/\D/g, '').length
    return isBeside && (/^\d/.test(cell) || (digits >= 2 && 2 * digits >= cell.length))
  })
}

/**
 * Between 100 nm and 100 µm in any of the units, over more than a twentieth of the first. Whole
 * numbers up to 100 that name no unit count samples or bands: micrometres have decimals.
 */
function isAxis(axis: Float64Array, affix: string): boolean {
  const low = Math.min(axis[0], axis[axis.length - 1])
  const high = Math.max(axis[0], axis[axis.length - 1])
  if (high <= 100 && axis.every(Number.isInteger) && namedWavelengthUnit(affix) === null)
    return false
  const inRange = high <= 100 ? low >= 0.1 : low >= 100 && high <= 100_000
  return inRange && high / low > 1.05
}

/** Rows that are assembled together: their values stand in memory as doubles meanwhile. */
const BATCH = 64

/** Rows that are told of one by one; of further ones only the number is told. */
const MOST_TOLD = 500

/** Reads the rows under a wide heading. A row that cannot be read is left out alone. */
export function readWide(
  text: TextFile,
  heading: WideHeading,
  line: HeadLine,
  delimiter: number,
  metadata: Readonly<Record<string, string>>,
): ReadResult {
  const stray = strayHeading(heading)
  if (stray >= 0) {
    const problem = `the heading ${quoted(heading.cells[stray])} of column ${stray + 1} is no wavelength in order`
    return leftOut(text.file, line.number, problem, 'correct the heading or export the table again')
  }
  const quantity = otherQuantity([], metadata, text.overrides)
  if (quantity !== null) return leftOut(text.file, line.number, quantity, OTHER_QUANTITY_ADVICE)
  const reader = new WideReader(text, heading, delimiter, metadata)
  reader.read(nextLine(text.bytes, line.end), line.number + 1)
  const look = lookOf([
    'a row a scan',
    delimiterName(delimiter) ?? '',
    axisWords(heading.axis),
    heading.affix,
  ])
  return { ...reader.result(line.number), look }
}

class WideReader {
  private readonly cells = new CellSplitter()
  private readonly problems: Problem[] = []
  /** Problems that were too many to be told of one by one, and the first of them. */
  private untold = 0
  private firstUntold: Problem | null = null
  private readonly scans: ReadScan[] = []
  private batch: RawScan[] = []
  private first: ReadResult | null = null
  private decimal: number
  private row = 0
  /** Whether a heading says which column names the scans or samples. */
  private readonly hasNames: boolean

  constructor(
    private readonly text: TextFile,
    private readonly heading: WideHeading,
    private readonly delimiter: number,
    private readonly metadata: Readonly<Record<string, string>>,
  ) {
    this.decimal = text.overrides.decimal === ',' ? COMMA : POINT
    this.hasNames = heading.cells.some((cell, c) => {
      const field = c < heading.from || c >= heading.to ? fieldOf(cell) : null
      return field === 'name' || field === 'sample'
    })
  }

  read(start: number, firstLine: number): void {
    const { bytes } = this.text
    let line = firstLine
    let decided = this.text.overrides.decimal !== undefined
    for (let at = start; at < bytes.length; line++) {
      const end = lineEnd(bytes, at)
      if (!isBlank(bytes, at, end)) {
        const found =
          end - at > LONGEST_LINE ? -1 : this.cells.split(bytes, at, end, this.delimiter)
        if (!decided && found === this.heading.cells.length) {
          this.decimal = this.decimalOfRow()
          decided = true
        }
        this.addRow(at, end, line, found)
      }
      at = nextLine(bytes, end)
    }
    this.assembleBatch()
  }

  result(headingLine: number): ReadResult {
    const { file } = this.text
    if (this.firstUntold !== null) {
      const problem = `${this.untold} more rows that cannot be read`
      const done = 'their scans were left out; correct what the rows before have wrong'
      this.problems.push({ file, line: this.firstUntold.line, problem, done })
    }
    if (this.first !== null) {
      const kind = this.scans.length > 0 ? 'scans' : 'unknown'
      return { ...this.first, kind, scans: this.scans, problems: this.problems }
    }
    if (this.problems.length === 0) {
      const problem = 'a heading of wavelengths and no rows under it'
      const done = 'left out; the file may be broken off, copy it again'
      this.problems.push({ file, line: headingLine, problem, done })
    }
    return {
      kind: 'unknown',
      scans: [],
      tables: [],
      tracks: [],
      layout: null,
      problems: this.problems,
    }
  }

  private tell(problem: Problem): void {
    if (this.problems.length < MOST_TOLD) {
      this.problems.push(problem)
      return
    }
    this.untold++
    this.firstUntold ??= problem
  }

  /** A comma where more cells of this row are numbers with one. */
  private decimalOfRow(): number {
    const { bytes } = this.text
    let points = 0
    let commas = 0
    for (let c = this.heading.from; c < this.heading.to; c++) {
      if (!Number.isNaN(parseNumber(bytes, this.cells.starts[c], this.cells.ends[c], POINT)))
        points++
      if (!Number.isNaN(parseNumber(bytes, this.cells.starts[c], this.cells.ends[c], COMMA)))
        commas++
    }
    return commas > points ? COMMA : POINT
  }

  private addRow(start: number, end: number, line: number, found: number): void {
    const { bytes, file } = this.text
    const { from, to } = this.heading
    const width = this.heading.cells.length
    this.row++
    const isLast = end >= bytes.length
    const format: CellFormat = { delimiter: this.delimiter, decimal: this.decimal, columns: width }
    const lastCell = this.cells.starts[width - 1]
    const isCutOff = isLast && found === width && to === width && lastCell === end
    const refuse = (
      cellStart: number,
      cellEnd: number,
      kind: 'long' | 'cells' | 'not a number',
    ): void => {
      const fault = {
        line,
        kind,
        start: cellStart,
        end: cellEnd,
        found: isCutOff ? found - 1 : found,
        column: -1,
        isLast,
      }
      const { problem, advice } = rowFaultWords(this.text, fault, format)
      const done = `the scan of this row was left out; ${advice}`
      this.tell({ file, line, problem, done })
    }
    if (isCutOff || (found !== width && !this.hasOnlyEmptyExtras(found, width))) {
      refuse(start, end, found < 0 ? 'long' : 'cells')
      return
    }
    const unnamed = this.valueWithoutHeading()
    if (unnamed >= 0) {
      const problem = `a value in column ${unnamed + 1}, beside the wavelengths and without a heading`
      const done = 'the scan of this row was left out; give the column its heading'
      this.tell({ file, line, problem, done })
      return
    }
    const values = new Float64Array(to - from)
    for (let c = from; c < to; c++) {
      const value = parseNumber(bytes, this.cells.starts[c], this.cells.ends[c], this.decimal)
      values[c - from] = isDeleted(value) ? NaN : value
      if (!Number.isNaN(value) || isGapMark(bytes, this.cells.starts[c], this.cells.ends[c]))
        continue
      refuse(this.cells.starts[c], this.cells.ends[c], 'not a number')
      return
    }
    const metadata = this.rowMetadata()
    this.batch.push({ name: this.rowName(metadata), values, metadata, line })
    if (this.batch.length >= BATCH) this.assembleBatch()
  }

  /** A filled column next to the axis whose heading is empty: its wavelength may be lost. Or -1. */
  private valueWithoutHeading(): number {
    const { cells, from, to } = this.heading
    const beside = [from - 1, to].filter((column) => column > 0 && column < cells.length)
    const isFilled = (column: number): boolean =>
      this.cells.ends[column] > this.cells.starts[column]
    return beside.find((column) => cells[column] === '' && isFilled(column)) ?? -1
  }

  private hasOnlyEmptyExtras(found: number, width: number): boolean {
    for (let c = width; c < found; c++) if (this.cells.ends[c] > this.cells.starts[c]) return false
    return found >= width
  }

  private rowMetadata(): Record<string, string> {
    const { cells, from, to } = this.heading
    const metadata: Record<string, string> = { ...this.metadata }
    for (let c = 0; c < cells.length; c++) {
      if (c >= from && c < to) continue
      const value = textOf(this.text.bytes, this.cells.starts[c], this.cells.ends[c])
      if (value === '') continue
      const isName = c === 0 && !this.hasNames
      const heading = cells[c] === '' ? (isName ? 'name' : `column ${c + 1}`) : cells[c]
      metadata[heading] = value.replaceAll('""', '"')
    }
    return metadata
  }

  private rowName(metadata: Readonly<Record<string, string>>): string {
    const known = recognise(metadata)
    const depth = known.from ?? known.depth
    if (known.name !== null) return known.name
    if (known.hole !== null && depth !== null) return `${known.hole} ${depth}`
    if (known.sample !== null) return known.sample
    const { cells, from } = this.heading
    const firstIsText = from > 0 && cells[0] !== '' && /wave|λ|\bnm\b/iu.test(cells[0])
    return (firstIsText && metadata[cells[0]]) || `${stemOf(this.text.file)} ${this.row}`
  }

  /** Turns the rows so far into scans, in the units that the first rows decided. */
  private assembleBatch(): void {
    if (this.batch.length === 0) return
    const result = assemble(this.rawScans(), { ...this.text.overrides, ...unitsOf(this.first) })
    this.batch = []
    for (const problem of result.problems) this.tell(problem)
    if (this.first === null && result.layout !== null) this.first = result
    const shared = this.first?.scans[0]?.wavelengths ?? this.scans[0]?.wavelengths
    for (const scan of result.scans)
      this.scans.push(shared === undefined ? scan : { ...scan, wavelengths: shared })
  }

  private rawScans(): RawScans {
    const { axis, from, affix, cells } = this.heading
    return {
      file: this.text.file,
      axis,
      lineOf: (channel) => `column ${from + channel + 1}`,
      lineNumber: () => null,
      scans: this.batch,
      wavelengthHint: `${affix} ${from > 0 && /wave/iu.test(cells[0]) ? cells[0] : ''}`,
      reflectanceHint: Object.entries(this.metadata)
        .filter(([key]) => /refl|^y|unit/iu.test(key))
        .map(([key, value]) => `${key} ${value}`)
        .join(' '),
      layout: {
        name: 'a row a scan',
        decimal: decimalSign(this.decimal),
        delimiter: delimiterName(this.delimiter),
        encoding: this.text.encoding,
      },
    }
  }
}

function unitsOf(first: ReadResult | null): object {
  if (first === null || first.layout === null) return {}
  const { wavelengthUnit, reflectanceUnit } = first.layout
  return { wavelengthUnit, reflectanceUnit }
}
