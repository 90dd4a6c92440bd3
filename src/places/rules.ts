/** Which of the recipe's rules speaks of a file. */
import type { PlaceRule } from './station'

/** What a rule that speaks of every file has for one. */
export const ALL_FILES = './'

/**
 * The rule for a file: the one whose path fits and is the longest. A rule's file is a path from the
 * right (`samples.csv` fits `places/samples.csv`), a folder that ends in a slash, or all files.
 */
export function ruleFor(file: string, rules: readonly PlaceRule[]): PlaceRule | null {
  let best: PlaceRule | null = null
  for (const rule of rules) {
    if (!fits(file, rule.file)) continue
    if (best === null || rule.file.length > best.file.length) best = rule
  }
  return best
}

/**
 * The rules after a change to what holds for one file. What the rule that fitted it says is kept; a
 * rule for a folder, or for other files as well, stays beside it for those.
 *
 * @param change keys to set; undefined takes a key out
 * @param files the project's other files, which the change shall not touch
 */
export function withRuleChanged(
  rules: readonly PlaceRule[],
  file: string,
  change: Omit<Partial<PlaceRule>, 'file'>,
  files: readonly string[] = [],
): PlaceRule[] {
  const old = ruleFor(file, rules)
  const isExact = old !== null && plainPath(old.file) === plainPath(file)
  const isForOthers = () =>
    old?.file.endsWith('/') ||
    files.some((other) => other !== file && ruleFor(other, rules) === old)
  const isShared = old === null || (!isExact && isForOthers())
  const joined = { ...old, ...change, file: isShared ? file : old.file }
  const said = Object.entries(joined).filter(([, value]) => value !== undefined)
  const next = Object.fromEntries(said) as unknown as PlaceRule
  if (isShared) return [...rules, next]
  // An entry that says nothing is none.
  return rules.flatMap((rule) => (rule !== old ? [rule] : said.length > 1 ? [next] : []))
}

/** Whether a rule's file means a path. */
export function fits(file: string, ruleFile: string): boolean {
  if (ruleFile === ALL_FILES) return true
  const path = plainPath(file)
  const wanted = plainPath(ruleFile)
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
