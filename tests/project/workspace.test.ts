/** The workspace: undo, folders dropped at once, a project left while it is read, saving. */
import { beforeEach, describe, expect, test } from 'vitest'
import { ShelfKeeper } from '../../src/project/keeper'
import { EMPTY_RECIPE } from '../../src/project/recipe'
import type { InputSource } from '../../src/project/reading'
import { Workspace } from '../../src/project/workspace'
import { CountingPool, THREE } from './pools'
import { MemoryShelf } from './shelves'

let pool: CountingPool
let shelf: MemoryShelf
let workspace: Workspace
beforeEach(() => {
  pool = new CountingPool()
  shelf = new MemoryShelf()
  workspace = new Workspace(pool, THREE, new ShelfKeeper(shelf))
})

function source(name: string): InputSource {
  const lines = Array.from({ length: 80 }, (_, i) => `${400 + 20 * i}\t${0.3 + 0.001 * i}`)
  const bytes = new TextEncoder().encode(lines.join('\n'))
  return { path: `${name}.txt`, size: bytes.length, read: () => Promise.resolve(bytes) }
}

const names = () => workspace.snapshot.holdings.heads.map(({ name }) => name)

test('folders dropped while another is read are all read, in their order', async () => {
  await Promise.all(['a', 'b', 'c'].map((name) => workspace.addFiles([source(name)])))
  expect(names()).toEqual(['a', 'b', 'c'])
  expect(workspace.snapshot.results?.heads).toHaveLength(3)
})

test('a project that is left while it is read leaves nothing in the next', async () => {
  const first = workspace.addFiles([source('old')])
  const waiting = workspace.addFiles([source('older')])
  const next = workspace.open({ name: 'new', statement: null, recipe: EMPTY_RECIPE }, [source('n')])
  await Promise.all([first, waiting, next])
  expect(names()).toEqual(['n'])
  expect(workspace.snapshot.project.name).toBe('new')
})

test('stop while reading drops what was read, and the project goes on', async () => {
  pool.before = (task) => {
    if (task === 'read') workspace.stop()
  }
  await workspace.addFiles([source('a')])
  expect([names(), workspace.snapshot.failure]).toEqual([[], null])
  pool.before = () => undefined
  await workspace.addFiles([source('b')])
  expect(names()).toEqual(['b'])
})

test('it says that it computes from the change to the last result, between activities too', async () => {
  await workspace.addFiles([source('a')])
  await workspace.settled()
  expect(workspace.snapshot.computing).toBe(false)
  const seen: { computing: boolean; shown: unknown }[] = []
  workspace.subscribe(({ computing, results }) => seen.push({ computing, shown: results }))
  workspace.dispatch({ do: 'set targets', targets: ['matrix', 'vein'] })
  expect(workspace.snapshot.computing).toBe(true)
  await workspace.settled()
  const last = workspace.snapshot.results
  const ended = seen.findLastIndex(({ computing }) => computing)
  // All that comes after the end shows what it ended with.
  for (const { computing, shown } of seen.slice(ended + 1)) {
    expect(computing).toBe(false)
    expect(shown).toBe(last)
  }
  expect(workspace.snapshot.computing).toBe(false)
})

describe('undo', () => {
  test('goes back and forth; a new command ends the way forth', async () => {
    for (const name of ['one', 'two']) workspace.dispatch({ do: 'rename', name })
    workspace.undo()
    expect(workspace.snapshot).toMatchObject({ project: { name: 'one' }, canRedo: true })
    workspace.redo()
    expect(workspace.snapshot.project.name).toBe('two')
    workspace.undo()
    workspace.dispatch({ do: 'rename', name: 'three' })
    expect(workspace.snapshot.canRedo).toBe(false)
    workspace.undo()
    workspace.undo()
    workspace.undo()
    expect(workspace.snapshot).toMatchObject({ project: { name: 'Untitled' }, canUndo: false })
    await workspace.settled()
  })
})

describe('keeping', () => {
  test('what was done is there in another window', async () => {
    await workspace.addFiles([source('a')])
    workspace.dispatch({ do: 'rename', name: 'kept' })
    await workspace.settled()
    const other = new Workspace(pool, THREE, new ShelfKeeper(shelf))
    expect(await other.restore()).toBe(true)
    await other.settled()
    expect(other.snapshot.project.name).toBe('kept')
    expect(other.snapshot.results?.heads.map(({ name }) => name)).toEqual(['a'])
  })

  test('an empty shelf restores nothing', async () => {
    expect(await workspace.restore()).toBe(false)
  })

  test('a save that fails is told, and the next that works takes it back', async () => {
    const told: unknown[] = []
    workspace.subscribe(({ saved }) => void told.push(saved))
    shelf.failures = [new Error('the disk is full')]
    workspace.dispatch({ do: 'rename', name: 'a' })
    await workspace.settled()
    expect(told).toContainEqual({ failure: 'the disk is full' })
    workspace.dispatch({ do: 'rename', name: 'b' })
    await workspace.settled()
    expect(workspace.snapshot.saved).toBe('saved')
  })
})

test('a failure of the program is told in words and stops nothing', async () => {
  workspace.dispatch({ do: 'set crs', crs: 'EPSG:999999' })
  await workspace.settled()
  expect(workspace.snapshot.failure).toContain('999999')
  workspace.dispatch({ do: 'set crs', crs: 'auto' })
  await workspace.settled()
  expect(workspace.snapshot.results).not.toBeNull()
  expect(workspace.snapshot.failure).toBeNull()
})
