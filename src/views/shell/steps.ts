/** The day's work as a line of steps, each with its count and its worry. */
import { misreadFiles } from '../../project/recipe-layouts'
import type { Results } from '../../project/results'
import type { Snapshot } from '../../project/workspace'
import type { Problem } from '../../readers/input'

export const STEP_IDS = [
  'scans',
  'places',
  'check',
  'minerals',
  'indices',
  'classes',
  'surfaces',
  'layers',
] as const
export type StepId = (typeof STEP_IDS)[number]

export interface Step {
  readonly id: StepId
  readonly label: string
  /** Such as `212 scans`. */
  readonly count: string
  /** Such as `9 unplaced`; empty where there is none. */
  readonly worry: string
}

/** What the steps are counted from. */
export type Counted = Pick<Snapshot, 'holdings' | 'project' | 'results'>

/** The steps of a project. It looks at every file and scan: work it out when one of them changes. */
export function steps({ holdings, project, results }: Counted): Step[] {
  const hidden = new Set(project.hidden)
  const files = holdings.files.filter(({ path }) => !hidden.has(path))
  const scans = files.reduce((sum, { scanCount }) => sum + scanCount, 0)
  const problems = files.reduce((sum, { problems }) => sum + problems.length, 0)
  const misread = misreadFiles(files, project.recipe.layouts).length
  const unplaced = results?.placement.scans.filter(({ station }) => station === null).length ?? 0
  const questions = results?.placement.questions.length ?? 0
  const tables = results?.placement.tables.filter(({ trouble }) => trouble !== null).length ?? 0
  const unclear = count(tables, tables === 1 ? 'unclear\u00a0table' : 'unclear\u00a0tables')
  const far = results?.placement.problems.filter(isFar).length ?? 0
  const clocks = results?.placement.clocks.filter(({ better }) => better !== null).length ?? 0
  const doubted = results?.verdicts.filter(({ check }) => check !== 'sound').length ?? 0
  const sound = (results?.verdicts.length ?? 0) - doubted
  const silent =
    results?.identifications.filter((found) => found?.minerals.length === 0).length ?? 0
  const waiting = results?.examined === false
  const { indices, classes, surfaces } = project.recipe
  const troubles = results?.troubles ?? []
  const broken = (part: (trouble: (typeof troubles)[number]) => boolean) =>
    count(troubles.filter(part).length, 'to mend')
  const failed = results?.surfaces.filter(({ state }) => state === 'failed').length ?? 0
  return [
    step(
      'scans',
      'Scans',
      named(scans, 'scan'),
      [problems ? named(problems, 'problem') : '', count(misread, 'to\u00a0read\u00a0anew')]
        .filter(Boolean)
        .join(', '),
    ),
    step(
      'places',
      'Places',
      named(results?.placement.stations.length ?? 0, 'station'),
      [
        unclear,
        clocks ? 'clock\u00a0off' : '',
        ...(questions
          ? [named(questions, 'question')]
          : [count(far, 'far\u00a0off'), count(unplaced, 'unplaced')]),
      ]
        .filter(Boolean)
        .join(', '),
    ),
    step(
      'check',
      'Check',
      waiting ? 'under way' : `${sound.toLocaleString('en')} sound`,
      count(doubted, 'doubted'),
    ),
    step('minerals', 'Minerals', named(mineralCount(results), 'mineral'), count(silent, 'silent')),
    step(
      'indices',
      'Indices',
      named(indices.length, 'index', 'indices'),
      broken((t) => t.part !== 'when'),
    ),
    step(
      'classes',
      'Classes',
      named(classes.length, 'class', 'classes'),
      broken((t) => t.part === 'when'),
    ),
    step('surfaces', 'Surfaces', named(surfaces.length, 'surface'), count(failed, 'failed')),
    step('layers', 'Layers', 'for the GIS', ''),
  ]
}

function step(id: StepId, label: string, counted: string, worry: string): Step {
  return { id, label, count: counted, worry }
}

/** Whether a problem of placing speaks of a station that lies far from all others. */
export function isFar({ problem }: Problem): boolean {
  return problem.endsWith('from the median station')
}

/** `3 scans`, `1 scan`. */
export function named(number: number, one: string, many = `${one}s`): string {
  return `${number.toLocaleString('en')} ${number === 1 ? one : many}`
}

function count(number: number, word: string): string {
  return number > 0 ? `${number.toLocaleString('en')}\u00a0${word}` : ''
}

function mineralCount(results: Results | null): number {
  const minerals = new Set<string>()
  for (const found of results?.identifications ?? []) {
    for (const { mineral } of found?.minerals ?? []) minerals.add(mineral)
  }
  return minerals.size
}
