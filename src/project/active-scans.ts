/** Which of a project's scans count. */
import type { Problem } from '../readers/input'
import { findCutShort } from './cut-short'
import type { Holdings, Project, ScanHead } from './project'

/** The scans that count, as lists of the same length. */
export interface Active {
  readonly numbers: Int32Array
  readonly heads: readonly ScanHead[]
  /** Scans that were left out because their file breaks off. */
  readonly cutShort: readonly Problem[]
}

/** Scans of files that are in the project, not hidden, and whole. */
export function activeScans(holdings: Holdings, project: Project): Active {
  const hidden = new Set(project.hidden)
  const numbers: number[] = []
  for (const { path, firstScan, scanCount } of holdings.files) {
    if (hidden.has(path)) continue
    for (let scan = firstScan; scan < firstScan + scanCount; scan++) numbers.push(scan)
  }
  const cutShort = findCutShort(holdings, numbers)
  const whole = numbers.filter((scan) => !cutShort.scans.has(scan))
  return {
    numbers: Int32Array.from(whole),
    heads: whole.map((scan) => holdings.heads[scan]),
    cutShort: cutShort.problems,
  }
}

/** Tables or tracks of files that are not hidden. */
export function shown<T extends { readonly file: string }>(
  list: readonly T[],
  { hidden }: Pick<Project, 'hidden'>,
): T[] {
  const away = new Set(hidden)
  return list.filter(({ file }) => !away.has(file))
}
