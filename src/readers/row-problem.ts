/** Words for a row of numbers that cannot be read. */
import type { RowFault } from './body'
import { textOf } from './decode'
import type { CellFormat } from './head'
import type { ReadResult } from './input'
import { MOST_ROWS } from './lines'
import { leftOut, quoted } from './result'
import type { TextFile } from './text-file'

/** The whole file left out for one row. */
export function rowProblem(text: TextFile, fault: RowFault, format: CellFormat): ReadResult {
  const { problem, advice } = rowFaultWords(text, fault, format)
  return leftOut(text.file, fault.line, problem, advice)
}

/** What is wrong with a row and what to do, without the file. */
export function rowFaultWords(
  text: Pick<TextFile, 'bytes'>,
  fault: RowFault,
  format: CellFormat,
): { problem: string; advice: string } {
  const { bytes } = text
  if (fault.kind === 'long')
    return {
      problem: 'a line of over a million bytes, which is no table',
      advice: 'export it again',
    }
  if (fault.kind === 'many')
    return {
      problem: `more than ${MOST_ROWS} rows, which no instrument’s channels are`,
      advice: 'split it, if it holds several scans',
    }
  if (bytes.subarray(fault.start, fault.end).includes(0))
    return { problem: 'NUL bytes among the numbers: the file is damaged', advice: 'copy it again' }
  const written = quoted(textOf(bytes, fault.start, Math.min(fault.end, fault.start + 200)))
  if (fault.kind === 'not a number') {
    const cell = textOf(bytes, fault.start, Math.min(fault.end, fault.start + 200))
    return { problem: `${written} is not a number`, advice: numberAdvice(cell) }
  }
  if (fault.isLast && fault.found < format.columns) {
    return {
      problem: `the file breaks off: its last row ${written} has ${fault.found} of ${format.columns} cells`,
      advice: 'copy it again',
    }
  }
  const cells = `${fault.found} ${fault.found === 1 ? 'cell' : 'cells'}`
  return {
    problem: `the row ${written} has ${cells} where others have ${format.columns}`,
    advice: 'correct the row or export the file again',
  }
}

/** What is advised where a cell looks like nothing known. */
export const PLAIN_ADVICE = 'correct the cell or export it again'

/** What to do about a cell that is no number, by what it looks like. */
export function numberAdvice(cell: string): string {
  if (/^[-+−]?\d{1,3}([.,’'\s]\d{3})+([.,]\d+)?$/u.test(cell))
    return 'export numbers without a mark between thousands'
  if (/^#{2,}$/.test(cell)) return 'widen the column in the spreadsheet and save the table again'
  if (/^[-+−]?[\d.,]+\s*(%|nm|µm|μm|um|cm-1|cm⁻¹)$/u.test(cell))
    return 'put units into the heading, not into cells'
  if (/^[-+−]?[\d.]+[,;\t]\s*[-+−]?[\d.]+/u.test(cell))
    return 'take off the quotes that make each row one cell'
  return PLAIN_ADVICE
}
