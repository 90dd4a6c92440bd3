/** Commands: each does what it says, its inverse takes it back, and a series is undone in reverse. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { apply, type Command } from '../../src/project/commands'
import { parseDecisions } from '../../src/project/decisions'
import { MAP_LAYERS } from '../../src/project/map-order'
import { emptyProject, type Project } from '../../src/project/project'
import { EMPTY_RECIPE, type Recipe } from '../../src/project/recipe'
import { startingRecipe } from '../../src/project/starting-recipe'

const word = fc.string({ minLength: 1, maxLength: 8 })
const index = fc.record({ name: word, formula: word })
const rule = fc.record({
  name: word,
  when: word,
  colour: fc.constant('#0072B2'),
  symbol: fc.constantFrom('circle' as const, 'star' as const),
})
const surface = fc.record({ name: word, value: word, method: fc.constant('kriging' as const) })
const recipe: fc.Arbitrary<Recipe> = fc.record({
  recipe: fc.constant(1 as const),
  crs: fc.constantFrom('auto', 'EPSG:32719', 'local:m'),
  places: fc.array(fc.record({ file: word }), { maxLength: 2 }),
  targets: fc.constantFrom(['matrix'], ['vein', 'cut']) as fc.Arbitrary<Recipe['targets']>,
  indices: fc.array(index, { maxLength: 3 }),
  classes: fc.array(rule, { maxLength: 3 }),
  surfaces: fc.array(surface, { maxLength: 3 }),
})
const references = fc.option(
  fc.record({ off: fc.array(word, { maxLength: 2 }), ranges: fc.constant({}) }),
  { nil: undefined },
)
const recipeWithChoice = fc
  .tuple(recipe, references)
  .map(([made, choice]): Recipe => (choice ? { ...made, references: choice } : made))
const note = fc.record({
  file: word,
  scan: word,
  about: fc.record({ kind: fc.constant('note' as const), note: word }),
  who: word,
  when: fc.constant('2024-05-07T18:00:00Z'),
  why: word,
})
const notes = fc.array(note, { maxLength: 3 })
const sets = fc.array(fc.record({ name: word, source: word, references: fc.constant([]) }), {
  maxLength: 2,
})

/** Any command. */
const command: fc.Arbitrary<Command> = fc.oneof(
  word.map((name): Command => ({ do: 'rename', name })),
  fc.shuffledSubarray([...MAP_LAYERS]).map((order): Command => ({ do: 'set layer order', order })),
  recipe.map(({ crs }): Command => ({ do: 'set crs', crs })),
  recipe.map(({ places }): Command => ({ do: 'set places', places })),
  fc
    .option(fc.record({ by_time: fc.boolean(), gap_s: fc.integer({ min: 1 }) }), { nil: undefined })
    .map((grouping): Command => ({ do: 'set grouping', grouping })),
  recipe.map(({ targets }): Command => ({ do: 'set targets', targets })),
  recipe.map(({ indices }): Command => ({ do: 'set indices', indices })),
  recipe.map(({ classes }): Command => ({ do: 'set classes', classes })),
  recipe.map(({ surfaces }): Command => ({ do: 'set surfaces', surfaces })),
  fc
    .option(fc.record({ surface: word, stop_minutes: fc.integer({ min: 1 }) }), { nil: undefined })
    .map((rule): Command => ({
      do: 'set traverse',
      traverse: rule && {
        ...rule,
        start: { longitude: 1, latitude: 2 },
        leave: '07:30',
        back: '16:30',
      },
    })),
  recipeWithChoice.map((made): Command => ({ do: 'set recipe', recipe: made })),
  references.map((choice): Command => ({ do: 'set references', references: choice })),
  fc.tuple(sets, fc.boolean()).map(([made, builtIn]): Command => ({
    do: 'set sets',
    sets: made,
    builtIn,
  })),
  notes.map((decisions): Command => ({ do: 'decide', decisions })),
  notes.map((list): Command => ({ do: 'set decisions', decisions: { decisions: 1, list } })),
  fc.array(word, { maxLength: 3 }).map((paths): Command => ({ do: 'hide files', paths })),
  fc.array(word, { maxLength: 3 }).map((hidden): Command => ({ do: 'set hidden', hidden })),
)

const project: fc.Arbitrary<Project> = fc
  .record({ name: word, recipe: recipeWithChoice, list: notes, hidden: fc.uniqueArray(word) })
  .map(({ name, recipe, list, hidden }) => ({
    ...emptyProject(name, recipe),
    decisions: { decisions: 1, list },
    hidden,
  }))

test('a command and then its inverse give the project that was', () => {
  fc.assert(
    fc.property(project, command, (before, done) => {
      const frozen = structuredClone(before)
      const { project: after, inverse } = apply(before, done)
      expect(before).toEqual(frozen)
      expect(apply(after, inverse).project).toEqual(before)
    }),
    { seed: 3, numRuns: 400 },
  )
})

test('the inverse of an inverse does it again', () => {
  fc.assert(
    fc.property(project, command, (before, done) => {
      const { project: after, inverse } = apply(before, done)
      const back = apply(after, inverse)
      expect(apply(back.project, back.inverse).project).toEqual(after)
    }),
    { seed: 4, numRuns: 400 },
  )
})

test('a series is undone in reverse', () => {
  fc.assert(
    fc.property(project, fc.array(command, { maxLength: 12 }), (before, series) => {
      let at = before
      const undo: Command[] = []
      for (const done of series) {
        const { project: next, inverse } = apply(at, done)
        at = next
        undo.unshift(inverse)
      }
      for (const inverse of undo) at = apply(at, inverse).project
      expect(at).toEqual(before)
    }),
    { seed: 5, numRuns: 100 },
  )
})

test('commands are plain data: they come through JSON unchanged', () => {
  fc.assert(
    fc.property(project, command, (before, done) => {
      const copy = JSON.parse(JSON.stringify(done)) as Command
      expect(apply(before, copy).project).toEqual(apply(before, done).project)
    }),
    { seed: 6, numRuns: 200 },
  )
})

describe('what each does', () => {
  const before = emptyProject('p')
  const after = (done: Command) => apply(before, done).project

  test('what is not spoken of is kept, by identity, so that nothing is computed anew', () => {
    const { project: next } = apply(before, { do: 'set classes', classes: [] })
    expect(next.recipe.indices).toBe(before.recipe.indices)
    expect(next.decisions).toBe(before.decisions)
  })

  test('decide adds to the list; set decisions replaces it', () => {
    const list = [1, 2].map((n) => ({
      file: 'a',
      scan: `${n}`,
      about: { kind: 'note' as const, note: 'x' },
      who: 'w',
      when: '2024-05-07',
      why: 'y',
    }))
    const first = apply(before, { do: 'decide', decisions: [list[0]] }).project
    expect(apply(first, { do: 'decide', decisions: [list[1]] }).project.decisions.list).toEqual(
      list,
    )
    expect(after({ do: 'set decisions', decisions: parseDecisions('{"decisions":1}') })).toEqual(
      before,
    )
  })

  test('hiding a file twice hides it once', () => {
    const hidden = after({ do: 'hide files', paths: ['a', 'b', 'a'] })
    expect(hidden.hidden).toEqual(['a', 'b'])
    expect(apply(hidden, { do: 'hide files', paths: ['b', 'c'] }).project.hidden).toEqual([
      'a',
      'b',
      'c',
    ])
  })

  test('a whole recipe replaces the one before, its choice of references too', () => {
    const choice = { off: ['x'], ranges: {} }
    const chosen = after({ do: 'set references', references: choice })
    expect(apply(chosen, { do: 'set recipe', recipe: EMPTY_RECIPE }).project.recipe).toEqual(
      EMPTY_RECIPE,
    )
    expect(after({ do: 'set recipe', recipe: startingRecipe() }).recipe).toEqual(startingRecipe())
  })
})
