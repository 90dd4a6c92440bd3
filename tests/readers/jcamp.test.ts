/**
 * JCAMP-DX 4.24. The five forms of the same ten ordinates are the worked figure of McDonald and
 * Wilks 1988 (Appl. Spectrosc. 42, 151), from memory; each follows from the rules by hand too.
 */
import { describe, expect, test } from 'vitest'
import { decodeOrdinates } from '../../src/readers/jcamp-ordinates'
import { jcampText, ordinateForms } from './jcamp-writer'
import { readTextOf, reflectanceAt, WAVELENGTHS } from './spectra'

const TEN = [1, 2, 3, 3, 2, 1, 0, -1, -2, -3]
const FIGURE = {
  AFFN: '1 2 3 3 2 1 0 -1 -2 -3',
  PAC: '1+2+3+3+2+1+0-1-2-3',
  SQZ: 'ABCCBA@abc',
  DIF: 'AJJ%jjjjjj',
  DUP: 'AJT%jX',
}

describe('the forms of an ordinate', () => {
  for (const [form, text] of Object.entries(FIGURE))
    test(form, () => {
      const decoded = decodeOrdinates(`400 ${text}`)
      expect(decoded).toMatchObject({ x: 400, ordinates: TEN })
    })

  test('several digits, a missing ordinate, and the tightest packing', () => {
    expect(decodeOrdinates('99.5B34K1?a0')).toMatchObject({
      x: 99.5,
      ordinates: [234, 255, NaN, -10],
    })
    expect(decodeOrdinates('4A0S')).toMatchObject({ ordinates: [10] })
    expect(decodeOrdinates('4A0s')).toMatchObject({ ordinates: Array(9).fill(10) })
  })

  test('what is no ordinate is said', () => {
    expect(decodeOrdinates('400 1 2 #3')).toContain('is no ordinate')
    expect(decodeOrdinates('400K1')).toContain('nothing before it')
  })
})

describe('a file', () => {
  for (const form of ordinateForms)
    test(form, () => {
      const { scans, problems, layout } = readTextOf(jcampText(form))
      expect(problems).toEqual([])
      expect(layout).toMatchObject({ name: 'JCAMP-DX', wavelengthUnit: 'nm' })
      expect(scans[0].name).toBe('invented rock')
      expect(scans[0].wavelengths).toHaveLength(WAVELENGTHS.length)
      WAVELENGTHS.forEach((nm, i) => {
        expect(scans[0].wavelengths[i]).toBeCloseTo(nm, 9)
        expect(scans[0].reflectance[i]).toBeCloseTo(reflectanceAt(nm), 6)
      })
      expect(scans[0].metadata.OWNER).toBe('nobody')
    })

  const refused: Record<string, [(text: string) => string, RegExp]> = {
    'a wrong count': [
      (text) => text.replace('NPOINTS=44', 'NPOINTS=45').replace('LASTX=2500', 'LASTX=2550'),
      /says 45 and there are 44/,
    ],
    'a wrong first ordinate': [(text) => text.replace(/FIRSTY=.*/, 'FIRSTY=0.9'), /FIRSTY/],
    'a lost line': [(text) => text.replace(/\n850 .*/, ''), /abscissa check/],
    'no end': [(text) => text.replace('##END=', ''), /breaks off/],
    NTUPLES: [(text) => text.replace('##XYDATA=', '##NTUPLES='), /NTUPLES, which is not read/],
    absorbance: [(text) => text.replace('YUNITS=REFLECTANCE', 'YUNITS=ABSORBANCE'), /ABSORBANCE/],
  }
  for (const [name, [spoil, reason]] of Object.entries(refused))
    test(`refuses ${name}`, () => {
      const { scans, problems } = readTextOf(spoil(jcampText('AFFN')))
      expect(scans).toEqual([])
      expect(problems[0].problem).toMatch(reason)
    })

  test('the ordinate check of differences finds a changed one', () => {
    const spoilt = jcampText('DIF').replace(
      /(##XYDATA=[^\n]*\n\d+\w)(\d)/,
      (_, a, d) => `${a}${9 - Number(d)}`,
    )
    const { scans, problems } = readTextOf(spoilt)
    expect(scans).toEqual([])
    expect(problems[0].problem).toMatch(/ordinate check|FIRSTY/)
  })

  test('linked blocks are a scan each', () => {
    const block = jcampText('SQZ')
    const linked = `##TITLE=two\n##DATATYPE=LINK\n##BLOCKS=3\n${block}${block}##END=\n`
    expect(readTextOf(linked).scans).toHaveLength(2)
  })
})
