/** What undo takes back: bounded, kept with the project, and back after a reload. */
import { serialize } from 'node:v8'
import { beforeEach, describe, expect, test } from 'vitest'
import type { Command } from '../../src/project/commands'
import type { Decision } from '../../src/project/decisions'
import {
  boundedHistory,
  keptHistory,
  NO_HISTORY,
  withDone,
  withRedone,
  withUndone,
} from '../../src/project/history'
import { ShelfKeeper } from '../../src/project/keeper'
import { Workspace } from '../../src/project/workspace'
import { CountingPool, THREE } from './pools'
import { MemoryShelf } from './shelves'

const rename = (name: string): Command => ({ do: 'rename', name })
const names = (commands: readonly Command[]) =>
  commands.map((command) => (command.do === 'rename' ? command.name : command.do))

const decision = (i: number): Decision => ({
  file: `f${i}.txt`,
  scan: `S${i}`,
  about: { kind: 'verdict', check: 'sound' },
  who: 'ab',
  when: '2026-05-12T12:00:00Z',
  why: 'looked at',
})

const setDecisions = (count: number, all: readonly Decision[]): Command => ({
  do: 'set decisions',
  decisions: { decisions: 1, list: all.slice(0, count) },
})

describe('a history', () => {
  test('holds the newest two hundred', () => {
    let history = NO_HISTORY
    for (let i = 0; i < 250; i++) history = withDone(history, rename(`${i}`))
    expect(history.undo).toHaveLength(200)
    expect(names(history.undo.slice(0, 1))).toEqual(['50'])
  })

  test('goes back and forth', () => {
    const two = withDone(withDone(NO_HISTORY, rename('a')), rename('b'))
    const back = withUndone(two, rename('c'))
    expect([names(back.undo), names(back.redo)]).toEqual([['a'], ['c']])
    expect(withRedone(back, rename('b'))).toEqual(two)
    expect(withDone(back, rename('d')).redo).toEqual([])
  })

  test('is kept from the newest on, as far as its lists fit', () => {
    const all = Array.from({ length: 30 }, (_, i) => decision(i))
    const undo = [rename('old'), setDecisions(30, all), rename('b'), setDecisions(10, all)]
    const bounded = boundedHistory({ undo, redo: [rename('r')] }, 14)
    // 11 for ten decisions, one for each rename; the thirty do not fit, and nothing before them.
    expect(names(bounded.undo)).toEqual(['b', 'set decisions'])
    expect(names(bounded.redo)).toEqual(['r'])
    expect(boundedHistory({ undo, redo: [] }).undo).toEqual(undo)
  })

  test('written with what it shares, 200 changes to 900 decisions take less than 1 MB', () => {
    const all = Array.from({ length: 900 }, (_, i) => decision(i))
    const undo = Array.from({ length: 200 }, (_, i) => setDecisions(700 + i, all))
    const bounded = boundedHistory({ undo, redo: [] })
    expect(bounded.undo).toHaveLength(200)
    const more = serialize({ all, bounded }).length - serialize({ all }).length
    expect(more).toBeLessThan(1e6)
  })

  test('of an older program is empty; beyond an unknown command nothing is taken back', () => {
    expect(keptHistory(undefined)).toEqual(NO_HISTORY)
    const unknown = { do: 'fold paper' } as unknown as Command
    const kept = keptHistory({ undo: [rename('a'), unknown, rename('b')], redo: [rename('c')] })
    expect([names(kept.undo), names(kept.redo)]).toEqual([['b'], ['c']])
  })
})

describe('after a reload', () => {
  let shelf: MemoryShelf
  const open = () => new Workspace(new CountingPool(), THREE, new ShelfKeeper(shelf))
  beforeEach(() => {
    shelf = new MemoryShelf()
  })

  test('undo and redo go on where they were, and what they do is kept again', async () => {
    const first = open()
    for (const name of ['one', 'two', 'three']) first.dispatch(rename(name))
    first.undo()
    await first.settled()

    const second = open()
    await second.restore()
    expect(second.snapshot).toMatchObject({
      project: { name: 'two' },
      canUndo: true,
      canRedo: true,
    })
    second.redo()
    expect(second.snapshot.project.name).toBe('three')
    for (let i = 0; i < 3; i++) second.undo()
    expect(second.snapshot).toMatchObject({ project: { name: 'Untitled' }, canUndo: false })
    await second.settled()

    const third = open()
    await third.restore()
    expect(third.snapshot).toMatchObject({ canUndo: false, canRedo: true })
    third.redo()
    expect(third.snapshot.project.name).toBe('one')
    await third.settled()
  })

  test('nothing is taken back that another project did', async () => {
    const first = open()
    first.dispatch(rename('one'))
    await first.settled()
    const { recipe } = first.snapshot.project
    await first.open({ name: 'next', statement: null, recipe }, [])
    await first.settled()
    const second = open()
    await second.restore()
    expect(second.snapshot).toMatchObject({ project: { name: 'next' }, canUndo: false })
  })
})
