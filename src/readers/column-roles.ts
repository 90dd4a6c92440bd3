/** Which column of a table is what: found from its headings, and without them from its numbers. */
import type { Body } from './body'
import {
  isBesideHeading,
  isChannelHeading,
  isDarkHeading,
  isDerivedHeading,
  isOtherQuantity,
  isPanelHeading,
  isReflectanceHeading,
  isSpotHeading,
  isSpreadHeading,
  isWavelengthHeading,
} from './headings'

/** The columns of the panel's signal, of one or more spots' and of the dark signal, or -1 for none. */
export interface Ratio {
  readonly panel: number
  readonly spots: readonly number[]
  readonly dark: number
}

/** Which columns are what. */
export interface Roles {
  readonly wavelength: number
  readonly scans: readonly number[]
  /** Panel, spot and perhaps dark signal to compute reflectance from. */
  readonly ratio: Ratio | null
  readonly layout: string
}

/** Finds each column's part from the headings, and without them from the numbers. */
export function rolesOf(body: Body, headings: readonly string[] | null, columns: number): Roles {
  const all = Array.from({ length: columns }, (_, column) => column)
  const wavelength = wavelengthColumn(body, headings)
  const others = all.filter(
    (column) =>
      column !== wavelength && !isEmpty(body, column) && !isAxisAgain(body, wavelength, column),
  )
  const plainLayout = others.length > 1 ? 'scans in columns' : 'two columns'
  if (headings === null) {
    const scans = others.filter((column) => column > wavelength)
    return { wavelength, scans, ratio: null, layout: plainLayout }
  }
  const reflectance = others.filter(
    (column) => isReflectanceHeading(headings[column]) && !isDerivedHeading(headings[column]),
  )
  if (reflectance.length > 0) {
    const layout = others.length > reflectance.length ? 'reflectance by its heading' : plainLayout
    const scans = reflectance.filter((column) => !isSpreadHeading(headings[column]))
    return { wavelength, scans: scans.length > 0 ? scans : reflectance, ratio: null, layout }
  }
  const ratio = ratioOf(headings, others)
  if (ratio !== null) return { wavelength, scans: [], ratio, layout: 'panel and spot' }
  const perhaps = others.filter(
    (column) =>
      !isSpreadHeading(headings[column]) &&
      !isChannelHeading(headings[column]) &&
      !isBesideHeading(headings[column]),
  )
  const reflecting = perhaps.filter((column) => !isOtherQuantity(headings[column]))
  // Where all of them are something else, the reader says so.
  const scans = reflecting.length > 0 ? reflecting : perhaps
  return { wavelength, scans, ratio: null, layout: plainLayout }
}

/**
 * Panel and spots where headings name them. One panel serves all spots; of several, as of counts and
 * of radiance, the first goes with the first spot. Beside a panel and a dark signal all others are
 * spots, whatever they are called.
 */
function ratioOf(headings: readonly string[], others: readonly number[]): Ratio | null {
  const find = (is: (heading: string) => boolean): number[] =>
    others.filter((column) => is(headings[column]))
  const panels = find(isPanelHeading)
  const dark = find(isDarkHeading).at(0) ?? -1
  if (panels.length === 0) return null
  const plain = others.filter(
    (column) =>
      column !== dark &&
      !panels.includes(column) &&
      !isSpreadHeading(headings[column]) &&
      !isChannelHeading(headings[column]),
  )
  const named = plain.filter((column) => isSpotHeading(headings[column]))
  const spots = named.length > 0 ? named : dark >= 0 ? plain : []
  if (spots.length === 0) return null
  return { panel: panels[0], spots: panels.length > 1 ? [spots[0]] : spots, dark }
}

/** Whether a column repeats the axis, as in pairs of columns on the same wavelengths. */
export function isAxisAgain(body: Body, wavelength: number, column: number): boolean {
  const axis = body.columns[wavelength]
  const others = body.columns[column]
  return !body.cellFaults.has(column) && others.every((value, row) => value === axis[row])
}

/** Whether a column has neither a value nor a fault: left by a delimiter at the lines' ends. */
export function isEmpty(body: Body, column: number): boolean {
  return !body.cellFaults.has(column) && body.columns[column].every(Number.isNaN)
}

function wavelengthColumn(body: Body, headings: readonly string[] | null): number {
  const named = headings?.findIndex(isWavelengthHeading) ?? -1
  if (named >= 0) return named
  const [first, second] = body.columns
  if (body.columns.length < 3 || first.length < 2 || (first[0] !== 0 && first[0] !== 1)) return 0
  const isCount = first.every((value, row) => value === first[0] + row)
  return isCount && second[0] >= 0.1 && second[0] < second[1] ? 1 : 0
}
