/**
 * Real measurements through the command line: the part of the USGS Spectral Library Version 7
 * (Kokaly et al. 2017, doi:10.3133/ds1035) that stands in ../shared/spectra. The built-in set was
 * fitted to some of the same records, so this is a floor, not a test on unseen samples; the
 * figures on unseen samples are those of tests/bench.
 */
import { copyFileSync, existsSync, mkdirSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { mineralOfRecord } from '../../src/minerals/catalogue'
import { isSilent } from '../../src/minerals/groups'
import builtIn from '../../src/minerals/reference-set/built-in.json'
import { NOTHING_DIAGNOSTIC } from '../../src/minerals/reference'
import { Layers, runMap, Scratch, type Ran } from './command'

const LIBRARY = '../shared/spectra'
/** A record's name as the set keeps it, without the library's prefix and ending. */
function recordOf(scan: string): string {
  return scan.replace(/^splib\d+[a-z]_/, '').replace(/_AREF$/, '')
}

const absent = !existsSync(LIBRARY)
const scratch = new Scratch()
afterAll(() => scratch.remove())

describe.skipIf(absent)(`the library as a whole (skipped without ${LIBRARY})`, () => {
  const out = new Layers(scratch.path('library'))
  let ran: Ran

  beforeAll(() => {
    ran = runMap('--scans', LIBRARY, '--out', out.folder)
  })

  test('all 414 records are read, with the wavelengths that stand a folder above them', () => {
    expect([ran.code, ran.complained]).toEqual([0, ''])
    const records = ['minerals', 'mixtures'].flatMap((folder) =>
      readdirSync(join(LIBRARY, folder)).map((file) => `${folder}/${file}`),
    )
    expect(records).toHaveLength(414)
    expect(out.rows('scans.csv').map(({ file }) => file)).toEqual(records.sort())
  })

  test('at least 75 % of those whose mineral is in the set get the right group', () => {
    const inSet = new Set(builtIn.references.map(({ mineral }) => mineral))
    const fitted = new Set(builtIn.references.map(({ record }) => record))
    const measured = out
      .rows('scans.csv')
      .filter(({ file }) => file.startsWith('minerals/'))
      .map((row) => ({ ...mineralOfRecord(row.scan), found: row }))
      .filter(({ mineral }) => inSet.has(mineral))
    const isRight = ({ group, found }: (typeof measured)[number]) =>
      isSilent(group) ? found.mineral === NOTHING_DIAGNOSTIC : found.group === group
    const right = measured.filter(isRight)
    const others = measured.filter(({ found }) => !fitted.has(recordOf(found.scan)))
    const othersRight = others.filter(isRight)
    console.log(`of records not fitted to: ${othersRight.length} of ${others.length}`)
    console.log(`right group in ${right.length} of ${measured.length} library records`)
    expect(measured.length).toBeGreaterThan(300)
    expect(right.length / measured.length).toBeGreaterThanOrEqual(0.75)
  })

  test('without a place they stand in scans.csv alone, and the report says why of each', () => {
    expect(out.rows('stations.csv')).toEqual([])
    expect(out.report.left_out.unplaced).toHaveLength(414)
    for (const { why } of out.report.left_out.unplaced) expect(why).toMatch(/header has no/)
  })
})

describe.skipIf(absent)(`--references (skipped without ${LIBRARY})`, () => {
  const out = new Layers(scratch.path('own'))
  const KEPT = /_(Alunite_HS295\.1B|Kaolinite_CM7|Muscovite_GDS113_Ruby)_/
  let kept: string[] = []

  beforeAll(() => {
    const minerals = join(LIBRARY, 'minerals')
    const above = readdirSync(LIBRARY, { withFileTypes: true }).filter((entry) => entry.isFile())
    mkdirSync(scratch.path('lib/records'), { recursive: true })
    for (const { name } of above) copyFileSync(join(LIBRARY, name), scratch.path('lib', name))
    kept = readdirSync(minerals).filter((name) => KEPT.test(name))
    for (const name of kept) copyFileSync(join(minerals, name), scratch.path('lib/records', name))
    const chlorite = readdirSync(minerals).filter((name) => /_Clinochlore_.*_ASD/.test(name))[0]
    mkdirSync(scratch.path('lib/scans'))
    for (const name of [...kept, chlorite]) {
      copyFileSync(join(minerals, name), scratch.path('lib/scans', name))
    }
    const recipe = {
      recipe: 1,
      classes: [
        { name: 'mica', when: 'group("white mica") >= 0.3', colour: '#0072B2', symbol: 'circle' },
        { name: 'green', when: 'group("chlorite") > 0', colour: '#009E73', symbol: 'star' },
      ],
    }
    const ran = runMap(
      ...['--scans', scratch.path('lib/scans'), '--references', scratch.path('lib/records')],
      ...['--recipe', scratch.json('lib/recipe.json', recipe), '--out', out.folder],
    )
    expect([ran.code, ran.complained]).toEqual([0, ''])
  })

  test('replaces the built-in set: nothing is named but what the folder holds', () => {
    const held = kept.map((file) => mineralOfRecord(file).mineral)
    const named = out.rows('minerals.csv').map(({ mineral }) => mineral)
    for (const mineral of named) expect([...held, NOTHING_DIAGNOSTIC]).toContain(mineral)
    const chlorite = out.rows('scans.csv').filter(({ scan }) => scan.includes('Clinochlore'))
    expect(chlorite.map(({ group }) => group)).not.toContain('chlorite')
    expect(chlorite).toHaveLength(1)
  })

  test('a record is named as itself', () => {
    expect(kept.length).toBe(4)
    for (const file of kept) {
      const row = out.row('scans.csv', 'file', file)
      expect(row.mineral, file).toBe(mineralOfRecord(row.scan).mineral)
    }
  })

  test('a group that the folder lacks is no mistake in a class', () => {
    expect(out.report.notes).toEqual([])
    const muscovite = out.rows('scans.csv').find(({ mineral }) => mineral === 'muscovite')
    expect(muscovite?.class).toBe('mica')
  })

  test('each record is an input of the report', () => {
    const references = out.report.inputs.filter(({ kind }) => kind === 'reference')
    expect(references.map(({ file }) => file)).toEqual(kept.sort())
    for (const { sha256 } of references) expect(sha256).toMatch(/^[0-9a-f]{64}$/)
  })
})
