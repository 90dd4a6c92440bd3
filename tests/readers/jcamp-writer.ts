/** Writes the synthetic scan as JCAMP-DX in each form, by the standard's rules. */
import { reflectanceAt, WAVELENGTHS } from './spectra'

export const ordinateForms = ['AFFN', 'PAC', 'SQZ', 'DIF', 'DUP'] as const
export type OrdinateForm = (typeof ordinateForms)[number]

const A_LINE = 10

/** Ten ordinates a line, in units of 0.0001; in differences each line repeats the last one. */
export function jcampText(form: OrdinateForm): string {
  const values = WAVELENGTHS.map((nm) => Math.round(reflectanceAt(nm) * 10000))
  const inDifferences = form === 'DIF' || form === 'DUP'
  const lines: string[] = []
  for (let i = 0; i < values.length; i += A_LINE) {
    const from = inDifferences && i > 0 ? i - 1 : i
    lines.push(`${WAVELENGTHS[from]}${lineOf(form, values.slice(from, i + A_LINE))}`)
  }
  if (inDifferences) {
    const last = values.length - 1
    lines.push(`${WAVELENGTHS[last]}${squeezed(values[last])}`)
  }
  const head = [
    '##TITLE=invented rock',
    '##JCAMP-DX=4.24 $$ a comment',
    '##DATA TYPE=INFRARED SPECTRUM',
  ]
  const units = ['##ORIGIN=a test', '##OWNER=nobody', '##XUNITS=NANOMETERS', '##YUNITS=REFLECTANCE']
  const numbers = [
    '##XFACTOR=1',
    '##YFACTOR=0.0001',
    '##FIRSTX=350',
    '##LASTX=2500',
    '##NPOINTS=44',
  ]
  const data = [`##FIRSTY=${values[0] / 10000}`, '##XYDATA=(X++(Y..Y))', ...lines, '##END=']
  return [...head, ...units, ...numbers, ...data].join('\n') + '\n'
}

function lineOf(form: OrdinateForm, values: readonly number[]): string {
  if (form === 'AFFN') return ` ${values.join(' ')}`
  if (form === 'PAC') return values.map((value) => `+${value}`).join('')
  if (form === 'SQZ') return values.map(squeezed).join('')
  const differences = values.slice(1).map((value, i) => difference(value - values[i]))
  return squeezed(values[0]) + (form === 'DUP' ? repeated(differences) : differences.join(''))
}

function repeated(tokens: readonly string[]): string {
  let text = ''
  for (let i = 0; i < tokens.length;) {
    let end = i
    while (end < tokens.length && tokens[end] === tokens[i]) end++
    text += tokens[i] + (end - i > 1 ? coded(end - i, ' STUVWXYZs', '') : '')
    i = end
  }
  return text
}

function squeezed(value: number): string {
  return coded(value, '@ABCDEFGHI', ' abcdefghi')
}

function difference(value: number): string {
  return coded(value, '%JKLMNOPQR', ' jklmnopqr')
}

function coded(value: number, plus: string, minus: string): string {
  const digits = String(Math.abs(value))
  return (value < 0 ? minus : plus)[Number(digits[0])] + digits.slice(1)
}
