/**
 * Scans one after another in one text: a header, its table, the next header, its table, and so on.
 *
 * A damaged file must not pass for such a stack: blocks are scans only where at least two have a
 * header between them, the same number of rows, and rows that begin alike at both ends, as one axis
 * gives. A block that differs is left out and told of.
 */
import type { Layout, Problem, ReadResult, ReadScan } from './input'
import { isBlank, lineEnd, nextLine } from './lines'
import { looksNumeric } from './head'
import { leftOut, stemOf } from './result'
import type { TextFile } from './text-file'
import { FEWEST_CHANNELS } from './units'

/** A header and its rows. */
interface Block {
  /** Bytes of header and rows, and the 1-based line of the first. */
  readonly start: number
  readonly end: number
  readonly line: number
  readonly rows: number
  /** The first line of its rows. */
  readonly rowsLine: number
  /** The rows' count and the first cells of the first and the last: alike on one axis. */
  readonly axis: string
}

const MOST_BLOCKS = 20_000
const FIRST_CELL = /^\s*"?([^\s;,\t"]+)/

/**
 * All scans of a stack; null where the text is none.
 *
 * @param readBlock reads a header with its rows
 */
export function readStacked(
  text: TextFile,
  readBlock: (block: TextFile) => ReadResult,
): ReadResult | null {
  const blocks = blocksOf(text.bytes)
  if (blocks === null) return null
  if ('tooManyFrom' in blocks) {
    const problem = `more than ${MOST_BLOCKS} tables one after another`
    const advice = `split it into files of at most ${MOST_BLOCKS} scans`
    return leftOut(text.file, blocks.tooManyFrom, problem, advice)
  }
  const axis = commonAxis(blocks)
  if (axis === null) return null
  const problems: Problem[] = []
  const whole = blocks.filter((block) => {
    if (block.axis === axis) return true
    problems.push(oddBlock(text.file, block, blocks, axis))
    return false
  })
  const results = whole.map((block) => readAt(text, block, {}, readBlock))
  const agreed = agreedUnits(results)
  const scans: ReadScan[] = []
  const names = new Set<string>()
  let first: ReadResult | null = null
  results.forEach((result, i) => {
    const own = differs(result.layout, agreed) ? readAt(text, whole[i], agreed, readBlock) : result
    problems.push(...own.problems)
    if (own.layout !== null) first ??= own
    for (const scan of own.scans) scans.push(named(scan, names, first?.scans[0], i + 1))
  })
  if (first === null) return null
  const { layout, look } = first as ReadResult
  return {
    kind: 'scans',
    scans,
    tables: [],
    tracks: [],
    layout: layout && { ...layout, name: `stacked, ${layout.name}` },
    look: look && { ...look, like: `stacked, ${look.like}` },
    problems: problems.sort((a, b) => (a.line ?? 0) - (b.line ?? 0)),
  }
}

/**
 * The blocks of a text; null where there are fewer than two.
 *
 * @returns the line of the first header too many where there are more than are read
 */
function blocksOf(bytes: Uint8Array): Block[] | { readonly tooManyFrom: number } | null {
  const blocks: Block[] = []
  let header = { start: 0, line: 1, lines: 0 }
  const rows = { count: 0, first: 0, firstLine: 0, last: 0, end: 0 }
  const close = (): void => {
    if (rows.count >= FEWEST_CHANNELS && (header.lines > 0 || blocks.length === 0)) {
      const axis = `${rows.count} ${firstCell(bytes, rows.first)} ${firstCell(bytes, rows.last)}`
      const { start, line } = header
      const { end, count, firstLine: rowsLine } = rows
      blocks.push({ start, end, line, rows: count, rowsLine, axis })
    }
  }
  let line = 1
  for (let at = 0; at < bytes.length; line++) {
    const end = lineEnd(bytes, at)
    if (!isBlank(bytes, at, end)) {
      if (looksNumeric(bytes, at, end)) {
        if (rows.count === 0) {
          rows.first = at
          rows.firstLine = line
        }
        rows.count++
        rows.last = at
        rows.end = end
      } else {
        if (rows.count >= FEWEST_CHANNELS) {
          close()
          if (blocks.length === MOST_BLOCKS) return { tooManyFrom: line }
          header = { start: at, line, lines: 0 }
        }
        rows.count = 0
        header.lines++
      }
    }
    at = nextLine(bytes, end)
  }
  close()
  return blocks.length < 2 ? null : blocks
}

function firstCell(bytes: Uint8Array, at: number): string {
  const start = new TextDecoder('latin1').decode(
    bytes.subarray(at, Math.min(at + 60, bytes.length)),
  )
  return FIRST_CELL.exec(start)?.[1] ?? ''
}

/** The axis that the most blocks have, the first of equals; null where no two agree. */
function commonAxis(blocks: readonly Block[]): string | null {
  const counts = new Map<string, number>()
  for (const { axis } of blocks) counts.set(axis, (counts.get(axis) ?? 0) + 1)
  const [axis, count] = [...counts].sort((a, b) => b[1] - a[1])[0]
  return count > 1 ? axis : null
}

function oddBlock(file: string, block: Block, blocks: readonly Block[], axis: string): Problem {
  const usual = blocks.find((other) => other.axis === axis)?.rows ?? 0
  const what =
    block.rows === usual
      ? 'begins or ends at another wavelength than the others'
      : `has ${block.rows} rows where the others have ${usual}`
  return {
    file,
    line: block.rowsLine,
    problem: `a table in a file of several scans ${what}`,
    done: 'this scan was left out; export it again in a file of its own',
  }
}

/** Reads a block alone; its problems tell the line in the whole file. */
function readAt(
  text: TextFile,
  { start, end, line }: Block,
  units: Partial<Layout>,
  readBlock: (block: TextFile) => ReadResult,
): ReadResult {
  const overrides = { ...units, ...text.overrides }
  const result = readBlock({ ...text, bytes: text.bytes.subarray(start, end), overrides })
  const moved = result.problems.map((problem) => ({
    ...problem,
    line: problem.line === null ? line : problem.line + line - 1,
  }))
  return { ...result, problems: moved }
}

type Units = Pick<Layout, 'wavelengthUnit' | 'reflectanceUnit'>

/** The units that the most blocks were read in: one instrument writes them all alike. */
function agreedUnits(results: readonly ReadResult[]): Partial<Units> {
  const counts = new Map<string, { units: Units; count: number }>()
  for (const { layout } of results) {
    if (layout === null) continue
    const { wavelengthUnit, reflectanceUnit } = layout
    const key = `${wavelengthUnit} ${reflectanceUnit}`
    const known = counts.get(key)
    if (known) known.count++
    else counts.set(key, { units: { wavelengthUnit, reflectanceUnit }, count: 1 })
  }
  return [...counts.values()].sort((a, b) => b.count - a.count)[0]?.units ?? {}
}

function differs(layout: Layout | null, units: Partial<Units>): boolean {
  return (
    layout !== null &&
    (layout.wavelengthUnit !== units.wavelengthUnit ||
      layout.reflectanceUnit !== units.reflectanceUnit)
  )
}

/** A scan under a name that no other of the file has, on the axis that all share. */
function named(
  scan: ReadScan,
  names: Set<string>,
  first: ReadScan | undefined,
  number: number,
): ReadScan {
  const isOwn = scan.name !== stemOf(scan.file) && !names.has(scan.name)
  let name = isOwn ? scan.name : `${scan.name} ${number}`
  for (let again = 2; names.has(name); again++) name = `${scan.name} ${number} ${again}`
  names.add(name)
  const isShared = first?.wavelengths.every((nm, i) => nm === scan.wavelengths[i]) ?? false
  return { ...scan, name, wavelengths: isShared && first ? first.wavelengths : scan.wavelengths }
}
