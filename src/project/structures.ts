/**
 * Structural measurements as a compass or a core protractor gives them, in degrees. Azimuths run
 * clockwise from north; a core's alpha is the acute angle between plane and core axis, its beta runs
 * clockwise, looking down the hole, from the reference line to the lower end of the plane's ellipse
 * (common practice).
 */
import { RecipeError, type Cursor } from './json-cursor'

export const STRUCTURE_FORMS = ['plane', 'line', 'core'] as const

interface Azimuthal {
  /**
   * Degrees east of true north at which magnetic north stood when the azimuth was read from it;
   * 0 where the azimuth is from true north.
   */
  readonly declination: number
}

export type Structure = { readonly what: string } & (
  | ({ readonly form: 'plane'; readonly dip: number; readonly dip_direction: number } & Azimuthal)
  | ({ readonly form: 'line'; readonly trend: number; readonly plunge: number } & Azimuthal)
  | {
      readonly form: 'core'
      readonly alpha: number
      readonly beta: number
      /** Where on the core the line that beta is counted from was drawn. */
      readonly reference: 'bottom' | 'top'
    }
)

/** The angles of a form: name in words, and what they may be, both ends included. */
export const ANGLES = {
  plane: [
    { key: 'dip', words: 'dip', low: 0, high: 90 },
    { key: 'dip_direction', words: 'dip direction', low: 0, high: 360 },
  ],
  line: [
    { key: 'trend', words: 'trend', low: 0, high: 360 },
    { key: 'plunge', words: 'plunge', low: 0, high: 90 },
  ],
  core: [
    { key: 'alpha', words: 'alpha', low: 0, high: 90 },
    { key: 'beta', words: 'beta', low: 0, high: 360 },
  ],
} as const

/** Between which a declination lies, degrees; beyond lie only the magnetic poles. */
export const LARGEST_DECLINATION = 180

const MOST_STRUCTURES = 200

/** Reads a list of structures. @throws RecipeError with the place */
export function readStructures(entries: readonly Cursor[]): Structure[] {
  if (entries.length > MOST_STRUCTURES) {
    throw new RecipeError('structures', `more than ${MOST_STRUCTURES} at one station`)
  }
  return entries.map(readStructure)
}

function readStructure(entry: Cursor): Structure {
  const what = entry.at('what').filledText()
  const form = entry.at('form').oneOf(STRUCTURE_FORMS)
  const [first, second] = ANGLES[form].map(({ key, low, high }) => entry.at(key).between(low, high))
  if (form === 'core') {
    entry.allow(['what', 'form', 'alpha', 'beta', 'reference'])
    const reference = entry.at('reference').oneOf(['bottom', 'top'])
    return { what, form, alpha: first, beta: second, reference }
  }
  entry.allow(['what', 'form', 'declination', ...ANGLES[form].map(({ key }) => key)])
  const declination = entry.at('declination').between(-LARGEST_DECLINATION, LARGEST_DECLINATION)
  return form === 'plane'
    ? { what, form, dip: first, dip_direction: second, declination }
    : { what, form, trend: first, plunge: second, declination }
}

/** An azimuth from true north, 0 up to but not 360°, to a hundredth of a degree. */
export function trueAzimuth(azimuth: number, declination: number): number {
  return hundredths((((azimuth + declination) % 360) + 360) % 360) % 360
}

function hundredths(degrees: number): number {
  return Math.round(degrees * 100) / 100
}

/** A structure in words, its azimuth from true north, such as `vein 60° to 123.5°`. */
export function structureWords(structure: Structure): string {
  const { what } = structure
  switch (structure.form) {
    case 'plane': {
      const { dip, dip_direction: direction, declination } = structure
      return `${what} ${dip}° to ${trueAzimuth(direction, declination)}°`
    }
    case 'line': {
      const { plunge, trend, declination } = structure
      return `${what} plunging ${plunge}° to ${trueAzimuth(trend, declination)}°`
    }
    case 'core':
      return `${what} alpha ${structure.alpha}° beta ${structure.beta}° from ${structure.reference}`
  }
}
