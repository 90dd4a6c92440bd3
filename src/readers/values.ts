/** Reads a record of one value a line, whose wavelengths stand in a companion file. */
import { assemble } from './assemble'
import { companionFor, companionKind, missingAxis, readValueColumn } from './companions'
import type { Head, CellFormat } from './head'
import type { ReadResult } from './input'
import { lookOf } from './look'
import { leftOut, nothingIn, stemOf } from './result'
import { decimalSign } from './body'
import { rowProblem } from './row-problem'
import type { TextFile } from './text-file'
import { FEWEST_CHANNELS } from './units'

/** A record of the public library layout, or `companion` where the file is one itself. */
export function readValues(text: TextFile, head: Head, format: CellFormat): ReadResult {
  const column = readValueColumn(text.bytes, head, format)
  const { body, title, values } = column
  if (companionKind(column) !== null) return nothingIn('companion')
  const fault = body.rowFault ?? body.cellFaults.get(0)
  if (fault !== undefined && fault !== null) return rowProblem(text, fault, format)
  const count = values.length
  if (count < FEWEST_CHANNELS) {
    const problem = `only ${count === 1 ? 'one value' : `${count} values`} and no wavelengths`
    return leftOut(text.file, body.lines[0] ?? null, problem, 'export the whole scan again')
  }
  if (text.companions.isPartial) return { ...nothingIn('unknown'), wantsCompanions: true }
  const record = { path: text.file, title }
  const axis = companionFor(text.companions.axes, record, count)
  if (axis === null) {
    const { problem, advice } = missingAxis(text.companions.axes, record, count)
    return leftOut(text.file, null, problem, advice)
  }
  const bandwidths = companionFor(text.companions.bandwidths, record, count)
  const read = assemble(
    {
      file: text.file,
      axis: axis.values,
      companion: axis,
      ...(bandwidths === null ? {} : { bandwidths }),
      lineOf: (channel) => `channel ${channel + 1} of ${axis.file}`,
      lineNumber: () => null,
      scans: [
        {
          name: stemOf(text.file),
          values,
          metadata: title === '' ? {} : { title },
          line: null,
        },
      ],
      wavelengthHint: '',
      reflectanceHint: title,
      layout: {
        name: 'one value a line',
        decimal: decimalSign(format.decimal),
        encoding: text.encoding,
      },
    },
    text.overrides,
  )
  return { ...read, look: lookOf(['one value a line', String(count)]) }
}
