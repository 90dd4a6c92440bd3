/** Keeping on a shelf: what comes back, what is written, what is told when it fails. */
import { describe, expect, test } from 'vitest'
import { ShelfKeeper } from '../../src/project/keeper'
import { emptyProject, NO_HOLDINGS, type Holdings } from '../../src/project/project'
import { BLOCK_SCANS, spectrumOf } from '../../src/spectra/scan-store'
import { withScans, type MadeScan } from './holdings'
import { MemoryShelf } from './shelves'

const SHORT = Float64Array.of(400, 500, 600)
const LONG = Float64Array.of(350, 1000, 1500, 2500)

/** A scan on one of two axes, with a gap where its number says so. */
function scanAt(i: number): MadeScan {
  const wavelengths = i % 3 === 0 ? LONG : SHORT
  const reflectance = Float32Array.from(wavelengths, (_, k) =>
    (i + k) % 5 === 0 ? NaN : Math.fround(0.001 * i + 0.1 * k),
  )
  return {
    name: `S${i}`,
    file: `f${i}.txt`,
    wavelengths,
    reflectance,
    metadata: { sample: `${i}` },
  }
}

function holdingsOf(count: number, before: Holdings = NO_HOLDINGS): Holdings {
  const first = before.heads.length
  return withScans(
    before,
    Array.from({ length: count }, (_, i) => scanAt(first + i)),
  )
}

const project = emptyProject('Velarca')

/** A failure as a promise's owner hears it. */
function failureOf(promise: Promise<void>): Promise<string> {
  return promise.then(
    () => 'saved',
    (error: unknown) => (error as Error).message,
  )
}

describe('a round trip', () => {
  test('gives back project, heads, tables, ground and every value, gaps and axes too', async () => {
    const shelf = new MemoryShelf()
    const holdings: Holdings = {
      ...holdingsOf(700),
      tables: [{ file: 't.csv', header: ['a'], rows: [['1']], lines: [2] }],
      tracks: [],
      ground: [{ path: 'dem.tif', bytes: Uint8Array.of(1, 2, 3) }],
    }
    await new ShelfKeeper(shelf).save(project, holdings)
    const kept = await new ShelfKeeper(shelf).load()
    if (!kept) throw new Error('nothing was kept')
    expect(kept.project).toEqual(project)
    const { scans, ...rest } = kept.holdings
    const { scans: before, ...expected } = holdings
    expect(rest).toEqual(expected)
    expect(scans.axes).toEqual(before.axes)
    expect(scans.count).toBe(700)
    for (let scan = 0; scan < 700; scan++) {
      const found = spectrumOf(scans, scan)
      expect(found.wavelengths).toEqual(scanAt(scan).wavelengths)
      expect(found.reflectance).toEqual(scanAt(scan).reflectance)
    }
  })

  test('nothing is on an empty shelf', async () => {
    expect(await new ShelfKeeper(new MemoryShelf()).load()).toBeNull()
  })

  test('what was loaded can grow and be kept again', async () => {
    const shelf = new MemoryShelf()
    await new ShelfKeeper(shelf).save(project, holdingsOf(300))
    const keeper = new ShelfKeeper(shelf)
    const kept = await keeper.load()
    if (!kept) throw new Error('nothing was kept')
    await keeper.save(kept.project, holdingsOf(20, kept.holdings))
    const again = await new ShelfKeeper(shelf).load()
    expect(again?.holdings.heads).toHaveLength(320)
    for (const scan of [0, 255, 299, 300, 319]) {
      const { scans } = again?.holdings ?? NO_HOLDINGS
      expect(spectrumOf(scans, scan).reflectance).toEqual(scanAt(scan).reflectance)
    }
  })
})

describe('what is written', () => {
  const parts = (keys: readonly string[]) => keys.filter((key) => key !== 'head')

  test('a command writes the head alone', async () => {
    const shelf = new MemoryShelf()
    const keeper = new ShelfKeeper(shelf)
    const holdings = holdingsOf(600)
    await keeper.save(project, holdings)
    await keeper.save({ ...project, name: 'renamed' }, holdings)
    expect(shelf.commits[1]).toEqual({ puts: ['head'], deletes: [] })
  })

  test('the same holds after a load: nothing that stands there is written anew', async () => {
    const shelf = new MemoryShelf()
    await new ShelfKeeper(shelf).save(project, holdingsOf(600))
    const keeper = new ShelfKeeper(shelf)
    const kept = await keeper.load()
    if (!kept) throw new Error('nothing was kept')
    await keeper.save(kept.project, kept.holdings)
    expect(shelf.commits[1]).toEqual({ puts: ['head'], deletes: [] })
  })

  test('more scans rewrite the last page and the open blocks, and what they replace goes', async () => {
    const shelf = new MemoryShelf()
    const keeper = new ShelfKeeper(shelf)
    const first = holdingsOf(3 * BLOCK_SCANS)
    await keeper.save(project, first)
    await keeper.save(project, holdingsOf(1, first))
    // 768 scans: 256 on the long axis fill their block, 512 on the short fill two; one page of two is open.
    expect(parts(shelf.commits[1].puts)).toHaveLength(2)
    expect(shelf.commits[1].deletes).toHaveLength(1)
    const all = [...shelf.parts.keys()]
    expect(all).toHaveLength(1 + 4 + 2)
  })

  test('another project’s parts take the place of the first’s', async () => {
    const shelf = new MemoryShelf()
    const keeper = new ShelfKeeper(shelf)
    await keeper.save(project, holdingsOf(600))
    await keeper.save(emptyProject('empty'), NO_HOLDINGS)
    expect([...shelf.parts.keys()]).toEqual(['head'])
  })
})

describe('saves that overlap', () => {
  test('are joined: the last waits for the first, those between are never written', async () => {
    const shelf = new MemoryShelf()
    const keeper = new ShelfKeeper(shelf)
    shelf.hold()
    const saves = ['a', 'b', 'c', 'd'].map((name) => keeper.save({ ...project, name }, NO_HOLDINGS))
    expect(shelf.commits).toHaveLength(1)
    shelf.letGo()
    await Promise.all(saves)
    expect(shelf.commits).toHaveLength(2)
    expect((await keeper.load())?.project.name).toBe('d')
  })

  test('one asked for as another ends is not lost', async () => {
    const shelf = new MemoryShelf()
    const keeper = new ShelfKeeper(shelf)
    const first = keeper.save({ ...project, name: 'first' }, NO_HOLDINGS)
    for (let turn = 0; turn < 12; turn++) {
      await Promise.resolve()
      void keeper.save({ ...project, name: `turn ${turn}` }, NO_HOLDINGS)
    }
    await first
    await keeper.save({ ...project, name: 'turn 11' }, NO_HOLDINGS)
    expect((await keeper.load())?.project.name).toBe('turn 11')
  })
})

describe('failures', () => {
  const full = new Error('the disk is full')

  test('a commit that fails is reported, and what stood before stands', async () => {
    const shelf = new MemoryShelf()
    const keeper = new ShelfKeeper(shelf)
    await keeper.save(project, holdingsOf(10))
    shelf.failures = [full]
    expect(await failureOf(keeper.save({ ...project, name: 'new' }, holdingsOf(20)))).toBe(
      full.message,
    )
    expect((await new ShelfKeeper(shelf).load())?.holdings.heads).toHaveLength(10)
  })

  test('the next save writes again what the failed one could not', async () => {
    const shelf = new MemoryShelf()
    const keeper = new ShelfKeeper(shelf)
    shelf.failures = [full]
    const holdings = holdingsOf(10)
    expect(await failureOf(keeper.save(project, holdings))).toBe(full.message)
    await keeper.save(project, holdings)
    expect((await new ShelfKeeper(shelf).load())?.holdings.heads).toHaveLength(10)
  })

  test('a failure that a newer save makes good is none', async () => {
    const shelf = new MemoryShelf()
    const keeper = new ShelfKeeper(shelf)
    shelf.failures = [full, null]
    const saves = ['a', 'b'].map((name) =>
      failureOf(keeper.save({ ...project, name }, NO_HOLDINGS)),
    )
    expect(await Promise.all(saves)).toEqual(['saved', 'saved'])
    expect((await keeper.load())?.project.name).toBe('b')
  })

  test('a head whose part is missing, and another version’s, are refused in words', async () => {
    const shelf = new MemoryShelf()
    await new ShelfKeeper(shelf).save(project, holdingsOf(10))
    const block = [...shelf.parts.keys()].find((key) => key.startsWith('block'))
    shelf.parts.delete(block ?? '')
    await expect(new ShelfKeeper(shelf).load()).rejects.toThrow(/incomplete: a part/)
    shelf.parts.set('head', { version: 99 })
    await expect(new ShelfKeeper(shelf).load()).rejects.toThrow(/another version.*99/)
  })
})
