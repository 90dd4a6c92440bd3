/** Which column of a table is what: found from its headings, and without them from its numbers. */
import type { Body } from './body'
import {
  isChannelHeading,
  isDarkHeading,
  isOtherQuantity,
  isPanelHeading,
  isReflectanceHeading,
  isSpotHeading,
  isSpreadHeading,
  isWavelengthHeading,
} from './headings'

/** Which columns are what. */
export interface Roles {
  readonly wavelength: number
  readonly scans: readonly number[]
  /** Panel, spot and perhaps dark signal to compute reflectance from. */
  readonly ratio: { readonly panel: number; readonly spot: number; readonly dark: number } | null
  readonly layout: string
}

/** Finds each column's part from the headings, and without them from the numbers. */
export function rolesOf(body: Body, headings: readonly string[] | null, columns: number): Roles {
  const all = Array.from({ length: columns }, (_, column) => column)
  const wavelength = wavelengthColumn(body, headings)
  const others = all.filter((column) => column !== wavelength && !isEmpty(body, column))
  const plainLayout = others.length > 1 ? 'scans in columns' : 'two columns'
  if (headings === null) {
    const scans = others.filter((column) => column > wavelength)
    return { wavelength, scans, ratio: null, layout: plainLayout }
  }
  const reflectance = others.filter((column) => isReflectanceHeading(headings[column]))
  if (reflectance.length > 0) {
    const layout = others.length > reflectance.length ? 'reflectance by its heading' : plainLayout
    const scans = reflectance.filter((column) => !isSpreadHeading(headings[column]))
    return { wavelength, scans: scans.length > 0 ? scans : reflectance, ratio: null, layout }
  }
  const find = (is: (heading: string) => boolean): number =>
    others.find((column) => is(headings[column])) ?? -1
  const panel = find(isPanelHeading)
  const spot = others.find((column) => column !== panel && isSpotHeading(headings[column])) ?? -1
  if (panel >= 0 && spot >= 0) {
    const ratio = { panel, spot, dark: find(isDarkHeading) }
    return { wavelength, scans: [], ratio, layout: 'panel and spot' }
  }
  const perhaps = others.filter(
    (column) => !isSpreadHeading(headings[column]) && !isChannelHeading(headings[column]),
  )
  const reflecting = perhaps.filter((column) => !isOtherQuantity(headings[column]))
  // Where all of them are something else, the reader says so.
  const scans = reflecting.length > 0 ? reflecting : perhaps
  return { wavelength, scans, ratio: null, layout: plainLayout }
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
