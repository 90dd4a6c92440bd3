/** Names with `*` for anything in them. */

/**
 * Whether a name is as the pattern says, letter case aside. Time grows with the lengths'
 * product at most: a pattern may come out of a file.
 */
export function matchesPattern(pattern: string, name: string): boolean {
  const [p, text] = [pattern.trim().toLowerCase(), name.trim().toLowerCase()]
  let at = 0
  let to = 0
  let star = -1
  let tried = 0
  while (to < text.length) {
    if (p[at] === '*') {
      star = at++
      tried = to
    } else if (at < p.length && p[at] === text[to]) {
      at++
      to++
    } else if (star >= 0) {
      at = star + 1
      to = ++tried
    } else return false
  }
  while (p[at] === '*') at++
  return at === p.length
}
