/** Corrections in the recipe: read, refused where wrong, followed at once, taken back by undo. */
import { beforeEach, describe, expect, test } from 'vitest'
import { ShelfKeeper } from '../../src/project/keeper'
import { parseRecipe, writeRecipe } from '../../src/project/recipe'
import { isDateAmbiguous } from '../../src/project/date-orders'
import { filesAlike, misreadFiles, withCorrection } from '../../src/project/recipe-layouts'
import type { InputSource } from '../../src/project/reading'
import { Workspace } from '../../src/project/workspace'
import { spectrumOf } from '../../src/spectra/scan-store'
import { CountingPool, THREE } from './pools'
import { MemoryShelf } from './shelves'

const recipe = (layouts: unknown) => parseRecipe(JSON.stringify({ recipe: 1, layouts }))

describe('the recipe’s layouts', () => {
  test('come back as they were written', () => {
    const layouts = [
      { like: 'a', wavelength_unit: 'um', reflectance: 'percent', column: 'R', decimal: ',' },
      { like: 'b', encoding: 'Windows-1252' },
    ]
    const read = recipe(layouts)
    expect(read.layouts).toEqual(layouts)
    expect(parseRecipe(writeRecipe(read))).toEqual(read)
  })

  test.each([
    [[{ like: 'a' }], /layouts\[0\].*corrects nothing/],
    [[{ like: 'a', reflectance: 'parts' }], /layouts\[0\]\.reflectance.*none of fraction, percent/],
    [[{ like: 'a', wavelength_unit: 'µm' }], /layouts\[0\]\.wavelength_unit.*none of nm, um, cm-1/],
    [[{ reflectance: 'percent' }], /layouts\[0\].*‘like’ is missing/],
    [[{ like: 'a', unit: 'nm' }], /layouts\[0\]\.unit.*no such key/],
    [
      [
        { like: 'a', decimal: ',' },
        { like: 'a', decimal: '.' },
      ],
      /layouts\[1\]\.like.*twice/,
    ],
    [{}, /layouts: a list is expected/],
  ])('%j is refused', (layouts, why) => {
    expect(() => recipe(layouts)).toThrow(why)
  })
})

test('a correction takes the place of the one before, and goes when it says nothing', () => {
  const first = withCorrection(undefined, { like: 'a', decimal: ',' })
  const second = withCorrection(first, { like: 'a', reflectance: 'percent' })
  expect(second).toEqual([{ like: 'a', reflectance: 'percent' }])
  expect(withCorrection(second, { like: 'a' })).toBeUndefined()
})

describe('in a workspace', () => {
  let shelf: MemoryShelf
  let workspace: Workspace
  beforeEach(() => {
    shelf = new MemoryShelf()
    workspace = new Workspace(new CountingPool(), THREE, new ShelfKeeper(shelf))
  })

  function source(name: string, separator: string): InputSource {
    const lines = Array.from({ length: 80 }, (_, i) => `${400 + 20 * i}${separator}1.5`)
    const bytes = new TextEncoder().encode(lines.join('\n'))
    return { path: `${name}.txt`, size: bytes.length, read: () => Promise.resolve(bytes) }
  }

  const firstValues = () =>
    workspace.snapshot.holdings.files.map(({ path, firstScan }) => [
      path,
      Number(spectrumOf(workspace.snapshot.holdings.scans, firstScan).reflectance[0].toFixed(4)),
    ])

  test('it counts at once for files alike and for no others; undo takes it back', async () => {
    await workspace.addFiles([source('a', '\t'), source('b', '\t'), source('c', ';')])
    const [alike] = filesAlike(workspace.snapshot.holdings.files)
    expect(alike.files.map(({ path }) => path)).toEqual(['a.txt', 'b.txt'])
    const layouts = [{ like: alike.like, reflectance: 'percent' as const }]
    workspace.dispatch({ do: 'set layouts', layouts })
    await workspace.settled()
    expect(new Map(firstValues() as [string, number][])).toEqual(
      new Map([
        ['c.txt', 1.5],
        ['a.txt', 0.015],
        ['b.txt', 0.015],
      ]),
    )
    expect(workspace.snapshot.results?.heads.map(({ name }) => name).sort()).toEqual([
      'a',
      'b',
      'c',
    ])
    workspace.undo()
    await workspace.settled()
    expect(firstValues().map(([, value]) => value)).toEqual([1.5, 1.5, 1.5])
    workspace.redo()
    workspace.undo()
    workspace.redo()
    await workspace.settled()
    expect(firstValues().map(([, value]) => value)).toEqual([1.5, 0.015, 0.015])
  })

  test('tomorrow’s files of the same look are read so too, also after the project was closed', async () => {
    await workspace.addFiles([source('a', '\t')])
    const [{ like }] = filesAlike(workspace.snapshot.holdings.files)
    workspace.dispatch({ do: 'set layouts', layouts: [{ like, reflectance: 'percent' }] })
    await workspace.settled()
    const later = new Workspace(new CountingPool(), THREE, new ShelfKeeper(shelf))
    await later.restore()
    await later.addFiles([source('z', '\t')])
    const { holdings } = later.snapshot
    const last = holdings.files[holdings.files.length - 1]
    expect(spectrumOf(holdings.scans, last.firstScan).reflectance[0]).toBeCloseTo(0.015, 6)
  })

  test('files whose bytes are gone wait to be chosen again, and say so', async () => {
    await workspace.addFiles([source('a', '\t')])
    await workspace.settled()
    const later = new Workspace(new CountingPool(), THREE, new ShelfKeeper(shelf))
    await later.restore()
    const [{ like }] = filesAlike(later.snapshot.holdings.files)
    later.dispatch({ do: 'set layouts', layouts: [{ like, reflectance: 'percent' }] })
    await later.settled()
    const { holdings, project } = later.snapshot
    expect(misreadFiles(holdings.files, project.recipe.layouts)).toHaveLength(1)
    await later.addFiles([source('a', '\t')])
    expect(misreadFiles(later.snapshot.holdings.files, project.recipe.layouts)).toEqual([])
  })

  test('a date that could be two days is none until its order is said, after a restart too', async () => {
    const dated = (name: string): InputSource => {
      const rows = Array.from({ length: 80 }, (_, i) => `${400 + 20 * i}\t0.5`)
      const text = ['Date: 05/03/2024', 'Time: 14:10:00', ...rows].join('\n')
      const bytes = new TextEncoder().encode(text)
      return { path: `${name}.txt`, size: bytes.length, read: () => Promise.resolve(bytes) }
    }
    await workspace.addFiles([dated('a')])
    expect(workspace.snapshot.holdings.heads.map(isDateAmbiguous)).toEqual([true])
    await workspace.settled()
    // Nothing is handed over again: headers are kept whole.
    const later = new Workspace(new CountingPool(), THREE, new ShelfKeeper(shelf))
    await later.restore()
    const [{ like }] = filesAlike(later.snapshot.holdings.files)
    const dayOf = () => {
      const time = later.snapshot.results?.heads[0].known.time
      return time ? new Date(1000 * time.seconds).toISOString() : null
    }
    const say = async (order: 'day first' | 'month first') => {
      later.dispatch({ do: 'set layouts', layouts: [{ like, date_order: order }] })
      await later.settled()
    }
    await say('day first')
    expect(dayOf()).toBe('2024-03-05T14:10:00.000Z')
    await say('month first')
    expect(dayOf()).toBe('2024-05-03T14:10:00.000Z')
    const { holdings, project } = later.snapshot
    expect(misreadFiles(holdings.files, project.recipe.layouts)).toEqual([])
    const again = new Workspace(new CountingPool(), THREE, new ShelfKeeper(shelf))
    await again.restore()
    expect(again.snapshot.holdings.heads.map(isDateAmbiguous)).toEqual([false])
    // Files alike that come later are read in that order, and undo takes it back.
    await later.addFiles([dated('b')])
    expect(later.snapshot.holdings.heads.map(isDateAmbiguous)).toEqual([false, false])
    later.undo()
    later.undo()
    await later.settled()
    expect(dayOf()).toBeNull()
    const { holdings: back } = later.snapshot
    expect(misreadFiles(back.files, later.snapshot.project.recipe.layouts)).toEqual([])
  })

  test('spectra that were read otherwise before are given up when the project is opened', async () => {
    const many = Array.from({ length: 300 }, (_, i) => source(`s${i}`, '\t'))
    await workspace.addFiles(many)
    const [{ like }] = filesAlike(workspace.snapshot.holdings.files)
    workspace.dispatch({ do: 'set layouts', layouts: [{ like, reflectance: 'percent' }] })
    await workspace.settled()
    const later = new Workspace(new CountingPool(), THREE, new ShelfKeeper(shelf))
    await later.restore()
    await later.settled()
    const { holdings, results } = later.snapshot
    // 600 scans in three blocks, of which the first held old readings alone.
    expect([workspace.snapshot.holdings.scans.blocks.length, holdings.scans.blocks.length]).toEqual(
      [3, 2],
    )
    expect(results?.heads).toHaveLength(300)
    const { firstScan } = holdings.files[0]
    expect(spectrumOf(holdings.scans, firstScan).reflectance[0]).toBeCloseTo(0.015, 6)
  })
})
