/** Header lines kept whole as keys and values. */

/**
 * A separator that has a letter before it and no `//` after it (so that addresses stay whole); the
 * wide colon is that of Chinese texts.
 */
const PAIR = /^([^:：=\t]{1,80}?)\s*(?::(?!\/\/)|：|=|\t)\s*(.*)$/su

const COMMENT_SIGN = /^\s*(?:##?|%|\/\/|;|!|')\s*/

/**
 * One header line as a key and its value: `key: value`, `key = value`, `key<TAB>value`, or two
 * cells of a comma or semicolon table. Comment signs before the key are dropped.
 *
 * @returns null where the line is neither
 */
export function pairOf(line: string, delimiter?: ',' | ';'): [key: string, value: string] | null {
  const text = line.replace(COMMENT_SIGN, '').trim()
  if (delimiter !== undefined) {
    const parts = text.split(delimiter).map(unquoted)
    while (parts.length > 2 && parts[parts.length - 1] === '') parts.pop()
    if (parts.length === 2 && /\p{L}/u.test(parts[0])) {
      return [parts[0].replace(/\s*[:=]$/, ''), parts[1]]
    }
  }
  const match = PAIR.exec(text)
  if (match === null || !/\p{L}/u.test(match[1])) return null
  return [unquoted(match[1]), unquoted(match[2].replace(/^[\t]+/, ''))]
}

function unquoted(text: string): string {
  const plain = text.trim()
  return plain.length > 1 && plain.startsWith('"') && plain.endsWith('"')
    ? plain.slice(1, -1).replaceAll('""', '"').trim()
    : plain
}

/** Collects metadata; a key that comes again gets ` 2`, so that nothing written is lost. */
export class MetadataCollector {
  private readonly pairs = new Map<string, string>()
  /** How often each key came. */
  private readonly times = new Map<string, number>()

  /** Keeps a pair; a key that came before with another value gets a number: `comment 2`. */
  add(key: string, value: string): void {
    const plain = key.trim().normalize('NFC')
    if (plain === '' || value === '') return
    let name = plain
    let again = this.times.get(plain) ?? 1
    if (this.pairs.get(again === 1 ? plain : `${plain} ${again}`) === value) return
    while (this.pairs.has(name)) name = `${plain} ${++again}`
    this.times.set(plain, again)
    this.pairs.set(name, value.trim().normalize('NFC'))
  }

  /** A header line: a pair, or free text under `title` or `note`. */
  addLine(line: string, delimiter?: ',' | ';'): void {
    const pair = pairOf(line, delimiter)
    if (pair !== null) this.add(pair[0], pair[1])
    else {
      const text = line.replace(COMMENT_SIGN, '').trim()
      if (text !== '') this.add(this.pairs.has('title') ? 'note' : 'title', text)
    }
  }

  /** All pairs in the order that they were found, as a plain object without a prototype's keys. */
  record(): Record<string, string> {
    return Object.fromEntries(this.pairs)
  }
}
