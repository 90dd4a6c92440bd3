/**
 * What a column's heading says of it: words as instruments and hands commonly write them, in English
 * and, for what would be misread without them, as programs write them in other languages.
 */

import { remembering } from './remembering'

/** A longer heading says no more in its further letters; brackets that never close would be sought long. */
const LONGEST = 300

/** A heading as words: lower case, units in brackets dropped, signs and joined capitals parted. */
export const headingWords = remembering((heading: string): string =>
  allWords(heading.slice(0, LONGEST).replace(/\([^)]*\)|\[[^\]]*\]/g, ' ')),
)

/** The same with what stands in brackets, where `radiance (reference)` says the most. */
const allWords = remembering((heading: string): string =>
  heading
    .slice(0, LONGEST)
    .replace(/[()[\]]/g, ' ')
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .replace(/[_\-.:/#*"−’']+/g, ' ')
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
  return (
    /^λ|^(nm|µm|μm|um|cm 1|cm⁻¹|nanomet(er|re)s|micromet(er|re)s)$/u.test(words) ||
    WAVELENGTH_ABROAD.test(words)
  )
}

const WAVELENGTH_ABROAD =
  /^(wellenl(ä|ae)ngen?|wellenzahl(en)?|(longueurs?|nombres?) d\W?onde|(longitud(es)?|n[uú]meros?|comprimentos?) de onda|(lunghezz[ae]|numer[oi]) d\W?onda|golflengte|våglängd|bølgelengde|длина волны|波[长長数數])(?!\p{L})/u

/**
 * Whether a heading names an axis that is none of wavelengths or wavenumbers: the numbers of other
 * instruments may pass for such.
 */
export const isOtherAxis = remembering((heading: string): boolean => {
  const text = heading.slice(0, LONGEST).normalize('NFKC').toLowerCase()
  if (/å(?!\p{L})|[åa]ngstr[öo]e?m|raman/u.test(text)) return true
  // Some call wavenumbers a frequency or an energy.
  if (/cm\s*\^?-?−?1|1\/cm/u.test(text)) return false
  return OTHER_AXIS.test(text.trim())
})

const OTHER_AXIS =
  /^((photon |binding )?energ(y|ie|[ií]a)|énergie|frequen(cy|z|za)|fréquence|fre[cq]u[eê]n?cia|[km]?ev|2\s*-?\s*(theta|th|θ)|two theta|theta|θ|angle|winkel|d\W?(spacing|value)|m\/z)(?!\p{L})|[([]\s*([km]?ev|[tgmk]?hz)\s*[)\]]/u

/** Whether a heading names reflectance, as computed by the instrument. */
export function isReflectanceHeading(heading: string): boolean {
  return /r[eé]fl(?!ected radiance)|riflett|remission|反射|отражен|(tgt|target|sample)\W*\/\W*(ref|panel|white)|\bratio\b|^%\s*r\b|^%$|albedo/iu.test(
    heading,
  )
}

/** Whether a heading names the white panel's signal. */
export function isPanelHeading(heading: string): boolean {
  return (
    !isReflectanceHeading(heading) &&
    (/\b(ref|reference|panel|white)\b/u.test(allWords(heading)) ||
      /^(referenz|wei(ß|ss)(referenz|standard)?|référence|blanc|referencia|blanco|referência|branco|riferimento|bianco|参考|白板)(?!\p{L})/u.test(
        allWords(heading),
      ))
  )
}

/** Whether a heading names the signal of the spot that was measured. */
export function isSpotHeading(heading: string): boolean {
  return (
    !isReflectanceHeading(heading) &&
    (/\b(target|tgt|spot|sample|rock)\b/u.test(allWords(heading)) ||
      /^(probe|ziel|échantillon|cible|muestra|amostra|campione|样品|目标)(?!\p{L})/u.test(
        allWords(heading),
      ))
  )
}

/** Whether a heading names the dark signal. */
export function isDarkHeading(heading: string): boolean {
  return /\bdark\b|^(dunkel|noir|obscur|oscur[oa]|escuro|buio|暗)/u.test(allWords(heading))
}

/** Other quantities than reflectance, as `headingWords` gives them, and the logarithm of 1/R. */
const OTHER_QUANTITY =
  /^((apparent|pseudo|total|relative|mean|spectral|reflected) )?(absorb(ance|ancy)s?|transmi(ttance|ssion|ssivity)|kubelka munk|emi(ssivity|ttance)|(ir)?radiances?|dn|dns|digital (numbers?|counts?)|(raw )?counts?)( units?)?$/u
const OTHER_ABROAD =
  /^(absorption(sgrad)?|absorbanz|absorbanc?ia|absorbância|assorbanza|extin[ck]tion|transmission(sgrad)?|transmit[aâ]ncia|trasmittanza|emissionsgrad|émissivité|emissividade|emisividad|emissività|strahldichte|luminance|radi[aâ]ncia|radianza|zählwerte|zählrate|comptes|cuentas|contagens|conteggi|吸光度|吸收率|透[射过]率|发射率|辐射亮度)(?!\p{L})/u
const LOG_OF_REFLECTANCE = /^(log|log10|lg) (1 )?r(efl\w*)?$/u

/** Whether a heading, or a header's word for the values, names another quantity than reflectance. */
export const isOtherQuantity = remembering(
  (heading: string): boolean =>
    OTHER_QUANTITY.test(headingWords(heading)) ||
    OTHER_ABROAD.test(headingWords(heading)) ||
    LOG_OF_REFLECTANCE.test(allWords(heading)),
)

/** Whether a heading names a spread or an error, which is no scan. */
export function isSpreadHeading(heading: string): boolean {
  return /\b(std|stdev|sd|s d|standard deviation|sigma|error|err|uncertainty|variance|noise)\b/u.test(
    allWords(heading),
  )
}

/** Whether a heading names what was worked out of reflectance: read as such it would mislead. */
export function isDerivedHeading(heading: string): boolean {
  return /\b(continuum|hull|deriv\w*|derivative|normali[sz]ed)\b/u.test(allWords(heading))
}

/** Whether a heading names what stands beside each channel: widths, flags, temperatures. */
export function isBesideHeading(heading: string): boolean {
  return /^((fwhm|band ?widths?|(spectral )?resolution|halbwertsbreite|ancho de banda|largura de banda)\b.*|flags?|quality|mask|saturat(ed|ion)|temp(erature)?|int(egration)? time)$/u.test(
    headingWords(heading),
  )
}

/** Whether a heading numbers the channels. */
export function isChannelHeading(heading: string): boolean {
  return /^(chan(nel)?s?|pixels?|index|row|no|nr|n|band)( no| nr| number)?$/u.test(
    headingWords(heading),
  )
}

/** Chemical symbols, and how a geochemical column is headed: `Cu_ppm`, `SiO2 %`, `Au`. */
const SYMBOL =
  '(?:A[glsu]|B[aei]?|C[adeorsu]?|Dy|E[ru]|Fe|G[ade]|H[fgo]?|In|I|K|L[aiu]|M[gno]|N[abdi]?|O|P[bdrt]?|R[behu]|S[bceimnr]?|T[abehilm]|U|V|W|Y[b]?|Z[nr])'
/** With a unit, two letters alone, or an oxide: `S1` and `C` may name scans. */
const ASSAY = new RegExp(
  `^(?:(?:${SYMBOL}\\d?){1,3}[\\s_.(-]*(?:ppm|ppb|ppt|pct|percent|wt\\s?%|%|g_?/?t|oz)\\)?|[A-Z][a-z]|(?:${SYMBOL}\\d?){1,2}O\\d?|LOI)$`,
  'u',
)
const SYMBOLS = new RegExp(`^${SYMBOL}$`, 'u')

/** Whether headings are those of assays: half of them or more. */
export function areAssays(headings: readonly string[]): boolean {
  const assays = headings.filter((heading) => {
    const text = heading.trim()
    return ASSAY.test(text) && (!/^[A-Z][a-z]$/.test(text) || SYMBOLS.test(text))
  })
  return assays.length > 0 && 2 * assays.length >= headings.length
}

/** Whether a heading belongs to a table of samples, holes or places rather than to spectra. */
export function isPlaceHeading(heading: string): boolean {
  return PLACE_WORDS.test(headingWords(heading))
}

const PLACE_WORDS =
  /^(probennummer|probenname|tiefe|bohrung|bohrloch|ost|nord|rechtswert|hochwert|höhe|uhrzeit|échantillon|sondage|profondeur|est|heure|muestra|sondaje|pozo|profundidad|desde|hasta|este|norte|cota|fecha|hora|latitud|longitud|amostra|furo|profundidade|leste|sample|station|site|spot|name|id|label|fid|oid|hole|bhid|dhid|collar|depth|from|to|x|y|z|east|easting|eastings|north|northing|northings|utm ?[exny]|lat|latitude|lon|long|lng|longitude|elev|elevation|altitude|height|rl|date|time|azimuth|azi|bearing|dip|inclination|plunge|crs|datum|lithology|rock|support|target|comment|notes?)( id| no| nr| number| name| m| ft| deg)?$/u
