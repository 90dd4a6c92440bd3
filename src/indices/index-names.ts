/** Which names an index may carry: it heads a column in the files that leave. */
import { FormulaError } from './formula-error'

/** Columns of scans.csv and stations.csv that stand whatever the recipe says (design, "File contracts"). */
export const FIXED_COLUMNS = [
  'scan',
  'scans',
  'file',
  'station',
  'target',
  'support',
  'hole',
  'depth',
  'longitude',
  'latitude',
  'easting',
  'northing',
  'elevation',
  'crs',
  'placed_by',
  'place_error',
  'check',
  'check_reasons',
  'noise',
  'mineral',
  'group',
  'share',
  'fit',
  'doubt',
  'class',
] as const

const FIXED: ReadonlySet<string> = new Set(FIXED_COLUMNS)

/** Longest name of an index, characters. */
const LONGEST_NAME = 120

/**
 * What is wrong with an index's name, or null. Case is ignored, for a GIS often does.
 *
 * @param taken names of the indices before it, in lower case
 */
export function indexNameError(name: string, taken: ReadonlySet<string>): FormulaError | null {
  const lower = name.normalize('NFC').toLowerCase()
  const wrong = (message: string, hint: string): FormulaError =>
    new FormulaError(message, 0, name.length, hint)
  if (name.trim() === '') return wrong('This index has no name.', 'Give it one.')
  if (name !== name.trim() || /\p{Cc}/u.test(name)) {
    return wrong(
      `The name "${name}" begins or ends with a blank, or holds a control character.`,
      'Take it out.',
    )
  }
  if (name.length > LONGEST_NAME) {
    return wrong(
      `This name is longer than ${LONGEST_NAME} characters.`,
      'Give the index a shorter one.',
    )
  }
  if (FIXED.has(lower)) {
    return wrong(
      `"${name}" is a fixed column of scans.csv or stations.csv.`,
      `Name the index something else, such as "${name} of feature".`,
    )
  }
  if (lower.endsWith(' error')) {
    return wrong(
      `"${name}" ends in " error", which names the error of an index.`,
      'Name the index something else.',
    )
  }
  if (taken.has(lower)) {
    return wrong(`There are two indices named "${name}".`, 'Rename one of them.')
  }
  return null
}
