/** The cells of a sample table: numbers, and the words for support and target. */
import type { Cell, Support, Target } from './station'

const POINT_NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/i
const COMMA_NUMBER = /^[+-]?\d+,\d+(e[+-]?\d{1,3})?$/i
const GROUPED = /^[+-]?\d{1,3}([\s’']\d{3})+([.,]\d+)?$/
/** Thousands by the other sign: `1,234.5` where fractions have a point, `1.234,5` where a comma. */
const GROUPED_BY = {
  '.': /^[+-]?\d{1,3}(,\d{3})+(\.\d+)?$/,
  ',': /^[+-]?\d{1,3}(\.\d{3})+(,\d+)?$/,
}
/** The same where it can be nothing else: more than one group, or a fraction too. */
const SURELY_GROUPED = {
  '.': /^[+-]?\d{1,3}(,\d{3})+\.\d+$|^[+-]?\d{1,3}(,\d{3}){2,}$/,
  ',': /^[+-]?\d{1,3}(\.\d{3})+,\d+$|^[+-]?\d{1,3}(\.\d{3}){2,}$/,
}
/** `1,250`: a thousand and more, or one and a quarter. */
const UNSURE = /^[+-]?[1-9]\d{0,2},\d{3}$/

/** The sign between whole and fraction that a table's numbers are written with. */
export type Decimal = '.' | ','

/**
 * The decimal sign of a table: what a number with grouped thousands (`7,511,000`) shows; else the
 * point where some cell has one; else the comma where some cell needs it. A comma before three
 * digits, such as in `1,250`, groups thousands where commas stand between the cells too.
 */
export function decimalOf(
  rows: readonly (readonly string[])[],
  commaSeparated: boolean | undefined,
): Decimal {
  let point = false
  let comma = false
  for (const row of rows) {
    for (const cell of row) {
      const text = cell.trim()
      const hasComma = text.includes(',')
      if (!hasComma && !text.includes('.')) continue
      if (SURELY_GROUPED['.'].test(text)) return '.'
      if (SURELY_GROUPED[','].test(text)) return ','
      if (!hasComma) point ||= /^[+-]?\d+\.\d+$/.test(text)
      else comma ||= COMMA_NUMBER.test(text) && !(commaSeparated && UNSURE.test(text))
    }
  }
  return comma && !point ? ',' : '.'
}

/** A number, or NaN where the text is none. Blanks, apostrophes and the other sign may group thousands. */
export function numberIn(text: string, decimal: Decimal): number {
  let plain = text.trim().replace(/^−/, '-')
  if (GROUPED.test(plain)) plain = plain.replace(/[\s’']/g, '')
  const other = decimal === '.' ? ',' : '.'
  if (plain.includes(other) && GROUPED_BY[decimal].test(plain)) plain = plain.replaceAll(other, '')
  if (decimal === ',') plain = plain.replace(',', '.')
  return POINT_NUMBER.test(plain) ? Number(plain) : NaN
}

/** A number where the cell reads as one, else its text (`<5` stays text); null where empty. */
export function cellOf(text: string, decimal: Decimal): Cell {
  const plain = text.trim()
  if (plain === '') return null
  const value = numberIn(plain, decimal)
  return Number.isFinite(value) ? value : plain.normalize('NFC')
}

const SUPPORT_WORDS: Readonly<Record<Support, RegExp>> = {
  outcrop:
    /^(outcrop|oc|o\/c|in ?situ|bedrock|subcrop|rock( chip| grab)?|afloramiento|afloramento)$/,
  float: /^(float|boulder|scree|talus|lag|rodado)$/,
  soil: /^(soil|soils|regolith|suelo|solo)$/,
  chips: /^(chips|chip|cuttings|rc|rc chips|drill chips|detritos)$/,
  core: /^(core|drill ?core|half core|quarter core|whole core|ddh|dd|testigo|testemunho)$/,
}

const TARGET_WORDS: Readonly<Record<Target, RegExp>> = {
  matrix: /^(matrix|groundmass|rock|host|wall ?rock|bulk|fresh|fresh surface|matriz)$/,
  vein: /^(vein|veins|veinlet|stockwork|veta|veio)$/,
  selvage: /^(selvage|selvedge|vein selvage|halo|vein halo|envelope)$/,
  coating: /^(coating|fracture|fracture coating|joint|crust|film|patina)$/,
  weathered: /^(weathered|weathered surface|rind|weathering rind|oxidi[sz]ed surface)$/,
  cut: /^(cut|cut face|cut surface|sawn|sawn face|slab)$/,
}

/** The support that a word names; null where it names none. */
export function supportOf(text: string): Support | null {
  return wordIn(SUPPORT_WORDS, text)
}

/** The target that a word names; null where it names none. */
export function targetOf(text: string): Target | null {
  return wordIn(TARGET_WORDS, text)
}

function wordIn<W extends string>(words: Readonly<Record<W, RegExp>>, text: string): W | null {
  const plain = text
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
  for (const word of Object.keys(words) as W[]) if (words[word].test(plain)) return word
  return null
}
