/** What `--references` names: measured records, set files, or both. */
import { basename, posix, resolve } from 'node:path'
import type { Pool } from '../jobs/pool'
import type { References } from '../jobs/references'
import { describeInput, type ReportedInput } from '../layers/report'
import { loadBuiltInSet } from '../minerals/built-in'
import type { ReferenceSet } from '../minerals/reference'
import { recordsOf } from '../project/own-references'
import { NO_HOLDINGS } from '../project/project'
import { readSources, type InputSource } from '../project/reading'
import { isSetFile, readSetFile } from '../project/set-files'
import type { Problem } from '../readers/input'
import { spectrumOf } from '../spectra/scan-store'
import { ArgumentError } from './arguments'
import { filesAbove, findFiles } from './files'

export interface FoundReferences {
  readonly references: References
  /** The files that they were read from. */
  readonly inputs: readonly ReportedInput[]
  /** What was left out of them, and why. */
  readonly problems: readonly Problem[]
}

/**
 * The built-in set, or the records of a folder in its place.
 *
 * @throws ArgumentError where a set file is none, or nothing in the folder can be used
 */
export async function readReferences(folder: string | null, pool: Pool): Promise<FoundReferences> {
  if (folder === null) {
    return {
      references: { sets: [await loadBuiltInSet()], measured: [], off: [], ranges: {} },
      inputs: [],
      problems: [],
    }
  }
  const { sources: found, problems: unfound } = findFiles([folder])
  const { sets, files: setFiles } = await readSets(found)
  const sources = found.filter((source) => !isSetFile(source))
  const beside = () => filesAbove([folder])
  const { files, heads, scans } = await readSources(pool, sources, NO_HOLDINGS, { beside })
  const problems = [...unfound, ...files.flatMap((file) => file.problems)]
  if (heads.length + sets.length === 0) {
    const [first] = problems
    const why = first ? ` ${first.file}: ${first.problem}; ${first.done}.` : ''
    throw new ArgumentError(`The references ${folder} hold no spectra that can be read.${why}`)
  }
  const names = recordsOf(heads)
  const measured = heads.map((_, scan) => ({ ...spectrumOf(scans, scan), name: names[scan] }))
  const inputs = files.map(({ path, size, sha256, scanCount }) => ({
    file: path,
    kind: 'reference',
    bytes: size,
    sha256,
    scans: scanCount,
  }))
  return {
    references: { sets, measured, off: [], ranges: {} },
    inputs: [...setFiles, ...inputs],
    problems: problems.map((problem) => inFolder(folder, problem)),
  }
}

/** A problem told with the folder's name before the file's: scans may have a file called alike. */
function inFolder(folder: string, problem: Problem): Problem {
  return { ...problem, file: posix.join(basename(resolve(folder)), problem.file) }
}

/** The set files among the files, as the app saves them. */
async function readSets(
  sources: readonly InputSource[],
): Promise<{ sets: ReferenceSet[]; files: ReportedInput[] }> {
  const sets: ReferenceSet[] = []
  const files: ReportedInput[] = []
  for (const source of sources.filter(isSetFile)) {
    try {
      const { set, bytes } = await readSetFile(source)
      sets.push(set)
      files.push(describeInput(source.path, 'reference', bytes, set.references.length))
    } catch (error) {
      throw new ArgumentError(error instanceof Error ? error.message : String(error))
    }
  }
  return { sets, files }
}
