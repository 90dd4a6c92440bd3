/** The command `map`: from files on disk to the layers, without a screen. */
import { mkdir, readFile, stat, writeFile } from 'node:fs/promises'
import { availableParallelism } from 'node:os'
import { dirname, join } from 'node:path'
import type { Pool } from '../jobs/pool'
import { planLayers } from '../layers/export-all'
import type { LayersInput } from '../layers/export-input'
import { describeInput, type ReportedInput } from '../layers/report'
import { chooseCrs, loadEpsgTable } from '../places/crs'
import { Activities } from '../project/activity'
import { Chain } from '../project/chain'
import {
  MAX_DECISIONS_BYTES,
  NO_DECISIONS,
  parseDecisions,
  type Decisions,
} from '../project/decisions'
import { RecipeError } from '../project/json-cursor'
import { layersInput } from '../project/layers-input'
import { emptyProject, NO_HOLDINGS } from '../project/project'
import { readSources } from '../project/reading'
import { MAX_RECIPE_BYTES, parseRecipe, type Recipe } from '../project/recipe'
import type { Results } from '../project/results'
import { troubleWords } from '../project/trouble-words'
import { startingRecipe } from '../project/starting-recipe'
import { ArgumentError, parseArguments, USAGE, type Arguments } from './arguments'
import { filesAbove, findFiles } from './files'
import { startNodePool } from './node-pool'
import { recipeInFolders } from './recipe-in-folders'
import { readReferences } from './references'

/** Something was read. */
const READ = 0
/** Nothing but its usage was asked for. */
const HELPED = 0
/** Nothing could be read. */
const NOTHING_READ = 2
/** The command line is wrong (EX_USAGE of BSD's sysexits). */
const WRONG_WORDS = 64

/** Runs the command. @returns its exit code */
export async function main(words: readonly string[]): Promise<number> {
  if (words.includes('--help')) {
    console.log(USAGE)
    return HELPED
  }
  let given: Arguments
  try {
    given = parseArguments(words)
  } catch (error) {
    if (!(error instanceof ArgumentError)) throw error
    console.error(`${error.message}\n${USAGE}`)
    return WRONG_WORDS
  }
  const pool = startNodePool(given.threads ?? availableParallelism())
  try {
    return await mapFiles(given, pool)
  } catch (error) {
    if (!(error instanceof RecipeError)) throw error
    console.error(error.message)
    return WRONG_WORDS
  } finally {
    pool.close()
  }
}

interface Settings {
  readonly recipe: Recipe
  readonly decisions: Decisions
  readonly inputs: readonly ReportedInput[]
}

async function mapFiles(given: Arguments, pool: Pool): Promise<number> {
  const settings = await readSettings(given)
  await makeFolder(given.out)
  const { references, inputs } = await readReferences(given.references, pool)
  const found = findFiles([...given.scans, ...given.places], given.out)
  const holdings = await readSources(pool, found.sources, NO_HOLDINGS, {
    beside: () => filesAbove(given.scans),
    corrections: settings.recipe.layouts,
  })
  const recipe = recipeInFolders(settings.recipe, found.sources)
  const project = {
    ...emptyProject('command line', recipe),
    decisions: settings.decisions,
  }
  const results = await new Chain(pool, references).run(project, holdings, {
    activities: new Activities(() => undefined),
    controller: new AbortController(),
    publish: () => undefined,
  })
  const all = { ...results, problems: [...found.problems, ...results.problems] }
  await writeLayers(given.out, layersInput(project, holdings, all, [...inputs, ...settings.inputs]))
  tell(all, given.out)
  const read = holdings.heads.length > 0 || holdings.tables.length > 0
  if (read) return READ
  const [first] = all.problems
  console.error(
    first
      ? `Nothing could be read. ${first.file}: ${first.problem}; ${first.done}. See problems.csv.`
      : 'Nothing could be read.',
  )
  return NOTHING_READ
}

async function readSettings(given: Arguments): Promise<Settings> {
  const inputs: ReportedInput[] = []
  const read = async <T>(
    path: string | null,
    kind: string,
    parse: (text: string) => T,
    most: number,
    fallback: T,
  ): Promise<T> => {
    if (path === null) return fallback
    let bytes: Buffer
    try {
      const { size } = await stat(path)
      if (size > most) {
        const words = `${Math.round(size / 1e6)} MB; at most ${most / 1e6} MB are read`
        throw new RecipeError('', `the ${kind} ${path} has ${words}: is it the right file?`)
      }
      bytes = await readFile(path)
    } catch (error) {
      if (error instanceof RecipeError) throw error
      const why = (error as NodeJS.ErrnoException).code ?? String(error)
      throw new RecipeError('', `the ${kind} ${path} cannot be opened: ${why}`)
    }
    inputs.push(describeInput(kind, kind, bytes, 0))
    try {
      return parse(bytes.toString('utf8'))
    } catch (error) {
      if (error instanceof RecipeError) {
        const where = error.path === '' ? ': ' : ' '
        throw new RecipeError('', `The ${kind} ${path} is wrong${where}${error.message}.`)
      }
      throw error
    }
  }
  const recipe = await read(given.recipe, 'recipe', parseRecipe, MAX_RECIPE_BYTES, startingRecipe())
  await openWorkingCrs(recipe.crs, given.recipe ?? '')
  const decisions = await read(
    given.decisions,
    'decisions',
    parseDecisions,
    MAX_DECISIONS_BYTES,
    NO_DECISIONS,
  )
  return { recipe, decisions, inputs }
}

/** Refuses a working CRS that cannot be worked in, before anything is read. */
async function openWorkingCrs(setting: string, path: string): Promise<void> {
  if (setting === 'auto') return
  await loadEpsgTable()
  try {
    chooseCrs(setting, [])
  } catch (error) {
    throw new RecipeError('', `The recipe ${path} is wrong at crs: ${(error as Error).message}`)
  }
}

async function makeFolder(out: string): Promise<void> {
  try {
    await makeFolders(out)
  } catch (error) {
    const why = (error as NodeJS.ErrnoException).code ?? String(error)
    throw new RecipeError('', `The folder ${out} of --out cannot be made: ${why}`)
  }
}

/**
 * A folder with those above it, one at a time: Node's own recursive way never ends where a system
 * refuses a folder as though one above it were missing.
 */
async function makeFolders(path: string): Promise<void> {
  try {
    await mkdir(path)
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    if (code === 'EEXIST' && (await stat(path)).isDirectory()) return
    if (code !== 'ENOENT' || dirname(path) === path) throw error
    await makeFolders(dirname(path))
    await mkdir(path)
  }
}

async function writeLayers(out: string, input: LayersInput): Promise<void> {
  for (const { file, write } of planLayers(input)) await writeFile(join(out, file), write())
}

function tell(results: Results, out: string): void {
  const { placement, verdicts, problems, surfaces } = results
  const unplaced = placement.scans.filter(({ station }) => station === null).length
  const doubted = verdicts.filter(({ check }) => check !== 'sound').length
  console.log(
    `${verdicts.length} scans (${unplaced} unplaced, ${doubted} doubted), ` +
      `${placement.stations.length} stations, ${problems.length} problems. Layers are in ${out}.`,
  )
  for (const trouble of results.troubles) console.error(troubleWords(trouble))
  for (const { rule, state, failure, sentence } of surfaces) {
    console.log(`${rule.name}: ${state === 'ready' ? sentence : `not drawn. ${failure ?? ''}`}`)
  }
}
