/** Which names a field of the user's own may carry: it heads a column in the files that leave. */
import { FIXED_COLUMNS } from '../indices/index-names'
import { isRecordColumn } from './record-parts'
import { SCAN_COLUMNS } from './scan-columns'

const LONGEST_NAME = 80
const TAKEN: ReadonlySet<string> = new Set(FIXED_COLUMNS)

/** What is wrong with the name of a field of the user's own, in words; null where it will do. */
export function fieldNameFault(name: string): string | null {
  const lower = name.toLowerCase()
  if (name.trim() === '') return 'the field has no name'
  if (name !== name.trim() || /\p{Cc}/u.test(name)) {
    return 'the name begins or ends with a blank, or holds a control character'
  }
  if (name.length > LONGEST_NAME) return `the name is longer than ${LONGEST_NAME} letters`
  if (TAKEN.has(lower)) return `‘${name}’ is a fixed column of scans.csv`
  if (isRecordColumn(lower)) return `‘${name}’ is a column of the station’s record`
  if (SCAN_COLUMNS.includes(lower)) {
    return `‘${name}’ is what scan files say; set the field ‘${lower.slice(5)}’`
  }
  return lower.endsWith(' error') ? '‘ error’ ends the name of an index’s error' : null
}
