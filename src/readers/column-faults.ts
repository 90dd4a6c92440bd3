/** What makes a table of columns none of scans: its axis, its counts, or what it says of itself. */
import type { Body } from './body'
import { isAxisAgain, type Roles } from './column-roles'
import type { CellFormat } from './head'
import { isOtherAxis, isWavelengthHeading } from './headings'
import type { ReadResult } from './input'
import { OTHER_QUANTITY_ADVICE, otherQuantity } from './other-quantity'
import type { Preamble } from './preamble'
import { quoted } from './result'
import { rowProblem } from './row-problem'
import type { TextFile } from './text-file'
import { quantile } from './units'

/** The table left out, where its axis or its columns cannot be what they are taken for; or null. */
export function columnFault(
  text: TextFile,
  body: Body,
  roles: Roles,
  format: CellFormat,
  preamble: Preamble,
): ReadResult | null {
  const { metadata, headings, above } = preamble
  const axisFault = body.cellFaults.get(roles.wavelength)
  if (axisFault !== undefined) return rowProblem(text, axisFault, format)
  const axis = body.columns[roles.wavelength]
  const gap = firstGap(axis)
  if (gap >= 0) {
    const words = { problem: 'a row without its wavelength', advice: 'export it again' }
    return leftOutAt(text, body.lines[gap], words)
  }
  const stated = statedCount(metadata)
  if (stated !== null && stated !== axis.length) {
    const problem = `the header says ${stated} channels and there are ${axis.length}`
    const advice = 'the file is not whole; copy it again'
    return leftOutAt(text, body.lines[0], { problem, advice })
  }
  const otherAxis = text.overrides.wavelengthUnit === undefined ? axisWord(preamble, roles) : null
  if (otherAxis !== null) {
    const problem = `values along ${quoted(otherAxis)}, which is not read`
    const advice = 'export reflectance along wavelengths in nm or µm, or along wavenumbers in cm⁻¹'
    return leftOutAt(text, body.lines[0], { problem, advice })
  }
  const titles = headings ?? above
  const named = titles === null ? [] : roles.scans.map((column) => titles[column])
  const quantity = roles.ratio === null ? otherQuantity(named, metadata, text.overrides) : null
  if (quantity !== null)
    return leftOutAt(text, body.lines[0], { problem: quantity, advice: OTHER_QUANTITY_ADVICE })
  const columns = roles.scans.map((column) => body.columns[column])
  const second = roles.ratio === null ? secondAxis(body, roles, headings) : -1
  if (second >= 0) {
    const problem = `column ${second + 1} holds wavelengths too, and others than column ${roles.wavelength + 1}`
    const advice = 'export each scan into a file of its own, or all on the same wavelengths'
    return leftOutAt(text, body.lines[0], { problem, advice })
  }
  if (roles.ratio === null && areOfDifferentKinds(columns)) {
    const problem = 'columns of different sizes, which cannot all be reflectance'
    const advice =
      'say in the Scans step which column is reflectance, or name each in one heading row'
    return leftOutAt(text, body.lines[0], { problem, advice })
  }
  return null
}

/** What the axis is called where that is no wavelength; or null. */
function axisWord({ headings, above, metadata }: Preamble, roles: Roles): string | null {
  const heading = (headings ?? above)?.[roles.wavelength] ?? ''
  if (isOtherAxis(heading)) return heading
  const said = Object.entries(metadata).find(
    ([key, value]) => /^x\s*-?(units?|axis)$/iu.test(key) && isOtherAxis(value),
  )
  return said?.[1] ?? null
}

/** How many channels the header says there are, or null. */
function statedCount(metadata: Readonly<Record<string, string>>): number | null {
  for (const [key, value] of Object.entries(metadata))
    if (/^(number of (x values|points|channels|data points|wavelengths)|npoints)$/iu.test(key))
      return /^\d+$/.test(value) ? Number(value) : null
  return null
}

/**
 * A column taken for a scan that is another axis: so headed, or within a twentieth of the first
 * throughout, as no reflectance is; or -1. One that repeats the first is no scan already.
 */
function secondAxis(body: Body, roles: Roles, headings: readonly string[] | null): number {
  const axis = body.columns[roles.wavelength]
  const isNear = (values: Float64Array): boolean =>
    axis.every((wavelength, row) => Math.abs(values[row] - wavelength) <= 0.05 * wavelength)
  const isHeaded = headings?.findIndex(
    (heading, column) => column !== roles.wavelength && isSecondAxis(body, roles, heading, column),
  )
  if (isHeaded !== undefined && isHeaded >= 0) return isHeaded
  return roles.scans.find((column) => isNear(body.columns[column])) ?? -1
}

function isSecondAxis(body: Body, roles: Roles, heading: string, column: number): boolean {
  return isWavelengthHeading(heading) && !isAxisAgain(body, roles.wavelength, column)
}

/** Whether some columns can only be ten-thousandths or raw signal, and others only smaller units. */
function areOfDifferentKinds(columns: readonly Float64Array[]): boolean {
  if (columns.length < 2) return false
  const sizes = columns
    .map((column) => quantile(column, 0.95))
    .filter((size) => !Number.isNaN(size))
  return Math.max(...sizes) > 250 && Math.min(...sizes) <= 120
}

function firstGap(values: Float64Array): number {
  if (!values.includes(NaN)) return -1
  for (let i = 0; i < values.length; i++) if (Number.isNaN(values[i])) return i
  return -1
}

/** The whole table left out, by the line of its first row. */
export function leftOutAt(
  text: TextFile,
  line: number,
  words: { problem: string; advice: string },
): ReadResult {
  const done = `left out; ${words.advice}`
  const problems = [{ file: text.file, line, problem: words.problem, done }]
  return { kind: 'unknown', scans: [], tables: [], tracks: [], layout: null, problems }
}
