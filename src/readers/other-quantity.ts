/** Tells values that are no reflectance by what a file calls them, so that none is taken for it. */
import { isOtherQuantity, isReflectanceHeading } from './headings'
import type { Layout } from './input'
import { quoted } from './result'

/** Header keys under which a file says what its values are. */
const QUANTITY_KEY =
  /^((y|data|value|values|ordinate|measurement)\s*-?(units?|type|mode|quantity|axis)|units?|quantity|measured quantity|ordinate|yunits)$/iu

/** What to do about values that a file calls something else. */
export const OTHER_QUANTITY_ADVICE =
  'export reflectance; if the values are reflectance all the same, say their unit under How numbers are read'

/**
 * What a file's values are in its own words where that is no reflectance, as a problem; null where
 * nothing says so or a person has said how they are meant.
 *
 * @param headings of the columns that would be scans; empty where these have none
 */
export function otherQuantity(
  headings: readonly string[],
  metadata: Readonly<Record<string, string>>,
  overrides: Partial<Layout>,
): string | null {
  if (overrides.reflectanceUnit !== undefined || overrides.column !== undefined) return null
  if (headings.some(isReflectanceHeading)) return null
  if (headings.length > 0 && headings.every(isOtherQuantity))
    return `values headed ${quoted(headings[0])}, which are no reflectance`
  const said = Object.entries(metadata).find(
    ([key, value]) => QUANTITY_KEY.test(key) && isOtherQuantity(value),
  )
  return said === undefined
    ? null
    : `values in ${quoted(said[1])}, as its header says, which are no reflectance`
}
