/** Names that every file system takes, the same on each. */

/** Longest name in UTF-8 bytes, before the extension. */
const LONGEST = 80
/** What is neither letter (with its marks), digit, hyphen, low line nor blank. */
const FORBIDDEN = /(?<!\p{L}\p{M}*)\p{M}|[^\p{L}\p{M}\p{Nd}_ -]/gu
/** Device names that Windows keeps for itself, whatever the extension. */
const DEVICE = /^(con|prn|aux|nul|com\d|lpt\d) *$/i

/**
 * File names without extension for a list of names, in the same order.
 *
 * NFC; anything but letters, digits, `-`, `_` and blank becomes `_`; at most 80 bytes of UTF-8,
 * cut between characters; a name that is taken, case ignored, gets ` 2`, ` 3` and so on within
 * the same 80 bytes. Device names and empty names get a low line.
 *
 * @param taken names that are spoken for already
 */
export function fileNames(names: readonly string[], taken: readonly string[] = []): string[] {
  const used = new Set(taken.map(ignoringCase))
  return names.map((name) => {
    const plain = plainName(name)
    let free = plain
    for (let n = 2; used.has(ignoringCase(free)); n++) {
      const suffix = ` ${n}`
      free = cut(plain, LONGEST - suffix.length) + suffix
    }
    used.add(ignoringCase(free))
    return free
  })
}

/** One name, clashes aside. */
export function plainName(name: string): string {
  const allowed = name.normalize('NFC').replace(FORBIDDEN, '_')
  const plain = cut(allowed, LONGEST)
  if (plain.trim() === '') return '_'
  return DEVICE.test(plain) ? `${plain.trimEnd()}_` : plain
}

/** The longest start of a text that fits in so many UTF-8 bytes, cut between characters. */
function cut(text: string, bytes: number): string {
  const encoder = new TextEncoder()
  let length = 0
  let kept = ''
  for (const character of text) {
    length += encoder.encode(character).length
    if (length > bytes) break
    kept += character
  }
  return kept
}

/** Upper-casing folds more than lower-casing does (ß, ﬁ), so a clash on any file system is seen. */
function ignoringCase(name: string): string {
  return name.toLowerCase().toUpperCase().normalize('NFC')
}
