/** Reads JCAMP-DX 4.24 (McDonald and Wilks 1988, Appl. Spectrosc. 42, 151): XYDATA and XYPOINTS. */
import { assemble } from './assemble'
import type { Layout, Look, Problem, ReadResult, ReadScan } from './input'
import { decodeOrdinates } from './jcamp-ordinates'
import { isOtherAxis } from './headings'
import { axisWords, lookOf } from './look'
import { MOST_ROWS } from './lines'
import { MetadataCollector } from './metadata'
import { leftOut, quoted, stemOf } from './result'
import type { TextFile } from './text-file'
import { short } from './units'

/** A labelled data record: `##LABEL= value`, with the lines that follow it. */
interface DataRecord {
  /** Upper case without blanks, dashes, slashes and underscores, by which labels are compared. */
  readonly label: string
  readonly written: string
  readonly lines: string[]
  readonly line: number
}

interface Block {
  readonly records: DataRecord[]
  closed: boolean
  /** Lines that are kept of it. */
  lines: number
}

/** Why a file is not read at all, and from which line on it is too much. */
interface Refusal {
  readonly line: number
  readonly problem: string
  readonly advice: string
}

/** Something wrong at a line; ends the reading of a block. */
class Fault extends Error {
  constructor(
    readonly line: number | null,
    message: string,
    readonly advice = 'export it again',
  ) {
    super(message)
  }
}

const DATA_LABELS = new Set(['XYDATA', 'XYPOINTS', 'PEAKTABLE', 'NTUPLES', 'DATATABLE', 'PAGE'])
const MOST_BLOCKS = 10_000
/** Of a block: a point a line is the longest form. */
const MOST_LINES = MOST_ROWS + 10_000

/** Reads all blocks of a file; each with data is a scan. */
export function readJcamp(text: TextFile): ReadResult {
  const blocks = splitBlocks(new TextDecoder().decode(text.bytes))
  if ('problem' in blocks) return leftOut(text.file, blocks.line, blocks.problem, blocks.advice)
  const scans: ReadScan[] = []
  const problems: Problem[] = []
  let layout: Layout | null = null
  let look: Look | undefined
  for (const block of blocks) {
    if (!block.records.some((record) => DATA_LABELS.has(record.label))) continue
    const result = readBlock(text, block)
    scans.push(...result.scans)
    problems.push(...result.problems)
    layout ??= result.layout
    look ??= result.look
  }
  if (scans.length === 0 && problems.length === 0)
    return leftOut(text.file, null, 'JCAMP-DX without XYDATA', 'export the scan with its values')
  const kind = scans.length > 0 ? 'scans' : 'unknown'
  return { kind, scans, tables: [], tracks: [], layout, look, problems }
}

/**
 * Blocks run from `##TITLE=` to `##END=`; a linked file holds blocks in a block.
 *
 * @returns why it is refused where it has more blocks than are read, or a block more lines
 */
function splitBlocks(text: string): Block[] | Refusal {
  const blocks: Block[] = []
  const open: Block[] = []
  let record: DataRecord | null = null
  let index = -1
  for (const whole of linesOf(text)) {
    index++
    const block = open.at(-1)
    if (block !== undefined && ++block.lines > MOST_LINES) return tooManyLines(index + 1)
    const comment = whole.indexOf('$$')
    const line = comment >= 0 ? whole.slice(0, comment) : whole
    const match = /^\s*##([^=]*)=(.*)$/u.exec(line)
    if (match === null) {
      if (record !== null && line.trim() !== '') record.lines.push(line)
      continue
    }
    const label = match[1].toUpperCase().replace(/[\s\-/_]/g, '')
    record = { label, written: match[1].trim(), lines: [match[2]], line: index + 1 }
    if (label === 'TITLE') {
      if (blocks.length === MOST_BLOCKS) return tooManyBlocks(index + 1)
      const titled: Block = { records: [], closed: false, lines: 0 }
      blocks.push(titled)
      open.push(titled)
    }
    if (label === 'END') {
      const ended = open.pop()
      if (ended !== undefined) ended.closed = true
      record = null
    } else if (label !== '') open[open.length - 1]?.records.push(record)
  }
  return blocks
}

function tooManyBlocks(line: number): Refusal {
  const problem = `JCAMP-DX of more than ${MOST_BLOCKS} blocks`
  return { line, problem, advice: `split it into files of at most ${MOST_BLOCKS} scans` }
}

function tooManyLines(line: number): Refusal {
  const problem = `a JCAMP-DX block of more than ${MOST_LINES} lines, which is no scan`
  return { line, problem, advice: 'export the scan again' }
}

/** Lines one after another: all of a large text at once would take many times its memory. */
function* linesOf(text: string): Iterable<string> {
  const ends = /\r\n|\n|\r/g
  let start = 0
  for (let end = ends.exec(text); end !== null; end = ends.exec(text)) {
    yield text.slice(start, end.index)
    start = ends.lastIndex
  }
  yield text.slice(start)
}

function readBlock(text: TextFile, block: Block): ReadResult {
  try {
    return assembleBlock(text, block)
  } catch (error) {
    if (error instanceof Fault) return leftOut(text.file, error.line, error.message, error.advice)
    throw error
  }
}

interface Points {
  readonly x: Float64Array
  readonly y: Float64Array
  /** 1-based line of each point. */
  readonly lines: Int32Array
}

function assembleBlock(text: TextFile, block: Block): ReadResult {
  const find = (label: string): DataRecord | undefined =>
    block.records.find((record) => record.label === label)
  const tuples = find('NTUPLES') ?? find('PAGE')
  if (tuples !== undefined || /ntuples/iu.test(find('DATACLASS')?.lines[0] ?? '')) {
    const line = tuples?.line ?? null
    throw new Fault(line, 'JCAMP-DX NTUPLES, which is not read', 'export it as XYDATA')
  }
  refuseOtherKinds(find('DATATYPE'), find('XUNITS'))
  refuseOtherOrdinates(find('YUNITS'))
  const points = readPoints(find)
  if (!block.closed)
    throw new Fault(null, 'JCAMP-DX without its ##END=: the file breaks off', 'copy it again')
  const title = find('TITLE')?.lines[0].trim() ?? ''
  const units = [find('XUNITS')?.lines[0].trim() ?? '', find('YUNITS')?.lines[0].trim() ?? '']
  const look = lookOf(['JCAMP-DX', ...units, axisWords(points.x)])
  const read = assemble(
    {
      file: text.file,
      axis: points.x,
      lineOf: (point) => `line ${points.lines[point]}`,
      lineNumber: (point) => points.lines[point] ?? null,
      scans: [
        {
          name: title === '' ? stemOf(text.file) : title.normalize('NFC'),
          values: points.y,
          metadata: metadataOf(block),
          line: points.lines[0] ?? null,
        },
      ],
      wavelengthHint: find('XUNITS')?.lines[0] ?? '',
      reflectanceHint: find('YUNITS')?.lines[0] ?? '',
      layout: { name: 'JCAMP-DX', decimal: '.', encoding: text.encoding },
    },
    text.overrides,
  )
  return { ...read, look }
}

/** Other methods write the same form: their axes may pass for wavenumbers, their signal for reflectance. */
function refuseOtherKinds(type: DataRecord | undefined, units: DataRecord | undefined): void {
  const kind = type?.lines[0].trim() ?? ''
  const axis = units?.lines[0].trim() ?? ''
  const advice = 'export reflectance against wavelength; leave other measurements out'
  if (/raman|nmr|mass|chromatogra|mobility|diffraction|fluorescence|luminescence/iu.test(kind))
    throw new Fault(type?.line ?? null, `a ${quoted(kind)}, which is no reflectance`, advice)
  if (
    /^(hz|hertz|mhz|ppm|m\/z|seconds?|time|minutes?|degrees?|2 ?theta|[km]?ev)$/iu.test(axis) ||
    isOtherAxis(axis)
  )
    throw new Fault(units?.line ?? null, `values along ${quoted(axis)}, which is not read`, advice)
}

function refuseOtherOrdinates(units: DataRecord | undefined): void {
  const written = units?.lines[0].trim() ?? ''
  if (!/absorb|transmi|kubelka|log|emiss|raman|counts|radiance/iu.test(written)) return
  throw new Fault(units?.line ?? null, `ordinates in ${quoted(written)}`, 'export reflectance')
}

function metadataOf(block: Block): Record<string, string> {
  const metadata = new MetadataCollector()
  for (const { label, written, lines } of block.records)
    if (!DATA_LABELS.has(label))
      metadata.add(
        written,
        dated(
          label,
          lines
            .map((line) => line.trim())
            .join(' ')
            .trim(),
        ),
      )
  return metadata.record()
}

/** `##DATE=` is year, month and day of two digits in version 4.24; its century is told beside it. */
function dated(label: string, value: string): string {
  const match = label === 'DATE' ? /^(\d\d)\/(\d\d)\/(\d\d)$/.exec(value) : null
  if (match === null) return value
  const century = Number(match[1]) < 70 ? 20 : 19
  return `${century}${match[1]}-${match[2]}-${match[3]} (${value})`
}

type Find = (label: string) => DataRecord | undefined

function numberIn(find: Find, label: string, otherwise?: number): number {
  const record = find(label)
  const value = Number(record?.lines[0].trim() || NaN)
  if (Number.isFinite(value)) return value
  if (record === undefined && otherwise !== undefined) return otherwise
  const missing = record === undefined ? 'is missing' : `is ${quoted(record.lines[0].trim())}`
  throw new Fault(record?.line ?? null, `##${label}= ${missing}, where a number should be`)
}

function readPoints(find: Find): Points {
  const data = find('XYDATA')
  if (data !== undefined) return readXyData(find, data)
  const pairs = find('XYPOINTS')
  if (pairs !== undefined) return readXyPoints(find, pairs)
  throw new Fault(null, 'JCAMP-DX with peaks alone and no XYDATA', 'export the whole scan')
}

/** `(X++(Y..Y))`: ordinates at equal steps, with every check that the form has. */
function readXyData(find: Find, data: DataRecord): Points {
  if (!/\(X\+\+\(Y\.\.Y\)\)/iu.test(data.lines[0].replace(/\s/g, '')))
    throw new Fault(
      data.line,
      `XYDATA of the form ${quoted(data.lines[0].trim())}`,
      'export (X++(Y..Y))',
    )
  const count = numberIn(find, 'NPOINTS')
  const first = numberIn(find, 'FIRSTX')
  const step = count > 1 ? (numberIn(find, 'LASTX') - first) / (count - 1) : 0
  const xFactor = numberIn(find, 'XFACTOR', 1)
  const yFactor = numberIn(find, 'YFACTOR', 1)
  const ordinates: number[] = []
  const lines: number[] = []
  let repeats = false
  data.lines.slice(1).forEach((text, index) => {
    const line = data.line + index + 1
    const decoded = decodeOrdinates(text)
    if (typeof decoded === 'string') throw new Fault(line, decoded)
    let values = decoded.ordinates
    if (values.length === 0) return
    checkAbscissa(decoded.x * xFactor, first, step, ordinates.length, repeats, text, xFactor, line)
    if (repeats) {
      const last = ordinates[ordinates.length - 1]
      if (Math.abs(values[0] - last) > 1e-9 * Math.max(1, Math.abs(last))) {
        const why = `the ordinate check fails: ${values[0]} should repeat ${last}`
        throw new Fault(line, why, 'the file is damaged; export it again')
      }
      values = values.slice(1)
    }
    for (const value of values) {
      ordinates.push(value)
      lines.push(line)
    }
    repeats = decoded.endsInDifference
  })
  checkCount(ordinates.length, count, data.line)
  checkFirst(find, ordinates[0] * yFactor, yFactor)
  return {
    x: Float64Array.from(ordinates, (_, i) => first + i * step),
    y: Float64Array.from(ordinates, (value) => value * yFactor),
    lines: Int32Array.from(lines),
  }
}

/** Each line's abscissa must be where its ordinates are, to half a step and its own rounding. */
function checkAbscissa(
  x: number,
  first: number,
  step: number,
  index: number,
  repeats: boolean,
  text: string,
  xFactor: number,
  line: number,
): void {
  const expected = first + step * index
  const fraction = /^\s*[+-]?\d*\.?(\d*)/.exec(text)?.[1].length ?? 0
  const tolerance =
    0.5 * Math.abs(step) + Math.abs(xFactor) * 0.5 * 10 ** -fraction + 1e-6 * Math.abs(x)
  // A line that repeats the last ordinate begins at it; some writers give the abscissa after it.
  const other = repeats ? expected - step : expected
  if (Math.abs(x - expected) <= tolerance || Math.abs(x - other) <= tolerance) return
  const why = `the abscissa check fails: ${short(x)} should be ${short(expected)}`
  throw new Fault(line, why, 'lines are missing or damaged; export it again')
}

function checkCount(found: number, stated: number, line: number): void {
  if (found === stated) return
  throw new Fault(
    line,
    `##NPOINTS= says ${stated} and there are ${found}`,
    'the file is not whole; copy it again',
  )
}

/** FIRSTY is rounded as it is printed, so it may differ by a step of the ordinates or 0.1 %. */
function checkFirst(find: Find, value: number, yFactor: number): void {
  const record = find('FIRSTY')
  const stated = Number(record?.lines[0].trim() || NaN)
  if (Number.isNaN(stated) || Number.isNaN(value)) return
  const tolerance = 1.01 * Math.abs(yFactor) + 1e-3 * Math.abs(stated)
  if (Math.abs(stated - value) <= tolerance) return
  const why = `##FIRSTY= says ${short(stated)} and the first ordinate is ${short(value)}`
  throw new Fault(record?.line ?? null, why, 'the file is damaged; export it again')
}

/** `(XY..XY)`: pairs of plain numbers. */
function readXyPoints(find: Find, pairs: DataRecord): Points {
  const xFactor = numberIn(find, 'XFACTOR', 1)
  const yFactor = numberIn(find, 'YFACTOR', 1)
  const x: number[] = []
  const y: number[] = []
  const lines: number[] = []
  pairs.lines.slice(1).forEach((text, index) => {
    const line = pairs.line + index + 1
    const cells = text
      .trim()
      .split(/\s*[;,]\s*|\s+/)
      .filter((cell) => cell !== '')
    if (cells.length % 2 !== 0) throw new Fault(line, `${quoted(text.trim())} is not in pairs`)
    cells.forEach((cell, i) => {
      const value = cell === '?' ? NaN : Number(cell)
      if (cell !== '?' && !Number.isFinite(value))
        throw new Fault(line, `${quoted(cell)} is not a number`)
      if (i % 2 === 1) y.push(value * yFactor)
      else {
        x.push(value * xFactor)
        lines.push(line)
      }
    })
  })
  checkCount(x.length, numberIn(find, 'NPOINTS', x.length), pairs.line)
  return { x: Float64Array.from(x), y: Float64Array.from(y), lines: Int32Array.from(lines) }
}
