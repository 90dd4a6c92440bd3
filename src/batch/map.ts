/** The command `map`: from files on disk to the layers, without a screen. */
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import type { Pool } from '../jobs/pool'
import { planLayers } from '../layers/export-all'
import { Activities } from '../project/activity'
import { Chain } from '../project/chain'
import { layersInput } from '../project/layers-input'
import { emptyProject, NO_HOLDINGS } from '../project/project'
import { readSources } from '../project/reading'
import type { Results } from '../project/results'
import { traverseSentence } from '../project/traverse-words'
import { troubleWords } from '../project/trouble-words'
import {
  ArgumentError,
  asksForHelp,
  HELP,
  parseArguments,
  USAGE,
  type Arguments,
} from './arguments'
import { filesAbove, findFiles } from './files'
import { earlierLayers, makeLayersFolder, WriteError, writeLayers } from './layers-folder'
import { startNodePool } from './node-pool'
import { recipeInFolders } from './recipe-in-folders'
import { readReferences } from './references'
import { readSettings } from './settings'

/** Something was read. */
const READ = 0
/** Nothing but its usage was asked for. */
const HELPED = 0
/** Nothing could be read. */
const NOTHING_READ = 2
/** The command line is wrong (EX_USAGE of BSD's sysexits). */
const WRONG_WORDS = 64
/** The layers could not be written (EX_IOERR of BSD's sysexits). */
const NOT_WRITTEN = 74

/** Names of earlier layers that are told; of more, their number. */
const MOST_TOLD = 5

/** Runs the command. @returns its exit code */
export async function main(words: readonly string[]): Promise<number> {
  if (asksForHelp(words)) {
    console.log(HELP)
    return HELPED
  }
  let given: Arguments
  try {
    given = parseArguments(words)
  } catch (error) {
    if (!(error instanceof ArgumentError)) throw error
    console.error(`${error.message}\n${USAGE}\n--help tells more.`)
    return WRONG_WORDS
  }
  const pool = startNodePool(given.threads ?? availableParallelism())
  try {
    return await mapFiles(given, pool)
  } catch (error) {
    if (!(error instanceof ArgumentError || error instanceof WriteError)) throw error
    console.error(error.message)
    return error instanceof WriteError ? NOT_WRITTEN : WRONG_WORDS
  } finally {
    pool.close()
  }
}

async function mapFiles(given: Arguments, pool: Pool): Promise<number> {
  const settings = await readSettings(given)
  await makeLayersFolder(given.out)
  const earlier = await earlierLayers(given.out)
  const against = await readReferences(given.references, pool)
  // What an earlier run wrote is no input.
  const written = [given.out, ...earlier.map((name) => join(given.out, name))]
  const found = findFiles([...given.scans, ...given.places], written)
  const holdings = await readSources(pool, found.sources, NO_HOLDINGS, {
    beside: () => filesAbove(given.scans),
    corrections: settings.recipe.layouts,
  })
  const recipe = recipeInFolders(settings.recipe, found.sources)
  const project = { ...emptyProject('command line', recipe), decisions: settings.decisions }
  const results = await new Chain(pool, against.references).run(project, holdings, {
    activities: new Activities(() => undefined),
    controller: new AbortController(),
    publish: () => undefined,
  })
  const problems = [...found.problems, ...against.problems, ...results.problems]
  const all = { ...results, problems }
  const inputs = [...against.inputs, ...settings.inputs]
  const planned = planLayers(layersInput(project, holdings, all, inputs))
  await writeLayers(given.out, planned)
  tell(all, given.out)
  tellOfEarlier(earlier, planned)
  if (holdings.heads.length > 0 || holdings.tables.length > 0) return READ
  tellThatNothingWasRead(all)
  return NOTHING_READ
}

function tell(results: Results, out: string): void {
  const { placement, verdicts, problems, surfaces, traverse } = results
  const unplaced = placement.scans.filter(({ station }) => station === null).length
  const doubted = verdicts.filter(({ check }) => check !== 'sound').length
  console.log(
    `${counted(verdicts.length, 'scan')} (${unplaced} unplaced, ${doubted} doubted), ` +
      `${counted(placement.stations.length, 'station')}, ${counted(problems.length, 'problem')}. ` +
      `Layers are in ${out}.`,
  )
  for (const trouble of results.troubles) console.error(troubleWords(trouble))
  for (const { rule, state, failure, sentence } of surfaces) {
    console.log(`${rule.name}: ${state === 'ready' ? sentence : `not drawn. ${failure ?? ''}`}`)
  }
  if (traverse) console.log(`Traverse: ${traverseSentence(traverse)}`)
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`
}

/** Layers of an earlier run that this one did not write anew would be taken for its own. */
function tellOfEarlier(earlier: readonly string[], planned: readonly { file: string }[]): void {
  const now = new Set(planned.map(({ file }) => file.toLowerCase()))
  const left = earlier.filter((name) => !now.has(name.toLowerCase()))
  if (left.length === 0) return
  const more = left.length > MOST_TOLD ? ` and ${left.length - MOST_TOLD} more` : ''
  const names = left.slice(0, MOST_TOLD).join(', ') + more
  console.error(`Of an earlier run, not written anew and left as they are: ${names}.`)
}

function tellThatNothingWasRead({ problems: [first] }: Results): void {
  console.error(
    first
      ? `Nothing could be read. ${first.file}: ${first.problem}; ${first.done}. See problems.csv.`
      : 'Nothing could be read.',
  )
}
