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
  const found = new Map<string, string>()
  for (const stranger of strangers) {
    const fitting = [...files].filter(
      (file) => endsWith(file, stranger) || endsWith(stranger, file),
    )
    if (fitting.length === 1) found.set(stranger, fitting[0])
  }
  if (found.size === 0) return decisions
  return {
    ...decisions,
    list: decisions.list.map((entry) => ({ ...entry, file: found.get(entry.file) ?? entry.file })),
  }
}

function endsWith(path: string, end: string): boolean {
  return path.endsWith(`/${end}`)
}
