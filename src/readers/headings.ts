/** What a column's heading says of it: English words as instruments and hands commonly write them. */

import { remembering } from './remembering'

/** A heading as words: lower case, units in brackets dropped, signs and joined capitals parted. */
export const headingWords = remembering((heading: string): string =>
  allWords(heading.replace(/\([^)]*\)|\[[^\]]*\]/g, ' ')),
)

/** The same with what stands in brackets, where `radiance (reference)` says the most. */
const allWords = remembering((heading: string): string =>
  heading
    .replace(/[()[\]]/g, ' ')
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .replace(/[_\-.:/#*"−]+/g, ' ')
    .toLowerCase()
    .replace(/\s+/g, ' ')
    .trim(),
)

/** Whether a heading names the wavelength (or wavenumber) axis. */
export function isWavelengthHeading(heading: string): boolean {
  const words = headingWords(heading)
  if (
    /^(wave ?lengths?|wave ?numbers?|wavel|wvl|wvls|wl|lambda|λ|microns?|band cent(er|re)s?)\b/u.test(
      words,
    )
  )
    return true
  return /^λ|^(nm|µm|μm|um|cm 1|cm⁻¹|nanomet(er|re)s|micromet(er|re)s)$/u.test(words)
}

/** Whether a heading names reflectance, as computed by the instrument. */
export function isReflectanceHeading(heading: string): boolean {
  return /refl(?!ected radiance)|(tgt|target|sample)\W*\/\W*(ref|panel|white)|\bratio\b|^%\s*r\b|^%$|albedo/iu.test(
    heading,
  )
}

/** Whether a heading names the white panel's signal. */
export function isPanelHeading(heading: string): boolean {
  return (
    !isReflectanceHeading(heading) && /\b(ref|reference|panel|white)\b/u.test(allWords(heading))
  )
}

/** Whether a heading names the signal of the spot that was measured. */
export function isSpotHeading(heading: string): boolean {
  return (
    !isReflectanceHeading(heading) && /\b(target|tgt|spot|sample|rock)\b/u.test(allWords(heading))
  )
}

/** Whether a heading names the dark signal. */
export function isDarkHeading(heading: string): boolean {
  return /\bdark\b/u.test(allWords(heading))
}

/** Other quantities than reflectance, as `headingWords` gives them, and the logarithm of 1/R. */
const OTHER_QUANTITY =
  /^((apparent|pseudo|total|relative|mean|spectral|reflected) )?(absorb(ance|ancy)s?|transmi(ttance|ssion|ssivity)|kubelka munk|emi(ssivity|ttance)|(ir)?radiances?|dn|dns|digital (numbers?|counts?)|(raw )?counts?)( units?)?$/u
const LOG_OF_REFLECTANCE = /^(log|log10|lg) (1 )?r(efl\w*)?$/u

/** Whether a heading, or a header's word for the values, names another quantity than reflectance. */
export const isOtherQuantity = remembering(
  (heading: string): boolean =>
    OTHER_QUANTITY.test(headingWords(heading)) || LOG_OF_REFLECTANCE.test(allWords(heading)),
)

/** Whether a heading names a spread or an error, which is no scan. */
export function isSpreadHeading(heading: string): boolean {
  return /\b(std|stdev|sd|s d|standard deviation|sigma|error|err|uncertainty|variance|noise)\b/u.test(
    allWords(heading),
  )
}

/** Whether a heading numbers the channels. */
export function isChannelHeading(heading: string): boolean {
  return /^(chan(nel)?s?|pixels?|index|row|no|nr|n|band)( no| nr| number)?$/u.test(
    headingWords(heading),
  )
}

/** Whether a heading belongs to a table of samples, holes or places rather than to spectra. */
export function isPlaceHeading(heading: string): boolean {
  return PLACE_WORDS.test(headingWords(heading))
}

const PLACE_WORDS =
  /^(sample|station|site|spot|name|id|label|fid|oid|hole|bhid|dhid|collar|depth|from|to|x|y|z|east|easting|eastings|north|northing|northings|utm ?[exny]|lat|latitude|lon|long|lng|longitude|elev|elevation|altitude|height|rl|date|time|azimuth|azi|bearing|dip|inclination|plunge|crs|datum|lithology|rock|support|target|comment|notes?)( id| no| nr| number| name| m| ft| deg)?$/u
