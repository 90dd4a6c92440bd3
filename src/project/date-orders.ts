/** Dates whose day and month cannot be told apart, and what a person says of them. */
import { correctionFor, type Correction } from '../readers/correction'
import { recognise } from '../readers/recognise'
import { parseMoment, type DateOrder } from '../readers/time'
import type { Holdings, ScanHead, SourceFile } from './project'

/** Whether a scan's date is missing only because its day could be its month. */
export function isDateAmbiguous({ known: { time, timeText } }: ScanHead): boolean {
  return time === null && timeText !== null && parseMoment(timeText, 'day first') !== null
}

/**
 * The holdings with dates read in the order that the recipe says of files alike. Headers are kept
 * whole, so no file has to be opened for it; the same object where nothing changes.
 */
export function withDateOrders(
  holdings: Holdings,
  corrections: readonly Correction[] | undefined,
): Holdings {
  const orderOf = ({ look }: SourceFile) => correctionFor(look?.like, corrections ?? [])?.date_order
  const changed = holdings.files.filter(
    (file) => file.look !== undefined && orderOf(file) !== file.correction?.date_order,
  )
  if (changed.length === 0) return holdings
  const heads = [...holdings.heads]
  for (const file of changed) {
    const order = orderOf(file)
    for (let scan = file.firstScan; scan < file.firstScan + file.scanCount; scan++) {
      const { metadata } = heads[scan]
      heads[scan] = { ...heads[scan], known: recognise(metadata, order) }
    }
  }
  const isChanged = new Set(changed)
  const files = holdings.files.map((file) =>
    isChanged.has(file) ? withOrder(file, orderOf(file)) : file,
  )
  return { ...holdings, heads, files }
}

/** The file as though it had been read in that order; its other corrections stay as they were. */
function withOrder(file: SourceFile, order: DateOrder | undefined): SourceFile {
  const correction: Correction = {
    like: file.look?.like ?? '',
    ...file.correction,
    date_order: order,
  }
  const says = Object.entries(correction).some(
    ([key, value]) => key !== 'like' && value !== undefined,
  )
  return { ...file, correction: says ? correction : undefined }
}
