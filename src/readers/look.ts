/** By what files of one instrument and export are known: its layout, never its values or its name. */
import {
  isChannelHeading,
  isDarkHeading,
  isPanelHeading,
  isReflectanceHeading,
  isSpotHeading,
  isSpreadHeading,
  isWavelengthHeading,
} from './headings'
import type { Look } from './input'
import { short } from './units'

/** Longer lists of columns are cut: nobody chooses among so many. */
const MOST_COLUMNS = 60
const LONGEST_LIKE = 400

/** A look without a choice of columns. `parts` are joined as they stand. */
export function lookOf(parts: readonly string[], columns: readonly string[] = []): Look {
  const like = parts.filter((part) => part !== '').join('; ')
  return { like: like.slice(0, LONGEST_LIKE), columns: columns.slice(0, MOST_COLUMNS) }
}

/** An axis as its file writes it: how many channels, from where to where. */
export function axisWords(axis: Float64Array): string {
  if (axis.length === 0) return 'no channels'
  const [first, last] = [axis[0], axis[axis.length - 1]]
  if (Number.isNaN(first) || Number.isNaN(last)) return `${axis.length} rows`
  return `${axis.length} from ${short(first)} to ${short(last)}`
}

/**
 * Headings without what differs from scan to scan: numbers become `#`, and a heading that names no
 * part of a table becomes `*`, for it may be the scan's name.
 */
export function headingPattern(headings: readonly string[] | null): string {
  if (headings === null) return ''
  const parts = headings.map((heading) =>
    KNOWN.some((is) => is(heading)) ? heading.replace(/\d+/g, '#') : '*',
  )
  return parts.filter((part, i) => i === 0 || part !== parts[i - 1]).join(' | ')
}

const KNOWN = [
  isWavelengthHeading,
  isReflectanceHeading,
  isPanelHeading,
  isSpotHeading,
  isDarkHeading,
  isSpreadHeading,
  isChannelHeading,
]

/** Each column's heading, or `column n` where it has none or shares it with one before it. */
export function columnNames(headings: readonly string[] | null, columns: number): string[] {
  const names: string[] = []
  for (let column = 0; column < columns; column++) {
    const heading = headings?.[column] ?? ''
    const isOwn = heading !== '' && !names.includes(heading)
    names.push(isOwn ? heading : `column ${column + 1}`)
  }
  return names
}
