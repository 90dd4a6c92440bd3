/**
 * Ordinates of JCAMP-DX `XYDATA` in their five forms (McDonald and Wilks 1988, Appl. Spectrosc.
 * 42, 151): AFFN, PAC, SQZ, DIF and DUP, which may stand mixed in a line.
 */

/** One ordinate line, decoded. */
export interface OrdinateLine {
  /** The abscissa as written, before XFACTOR. */
  readonly x: number
  /** Ordinates as integers or decimals, before YFACTOR; NaN for `?`. */
  readonly ordinates: readonly number[]
  /** Whether the last one was written as a difference, so that the next line repeats it as a check. */
  readonly endsInDifference: boolean
}

const SQUEEZED = '@ABCDEFGHI'
const SQUEEZED_MINUS = '_abcdefghi'
const DIFFERENCE = '%JKLMNOPQR'
const DIFFERENCE_MINUS = '_jklmnopqr'
const DUPLICATE = '_STUVWXYZs'

/** One alone matches each run of blanks, so that a line of nothing else is passed over once. */
const TOKEN =
  /\s*(?:[,;]\s*)?(?:([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]\d{1,3})?)|([@A-Ia-i])(\d*(?:\.\d+)?)|([%J-Rj-r])(\d*(?:\.\d+)?)|([S-Zs])(\d*)|(\?))/uy

/** More ordinates than any line holds: a duplicate count that leads beyond is damage. */
const MOST_IN_LINE = 100_000

/**
 * Decodes one line: its abscissa, then ordinates.
 *
 * @returns a sentence that says what could not be read
 */
export function decodeOrdinates(line: string): OrdinateLine | string {
  const ordinates: number[] = []
  let x = NaN
  let value = NaN
  let difference: number | null = null
  TOKEN.lastIndex = 0
  const text = line.trimEnd()
  while (TOKEN.lastIndex < text.length) {
    const at = TOKEN.lastIndex
    const match = TOKEN.exec(text)
    if (match === null) return `“${text.slice(at, at + 12).trim()}” is no ordinate`
    if (Number.isNaN(x)) {
      if (match[1] === undefined) return 'the line does not begin with its abscissa'
      x = Number(match[1])
      continue
    }
    if (match[6] !== undefined) {
      const times = Number(`${DUPLICATE.indexOf(match[6])}${match[7]}`)
      if (ordinates.length === 0) return 'a duplicate count with nothing before it'
      if (ordinates.length + times > MOST_IN_LINE) return `a duplicate count of ${times}`
      for (let i = 1; i < times; i++) {
        if (difference !== null) value += difference
        ordinates.push(value)
      }
      continue
    }
    if (match[4] !== undefined) {
      difference = signed(match[4], match[5], DIFFERENCE, DIFFERENCE_MINUS)
      if (ordinates.length === 0) return 'a difference with nothing before it'
      value += difference
    } else {
      difference = null
      if (match[8] !== undefined) value = NaN
      else if (match[2] !== undefined) value = signed(match[2], match[3], SQUEEZED, SQUEEZED_MINUS)
      else value = Number(match[1])
    }
    if (ordinates.length >= MOST_IN_LINE) return `over ${MOST_IN_LINE} ordinates in a line`
    ordinates.push(value)
  }
  return { x, ordinates, endsInDifference: difference !== null }
}

function signed(first: string, rest: string, plus: string, minus: string): number {
  const digit = plus.indexOf(first)
  return digit >= 0 ? Number(`${digit}${rest}`) : -Number(`${minus.indexOf(first)}${rest}`)
}
