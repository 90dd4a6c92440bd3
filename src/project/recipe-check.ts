/** What a recipe says of the check: its limits, and what the days are checked with. */
import { LIMIT_KINDS, type CheckLimits } from '../check/limits'
import type { WavelengthRange } from '../spectra/feature'
import { RecipeError, type Cursor } from './json-cursor'

export interface CheckChoice {
  /** Limits that differ from the program's own. */
  readonly limits?: Partial<CheckLimits>
  readonly standard?: StandardChoice
  /** Names scans of a check rock, as a standard's `scan` does. */
  readonly rock?: string
}

/** A wavelength standard: which scans are of it, and where its absorptions lie. */
export interface StandardChoice {
  /** A scan's name or its sample's; `*` stands for anything, and letter case does not matter. */
  readonly scan: string
  /** nm. Either these, or a record with its bands. */
  readonly positions?: readonly number[]
  /** The file of a scan of the standard on a scale that is trusted, handed over with the others. */
  readonly record?: string
  /** Stretches of the record with a sharp absorption, shoulders included, nm. */
  readonly bands?: readonly WavelengthRange[]
}

/** Between which a standard's positions lie, nm. */
const [FIRST, LAST] = [350, 2500]
const MOST_BANDS = 50

/**
 * The recipe's `check`.
 *
 * @throws RecipeError with its place
 */
export function readCheck(check: Cursor): CheckChoice {
  check.allow(['limits', 'standard', 'rock'])
  const limits = check.optional('limits')
  const standard = check.optional('standard')
  const rock = check.optional('rock')?.filledText()
  return {
    ...(limits ? { limits: readLimits(limits) } : {}),
    ...(standard ? { standard: readStandard(standard) } : {}),
    ...(rock === undefined ? {} : { rock }),
  }
}

function readLimits(limits: Cursor): Partial<CheckLimits> {
  limits.allow(Object.keys(LIMIT_KINDS))
  return Object.fromEntries(
    Object.entries(LIMIT_KINDS).flatMap(([name, { low, high }]) => {
      const value = limits.optional(name)?.between(low, high)
      return value === undefined ? [] : [[name, value]]
    }),
  )
}

function readStandard(standard: Cursor): StandardChoice {
  standard.allow(['scan', 'positions', 'record', 'bands'])
  const scan = standard.at('scan').filledText()
  const record = standard.optional('record')?.filledText()
  if ((record === undefined) === (standard.optional('positions') === undefined)) {
    throw new RecipeError(standard.path, 'either positions or a record with its bands is expected')
  }
  if (record === undefined) {
    const positions = standard.at('positions').numbers()
    if (positions.length === 0 || positions.length > MOST_BANDS || !positions.every(isInside)) {
      const words = `1 to ${MOST_BANDS} positions between ${FIRST} and ${LAST} nm are expected`
      throw new RecipeError(`${standard.path}.positions`, words)
    }
    return { scan, positions }
  }
  const bands = standard.list('bands').map(readBand)
  if (bands.length === 0 || bands.length > MOST_BANDS) {
    throw new RecipeError(`${standard.path}.bands`, `1 to ${MOST_BANDS} bands are expected`)
  }
  return { scan, record, bands }
}

function readBand(band: Cursor): WavelengthRange {
  const ends = band.numbers()
  if (ends.length !== 2 || !(ends[0] < ends[1]) || !ends.every(isInside)) {
    const words = `a band [from, to] between ${FIRST} and ${LAST} nm is expected`
    throw new RecipeError(band.path, words)
  }
  return [ends[0], ends[1]]
}

function isInside(nm: number): boolean {
  return nm >= FIRST && nm <= LAST
}
