/** Names of samples and scans: how they are compared, ordered and found again when misspelt. */

/** A name as it stands: NFC, blanks at its ends dropped. */
export function exactName(name: string): string {
  return name.normalize('NFC').trim()
}

/** A name without the differences that people do not mean: case, and runs of blanks. */
export function foldedName(name: string): string {
  return exactName(name).toLowerCase().replace(/\s+/g, ' ')
}

/**
 * Endings that count repeated scans of one sample, the plainest first: `.003`, `(2)`, `_1`, `-a`,
 * `_rep2`, a letter after a digit (`AB012a`), and a run of four or five digits that instruments
 * append. Only one at a time; `stemsOf` strips again.
 */
const REPLICATE_ENDINGS: readonly RegExp[] = [
  /\.[A-Za-z]{1,4}$/,
  /\.\d{1,6}$/,
  /[\s_-]*\(\d{1,4}\)$/,
  /[\s_-]+(?:rep|r|scan|s|spot|m|dup|copy)[\s_-]*\d{0,4}$/i,
  /[\s_-]+\d{1,6}$/,
  /[\s_-]+[A-Za-z]$/,
  /(?<=\d)[A-Za-z]$/,
  /\d{4,5}$/,
]

/** Endings that can be nothing else, without a file's own and without those of a bare counter. */
const SURE_ENDINGS = REPLICATE_ENDINGS.slice(1, -2)

/** Longer names are no names of samples, and not worth stripping. */
const LONGEST = 200

/** The name with one to three replicate endings taken off, the longest stem first. */
export function stemsOf(name: string): string[] {
  const stems: string[] = []
  let level = name.length > LONGEST ? [] : [exactName(name)]
  for (let depth = 0; depth < 3; depth++) {
    const next: string[] = []
    for (const text of level) {
      for (const ending of REPLICATE_ENDINGS) {
        const stem = text.replace(ending, '').trim()
        if (stem !== '' && stem !== text && !stems.includes(stem)) {
          stems.push(stem)
          next.push(stem)
        }
      }
    }
    level = next
  }
  return stems
}

/**
 * The part of a scan's name that the scans of one spot share: without its first sure replicate
 * ending, or without an instrument's counter of four digits or more; empty where the name is nothing
 * but a counter.
 */
export function stemOf(name: string): string {
  const exact = exactName(name)
  if (exact.length > LONGEST) return exact
  for (const ending of SURE_ENDINGS) {
    const stem = exact.replace(ending, '').trim()
    if (stem !== '' && stem !== exact) return stem
  }
  return exact.replace(/\d{4,}$/, '')
}

/**
 * What the names of scans that were taken in a row share: a name without what counts them, however
 * few digits that has. It is less than a stem, for `AB011` and `AB012` may be two samples: only scans
 * that time and distance join too are of one spot. `C01_1` and `C02_1` are of two series.
 */
export function seriesOf(name: string): string {
  const exact = exactName(name)
  const stem = stemOf(exact)
  return stem === exact ? exact.replace(/(?<=\d)[A-Za-z]$|\d{1,3}$/, '') : stem
}

/** A name cut into runs of digits and runs of other signs, ready to be compared. */
export interface NaturalKey {
  readonly name: string
  readonly parts: readonly string[]
}

/** A name in the parts that `compareNatural` counts by: runs of digits without leading zeros, and text. */
export function naturalKey(name: string): NaturalKey {
  const parts = name.toLowerCase().match(/\d+|\D+/g) ?? []
  return { name, parts: parts.map((part) => part.replace(/^0+(?=\d)/, '')) }
}

/** Order as a person counts: digits by their number, then text by code unit. The same everywhere. */
export function compareNatural(a: NaturalKey, b: NaturalKey): number {
  const shared = Math.min(a.parts.length, b.parts.length)
  for (let i = 0; i < shared; i++) {
    const [x, y] = [a.parts[i], b.parts[i]]
    const byLength = isDigit(x) && isDigit(y) ? x.length - y.length : 0
    const order = byLength || plainCompare(x, y)
    if (order !== 0) return order
  }
  return a.parts.length - b.parts.length || plainCompare(a.name, b.name)
}

function isDigit(text: string): boolean {
  const code = text.charCodeAt(0)
  return code >= 48 && code <= 57
}

/** Order by code unit. */
function plainCompare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0
}

/** A name without blanks, hyphens, underscores, points and leading zeros. */
function bareName(folded: string): string {
  return folded.replace(/(?<!\d)0+(?=\d)/g, '').replace(/[\s_.-]+/g, '')
}

/**
 * Up to three names most like one that was not found: first those that differ in blanks, signs or
 * zeros alone, then by edit distance (Levenshtein 1966) over folded names, at most a third of its
 * length away (one sign for the shortest).
 */
export function nearestNames(name: string, known: readonly string[]): string[] {
  const wanted = foldedName(name).slice(0, 64)
  const bare = bareName(wanted)
  const limit = wanted.length < 4 ? 1 : Math.max(2, Math.floor(wanted.length / 3))
  const near: { name: string; distance: number }[] = []
  for (const candidate of known) {
    // Blanks and zeros may make up a few signs more than the limit; longer names are not folded.
    if (Math.abs(candidate.length - wanted.length) > limit + 4) continue
    const folded = foldedName(candidate).slice(0, 64)
    const isBareAlike = bare !== '' && bareName(folded) === bare
    const distance = isBareAlike ? 0 : editDistance(wanted, folded, limit)
    if (distance <= limit) near.push({ name: candidate, distance })
  }
  near.sort((a, b) => a.distance - b.distance || plainCompare(a.name, b.name))
  return near.slice(0, 3).map((found) => found.name)
}

/** Edit distance (Levenshtein 1966), or `limit + 1` as soon as it must exceed the limit. */
export function editDistance(a: string, b: string, limit: number): number {
  let row = Array.from({ length: b.length + 1 }, (_, i) => i)
  for (let i = 1; i <= a.length; i++) {
    const next = [i]
    let least = i
    for (let j = 1; j <= b.length; j++) {
      const swap = row[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1)
      next[j] = Math.min(swap, row[j] + 1, next[j - 1] + 1)
      least = Math.min(least, next[j])
    }
    if (least > limit) return limit + 1
    row = next
  }
  return row[b.length]
}
