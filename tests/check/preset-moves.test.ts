/** Whether the middle strengths of faults move an index that is offered by more than its error. */
import { expect, test } from 'vitest'
import { compileFormula } from '../../src/indices/compile'
import { leavesByKey } from '../../src/indices/context'
import { evaluate } from '../../src/indices/evaluate'
import { measureLeaves } from '../../src/indices/measure-leaves'
import { presetOf } from '../../src/indices/presets'
import { CATALOGUE } from '../../src/minerals/catalogue'
import { GROUPS } from '../../src/minerals/groups'
import type { Spectrum } from '../../src/spectra/spectrum'
import { context } from '../indices/sample'
import { median } from '../spectra/chance'
import { libraryMissing, libraryNames, libraryRecord } from '../spectra/library'
import { changed, inked, labelled } from './faults'
import { lit } from './lamps'

const NOISE = 0.001
const KNOWN = {
  minerals: CATALOGUE.map(({ mineral }) => mineral),
  groups: [...GROUPS.keys()],
  columns: [],
  indices: [],
}

/** Presets, and the records of the minerals by which their gates open. */
const READ_ON: Readonly<Record<string, RegExp>> = {
  'ferric-position': /_(Hematite|Goethite|Jarosite)_/,
  'ferric-depth': /_(Hematite|Goethite|Jarosite)_/,
  'ferrous-slope': /_(Chlorite|Clinochlore|Actinolite|Siderite|Biotite|Phlogopite)_/,
  'white-mica-position': /_(Muscovite|Illite|Paragonite)_/,
  'white-mica-order': /_(Muscovite|Illite|Paragonite)_/,
  'kaolin-order': /_(Kaolinite|Halloysite|Dickite)_/,
  'water-depth': /_(Illite|Montmorillonite)_/,
  'carbonate-position': /_(Calcite|Dolomite|Siderite)_/,
  'alunite-position': /_Alunite_/,
  'gypsum-depth': /_Gypsum_/,
}

/** How far an index moves, in its errors, on each record that it can be read on. */
function moves(id: string, fault: (spectrum: Spectrum) => Spectrum): number[] {
  const formula = compileFormula(presetOf(id)?.formula ?? '', KNOWN)
  const read = (spectrum: Spectrum) => {
    const leaves = leavesByKey(formula.leaves, measureLeaves(formula.leaves, spectrum, NOISE))
    return evaluate(formula, {
      ...context(),
      leaf: (key) => leaves.get(key) ?? context().leaf(key),
    })
  }
  return libraryNames()
    .filter((name) => READ_ON[id].test(name))
    .flatMap((name) => {
      const record = libraryRecord(name)
      const [clean, faulty] = [read(record), read(fault(record))]
      if (clean.value === null || clean.error === null || faulty.value === null) return []
      return [Math.abs(Number(faulty.value) - Number(clean.value)) / clean.error]
    })
}

type Fault = (spectrum: Spectrum) => Spectrum

/** What a fault does to each of the indices: median move in errors, and how many by over one. */
function tell(what: string, fault: Fault): Map<string, { middle: number; part: number }> {
  const found = new Map<string, { middle: number; part: number }>()
  for (const id of Object.keys(READ_ON)) {
    const all = moves(id, fault)
    const part = all.filter((move) => move > 1).length / all.length
    found.set(id, { middle: median(all), part })
  }
  const figures = [...found].map(
    ([id, { middle, part }]) => `${id} ${middle.toFixed(1)} errors (${(100 * part).toFixed(0)} %)`,
  )
  console.info(`${what}: ${figures.join(', ')}`)
  return found
}

test.skipIf(libraryMissing)(
  'a drift of 3 % moves the ferrous slope, and no depth or position',
  () => {
    const found = tell('drift of 3 %', (s) => changed(s, (value) => 1.03 * value))
    for (const [id, { middle, part }] of found) {
      if (id === 'ferrous-slope') expect(part).toBeGreaterThan(0.8)
      else expect(middle).toBeLessThan(0.01)
    }
  },
)

/** What each lamp moves first; at 2 % of the probe's light over its error on most records. */
const MOVED_BY_LAMPS: Readonly<Record<string, string>> = {
  fluorescent: 'ferrous-slope',
  mercury: 'ferrous-slope',
  'high-pressure sodium': 'white-mica-position',
  'sodium and scandium halide': 'ferrous-slope',
  'three-colour halide': 'ferrous-slope',
  'rare-earth halide': 'ferrous-slope',
}

for (const [lamp, id] of Object.entries(MOVED_BY_LAMPS)) {
  test.skipIf(libraryMissing)(`${lamp} light at 2 % of the probe’s moves the ${id}`, () => {
    const found = tell(`${lamp}, 2 %`, (s) => lit(s, lamp, 0.02))
    expect(found.get(id)?.part).toBeGreaterThan(0.8)
  })
}

test.skipIf(libraryMissing)('white diodes move none: all read beyond 760 nm', () => {
  for (const [, { middle }] of tell('white diode, 5 %', (s) => lit(s, 'white diode', 0.05)))
    expect(middle).toBeLessThan(0.05)
})

test.skipIf(libraryMissing)('paper on 70 % of the spot moves positions and depths', () => {
  const found = tell('paper on 70 %', (s) => labelled(s, 0.7))
  expect(found.get('white-mica-order')?.part).toBeGreaterThan(0.8)
})

test.skipIf(libraryMissing)('ink to 750 nm that takes 65 % moves the ferric depth', () => {
  const found = tell('ink to 750 nm', (s) => inked(s, 0.65, 0, 750))
  expect(found.get('ferric-depth')?.part).toBeGreaterThan(0.8)
  tell('ink to 680 nm', (s) => inked(s, 0.65, 0, 680))
})
