/** Names in files, as the contract states them (design, "File contracts"). */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { fileNames, plainName } from '../../src/layers/file-names'

const bytes = (text: string): number => new TextEncoder().encode(text).length

test('letters of any script, digits, hyphen, low line and blank stay; the rest becomes _', () => {
  expect(plainName('white mica position')).toBe('white mica position')
  expect(plainName('Cu/Mo: ratio (ppm).v2')).toBe('Cu_Mo_ _ratio _ppm__v2'.replace(' _r', ' r'))
  expect(plainName('Al–OH')).toBe('Al_OH')
  expect(plainName('白云母-2')).toBe('白云母-2')
  expect(plainName('हिन्दी')).toBe('हिन्दी')
  expect(plainName('a\tb\nc😀')).toBe('a_b_c_')
  expect(plainName('../../etc/passwd')).toBe('______etc_passwd')
})

test('NFC: a composed and a decomposed name are one name', () => {
  expect(plainName('Cafe\u0301')).toBe('Caf\u00E9')
  expect(fileNames(['Caf\u00E9', 'Cafe\u0301'])).toEqual(['Café', 'Café 2'])
})

test('80 bytes of UTF-8, cut between characters', () => {
  expect(plainName('a'.repeat(100))).toBe('a'.repeat(80))
  expect(plainName('a' + 'é'.repeat(50))).toBe('a' + 'é'.repeat(39))
  expect(plainName('𠀀'.repeat(21))).toBe('𠀀'.repeat(20))
})

test('a clash, case ignored, gets a number within the 80 bytes', () => {
  expect(fileNames(['mica', 'Mica', 'MICA', 'mica 2'])).toEqual([
    'mica',
    'Mica 2',
    'MICA 3',
    'mica 2 2',
  ])
  expect(fileNames(['Straße', 'STRASSE'])).toEqual(['Straße', 'STRASSE 2'])
  expect(fileNames(['a/b', 'a:b'])).toEqual(['a_b', 'a_b 2'])
  const [first, second] = fileNames(['x'.repeat(90), 'x'.repeat(95)])
  expect([bytes(first), bytes(second), second.endsWith(' 2')]).toEqual([80, 80, true])
})

test('device names, and names of nothing, are guarded', () => {
  expect(['CON', 'nul', 'Com1', 'lpt9', 'aux '].map(plainName)).toEqual([
    'CON_',
    'nul_',
    'Com1_',
    'lpt9_',
    'aux_',
  ])
  expect(plainName('')).toBe('_')
  expect(plainName('   ')).toBe('_')
  expect(plainName('console')).toBe('console')
})

test('any list of names gives distinct names that every file system takes', () => {
  fc.assert(
    fc.property(fc.array(fc.string({ unit: 'binary' }), { maxLength: 12 }), (names) => {
      const made = fileNames(names)
      expect(new Set(made.map((name) => name.toLowerCase())).size).toBe(names.length)
      for (const name of made) {
        expect(bytes(name)).toBeLessThanOrEqual(80)
        expect(name).toMatch(/^[\p{L}\p{M}\p{Nd}_ -]+$/u)
        expect(name.normalize('NFC')).toBe(name)
      }
      expect(fileNames(names)).toEqual(made)
    }),
    { seed: 2 },
  )
})
