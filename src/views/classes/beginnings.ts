/** What a new class or index can begin from, so that nobody has to write a formula first. */
import type { Station } from '../../places/station'
import { RECORD_PARTS, SEEN_COLUMN } from '../../project/record-parts'
import type { Cells } from '../../project/station-cells'

/** A class to begin with: its name and rule. */
export interface Beginning {
  readonly name: string
  readonly when: string
}

/** Texts that repeat, such as a lithology; more of them are names or remarks. */
const MOST_TEXTS = 12

/** A text of the formula language: in double quotes, with its own escaped. */
export function quotedText(text: string): string {
  return `"${text.replaceAll('\\', '\\\\').replaceAll('"', '\\"')}"`
}

/** An index by its name. */
function byName(name: string): string {
  return `[${name.replaceAll(']', ']]')}]`
}

/** A class of a mineral group: with at least 0.3 of the share, as the starting classes have it. */
export function ofGroup(group: string): Beginning {
  return { name: group, when: `group(${quotedText(group)}) >= 0.3` }
}

/** A class of an index: from the stations' median up. */
export function ofIndex(name: string, values: readonly number[]): Beginning {
  return { name: `high ${name}`, when: `${byName(name)} >= ${middle(values)}` }
}

/** Headings of the stations' columns that hold numbers, with these; text beside them is left out. */
export function numberColumns(stations: readonly Station[]): Map<string, number[]> {
  const found = new Map<string, number[]>()
  for (const { columns } of stations) {
    for (const [heading, cell] of Object.entries(columns)) {
      if (typeof cell !== 'number') continue
      const list = found.get(heading)
      if (list) list.push(cell)
      else found.set(heading, [cell])
    }
  }
  return found
}

/** A class of a column's numbers, from the median up. */
export function ofNumbers(heading: string, values: readonly number[]): Beginning {
  return {
    name: `high ${heading}`,
    when: `column(${quotedText(heading)}) >= ${middle(values)}`,
  }
}

/** A class for each text that repeats in a column, such as a lithology, in their order. */
export function ofTexts(stations: readonly Station[]): Beginning[] {
  const found = new Map<string, Map<string, number>>()
  for (const { columns } of stations) {
    for (const [heading, cell] of Object.entries(columns)) {
      if (typeof cell !== 'string' || cell === '') continue
      const counts = found.get(heading) ?? new Map<string, number>()
      found.set(heading, counts.set(cell, (counts.get(cell) ?? 0) + 1))
    }
  }
  const numbers = numberColumns(stations)
  return [...found].flatMap(([heading, counts]) => {
    // Beside numbers, texts such as `<5` are values too.
    if (numbers.has(heading)) return []
    if (counts.size > MOST_TEXTS || [...counts.values()].every((count) => count < 2)) return []
    return [...counts.keys()].sort().map((text) => ({
      name: text,
      when: `column(${quotedText(heading)}) = ${quotedText(text)}`,
    }))
  })
}

/** Parts of the record that are no words to class by. */
const NO_CLASS: readonly string[] = ['sample_ticket', 'note']

/** Angles of the record, as columns. */
const ANGLES = ['dip', 'plunge', 'alpha'] as const

/** A class for each answer that was recorded at a station: a word, a mineral seen or not, an angle. */
export function ofRecords(stations: readonly Cells[]): Beginning[] {
  const found = new Map<string, Beginning>()
  for (const cells of stations) {
    for (const [column, cell] of Object.entries(cells)) {
      if (typeof cell !== 'string') continue
      const isWord = RECORD_PARTS.some((part) => part === column) && !NO_CLASS.includes(column)
      if (!isWord && !column.startsWith(SEEN_COLUMN)) continue
      const when = `column(${quotedText(column)}) = ${quotedText(cell)}`
      found.set(when, {
        name: isWord ? `${column.replaceAll('_', ' ')}: ${cell}` : seenWords(column, cell),
        when,
      })
    }
  }
  const angles = ANGLES.flatMap((angle) => {
    const values = stations.flatMap((cells) => {
      const value = cells[angle]
      return typeof value === 'number' ? [value] : []
    })
    return values.length > 0 ? [ofNumbers(angle, values)] : []
  })
  const byName = (a: Beginning, b: Beginning) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0)
  return [...[...found.values()].sort(byName), ...angles]
}

/** `quartz seen`, or `no quartz seen`. */
function seenWords(column: string, cell: string): string {
  const mineral = column.slice(SEEN_COLUMN.length)
  return cell === 'yes' ? `${mineral} seen` : `no ${mineral} seen`
}

/** A column's unit where its heading ends in one, such as `Cu_ppm` or `Au (ppb)`; else empty. */
export function unitOf(heading: string): string {
  const found = /[\s_(]\(?(ppm|ppb|ppt|pct|%|wt%|g\/t)\)?$/i.exec(heading)?.[1] ?? ''
  return found.toLowerCase() === 'pct' ? '%' : found
}

/** The median to four digits; 0 where there is no value. */
function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted.length === 0 ? 0 : Number(sorted[sorted.length >> 1].toPrecision(5))
}
