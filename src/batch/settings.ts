/** The recipe and the decisions that a command line names. */
import { readFile, stat } from 'node:fs/promises'
import { describeInput, type ReportedInput } from '../layers/report'
import { chooseCrs, loadEpsgTable } from '../places/crs'
import {
  MAX_DECISIONS_BYTES,
  NO_DECISIONS,
  parseDecisions,
  type Decisions,
} from '../project/decisions'
import { RecipeError } from '../project/json-cursor'
import { MAX_RECIPE_BYTES, parseRecipe, type Recipe } from '../project/recipe'
import { startingRecipe } from '../project/starting-recipe'
import { ArgumentError, type Arguments } from './arguments'
import { systemWords } from './system-words'

export interface Settings {
  readonly recipe: Recipe
  readonly decisions: Decisions
  /** Those of the two that were given, with their digests. */
  readonly inputs: readonly ReportedInput[]
}

interface SettingsFile<T> {
  readonly kind: 'recipe' | 'decisions'
  /** The largest that is read, bytes. */
  readonly most: number
  readonly parse: (text: string) => T
}

const RECIPE: SettingsFile<Recipe> = { kind: 'recipe', most: MAX_RECIPE_BYTES, parse: parseRecipe }
const DECISIONS: SettingsFile<Decisions> = {
  kind: 'decisions',
  most: MAX_DECISIONS_BYTES,
  parse: parseDecisions,
}

/**
 * Reads both files; without a recipe the starting one, without decisions none.
 *
 * @throws ArgumentError that names the file, the place in it and what is wrong
 */
export async function readSettings(given: Arguments): Promise<Settings> {
  const inputs: ReportedInput[] = []
  const read = async <T>(path: string, file: SettingsFile<T>): Promise<T> => {
    const bytes = await boundedBytes(path, file)
    inputs.push(describeInput(file.kind, file.kind, bytes, 0))
    return parsed(path, file, bytes)
  }
  const recipe = given.recipe === null ? startingRecipe() : await read(given.recipe, RECIPE)
  await openWorkingCrs(recipe.crs, given.recipe ?? '')
  const decisions = given.decisions === null ? NO_DECISIONS : await read(given.decisions, DECISIONS)
  return { recipe, decisions, inputs }
}

async function boundedBytes(
  path: string,
  { kind, most }: Pick<SettingsFile<unknown>, 'kind' | 'most'>,
): Promise<Uint8Array> {
  try {
    const { size } = await stat(path)
    if (size <= most) return await readFile(path)
    const words = `${Math.round(size / 1e6)} MB; at most ${most / 1e6} MB are read`
    throw new ArgumentError(`The ${kind} ${path} has ${words}: is it the right file?`)
  } catch (error) {
    if (error instanceof ArgumentError) throw error
    throw new ArgumentError(`The ${kind} ${path} cannot be opened: ${systemWords(error)}.`)
  }
}

function parsed<T>(path: string, { kind, parse }: SettingsFile<T>, bytes: Uint8Array): T {
  try {
    return parse(new TextDecoder().decode(bytes))
  } catch (error) {
    if (!(error instanceof RecipeError)) throw error
    const where = error.path === '' ? ':' : ''
    const is = kind === 'decisions' ? 'are' : 'is'
    throw new ArgumentError(`The ${kind} ${path} ${is} wrong${where} ${error.message}.`)
  }
}

/** Refuses a working CRS that cannot be worked in, before anything is read. */
async function openWorkingCrs(setting: string, path: string): Promise<void> {
  if (setting === 'auto') return
  await loadEpsgTable()
  try {
    chooseCrs(setting, [])
  } catch (error) {
    throw new ArgumentError(`The recipe ${path} is wrong at crs: ${(error as Error).message}`)
  }
}
