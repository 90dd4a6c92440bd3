/** The day's work as a line of steps, each with its count and its worry. */
import type { SourceFile } from '../../project/project'
import { misreadFiles } from '../../project/recipe-layouts'
import type { FormulaTrouble, Results } from '../../project/results'
import type { Snapshot } from '../../project/workspace'
import type { Correction } from '../../readers/correction'
import type { Problem } from '../../readers/input'

export const STEP_IDS = [
  'scans',
  'places',
  'check',
  'minerals',
  'indices',
  'classes',
  'surfaces',
  'traverse',
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
  const stations = results?.placement.stations.length ?? 0
  const doubted = results?.verdicts.filter(({ check }) => check !== 'sound').length ?? 0
  const sound = (results?.verdicts.length ?? 0) - doubted
  const underWay = results?.examined === false
  const checked = underWay ? 'under way' : `${sound.toLocaleString('en')} sound`
  const silent = results?.identifications.filter((found) => found?.minerals.length === 0) ?? []
  const { indices, classes, surfaces } = project.recipe
  const failed = results?.surfaces.filter(({ state }) => state === 'failed') ?? []
  return [
    step('scans', 'Scans', named(scans, 'scan'), scansWorry(files, project.recipe.layouts)),
    step('places', 'Places', named(stations, 'station'), placesWorry(results)),
    step('check', 'Check', checked, count(doubted, 'doubted')),
    step(
      'minerals',
      'Minerals',
      underWay ? 'under way' : named(mineralCount(results), 'mineral'),
      count(silent.length, 'silent'),
    ),
    step(
      'indices',
      'Indices',
      named(indices.length, 'index', 'indices'),
      broken(results, (part) => part !== 'when'),
    ),
    step(
      'classes',
      'Classes',
      named(classes.length, 'class', 'classes'),
      broken(results, (part) => part === 'when'),
    ),
    step('surfaces', 'Surfaces', named(surfaces.length, 'surface'), count(failed.length, 'failed')),
    step('traverse', 'Traverse', walkCount(project, results), walkWorry(results)),
    step('layers', 'Layers', 'for the GIS', ''),
  ]
}

function scansWorry(
  files: readonly SourceFile[],
  layouts: readonly Correction[] | undefined,
): string {
  const problems = files.reduce((sum, file) => sum + file.problems.length, 0)
  const misread = misreadFiles(files, layouts).length
  return listed(
    problems ? named(problems, 'problem') : '',
    count(misread, 'to\u00a0read\u00a0anew'),
  )
}

/** While a question is open, what waits for its answer is no worry of its own. */
function placesWorry(results: Results | null): string {
  if (results === null) return ''
  const { scans, questions, tables, problems, clocks, grouping } = results.placement
  const unclear = tables.filter(({ trouble }) => trouble !== null).length
  const isClockOff = clocks.some(({ better }) => better !== null)
  const unplaced = scans.filter(({ station }) => station === null).length
  return listed(
    count(unclear, unclear === 1 ? 'unclear\u00a0table' : 'unclear\u00a0tables'),
    isClockOff ? 'clock\u00a0off' : '',
    questions.length > 0
      ? named(questions.length, 'question')
      : listed(
          count(problems.filter(isFar).length, 'far\u00a0off'),
          count(unplaced, 'unplaced'),
          count(grouping.unsure.length, 'unsure'),
        ),
  )
}

/** How many formulas of some parts are not understood. */
function broken(
  results: Results | null,
  isMeant: (part: FormulaTrouble['part']) => boolean,
): string {
  return count(results?.troubles.filter(({ part }) => isMeant(part)).length ?? 0, 'to mend')
}

/** How many stops the walk has; the last plan's while a new one is made. */
function walkCount({ recipe }: Counted['project'], results: Results | null): string {
  if (!recipe.traverse) return 'no walk yet'
  const plan = results?.traverse?.plan
  if (plan) return named(plan.stops.length, 'stop')
  return results?.traverse?.state === 'failed' ? 'no stops' : 'under way'
}

function walkWorry(results: Results | null): string {
  const { state, plan } = results?.traverse ?? {}
  if (state === 'failed') return 'no walk fits'
  return count(plan?.unreached.length ?? 0, 'not\u00a0reached')
}

function listed(...words: readonly string[]): string {
  return words.filter(Boolean).join(', ')
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
