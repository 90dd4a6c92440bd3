/**
 * Finds the files that decisions speak of. A path begins with the dropped folder in the window and
 * inside the named folder on the command line, so the same file may be known by a longer or a
 * shorter path than when the decision was made.
 */
import type { Decisions } from './decisions'

/**
 * The decisions with their files as they are called here. A file that is not here is taken to be
 * the only one whose path ends with it, or that it ends with, folder by folder; where none or
 * several fit it stays as it is, and is told of as unknown.
 */
export function withFilesFound(decisions: Decisions, files: ReadonlySet<string>): Decisions {
  const strangers = new Set(
    decisions.list.map(({ file }) => file).filter((file) => !files.has(file)),
  )
  if (strangers.size === 0) return decisions
  const fitting = new Map<string, string[]>()
  const fits = (stranger: string, file: string) => {
    const list = fitting.get(stranger)
    if (list) list.push(file)
    else fitting.set(stranger, [file])
  }
  // Each path is looked at once: thousands of strangers among thousands of files would take long.
  for (const file of files) {
    for (const end of endsOf(file)) if (strangers.has(end)) fits(end, file)
  }
  for (const stranger of strangers) {
    for (const end of endsOf(stranger)) if (files.has(end)) fits(stranger, end)
  }
  if (fitting.size === 0) return decisions
  const nameHere = (file: string) => {
    const fit = fitting.get(file)
    return fit?.length === 1 ? fit[0] : file
  }
  return {
    ...decisions,
    list: decisions.list.map((entry) => ({ ...entry, file: nameHere(entry.file) })),
  }
}

/** Folders that a path is followed up through; no walk goes deeper. */
const DEEPEST = 100

/** A path without its first folder, without its first two, and so on; the shortest first. */
function endsOf(path: string): string[] {
  const ends: string[] = []
  let slash = path.lastIndexOf('/')
  while (slash >= 0 && ends.length < DEEPEST) {
    ends.push(path.slice(slash + 1))
    slash = slash === 0 ? -1 : path.lastIndexOf('/', slash - 1)
  }
  return ends
}
