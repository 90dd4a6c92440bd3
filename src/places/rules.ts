/** Which of the recipe's rules speaks of a file. */
import type { PlaceRule } from './station'

/**
 * The rule for a file: the one whose path fits and is the longest. A rule's file is a path from the
 * right (`samples.csv` fits `places/samples.csv`) or a folder that ends in a slash.
 */
export function ruleFor(file: string, rules: readonly PlaceRule[]): PlaceRule | null {
  const path = plainPath(file)
  let best: PlaceRule | null = null
  for (const rule of rules) {
    if (!fits(path, plainPath(rule.file))) continue
    if (best === null || rule.file.length > best.file.length) best = rule
  }
  return best
}

function fits(path: string, wanted: string): boolean {
  if (wanted === '') return false
  if (wanted.endsWith('/')) return `/${path}`.includes(`/${wanted}`)
  return path === wanted || path.endsWith(`/${wanted}`)
}

function plainPath(path: string): string {
  return path
    .normalize('NFC')
    .replaceAll('\\', '/')
    .replace(/^(\.?\/)+/, '')
}

/** A file's folder with its closing slash; empty at the top. */
export function folderOf(file: string): string {
  const path = plainPath(file)
  return path.slice(0, path.lastIndexOf('/') + 1)
}

/** A file's own name without its folders. */
export function baseName(file: string): string {
  const path = plainPath(file)
  return path.slice(path.lastIndexOf('/') + 1)
}
