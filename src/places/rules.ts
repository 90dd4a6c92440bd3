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

/**
 * The rules after a change to what holds for one file. What the rule that fitted it says is kept; a
 * rule for a folder or for a shorter path stays beside it for the other files.
 *
 * @param change keys to set; undefined takes a key out
 */
export function withRuleChanged(
  rules: readonly PlaceRule[],
  file: string,
  change: Omit<Partial<PlaceRule>, 'file'>,
): PlaceRule[] {
  const old = ruleFor(file, rules)
  const own = old !== null && plainPath(old.file) === plainPath(file)
  const joined = { ...old, ...change, file: own ? old.file : file }
  const said = Object.entries(joined).filter(([, value]) => value !== undefined)
  const next = Object.fromEntries(said) as unknown as PlaceRule
  if (!own) return [...rules, next]
  // An entry that says nothing is none.
  return rules.flatMap((rule) => (rule !== old ? [rule] : said.length > 1 ? [next] : []))
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
