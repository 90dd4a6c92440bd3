/** What files alike were taken for, in words. */
import type { Correction } from '../../readers/correction'
import type { Layout } from '../../readers/input'
import type { Alike } from '../../project/recipe-layouts'

export const REFLECTANCE_WORDS: Readonly<Record<Layout['reflectanceUnit'], string>> = {
  fraction: 'fraction, white is 1',
  percent: 'percent, white is 100',
  'per 10000': 'white is 10,000',
}

/** What the files of a group were read as: each kind once, the most frequent first. */
export function kindsOf<T>(group: Alike, of: (layout: Layout) => T): (readonly [T, number])[] {
  const counts = new Map<T, number>()
  for (const { layout } of group.files) {
    if (layout) counts.set(of(layout), (counts.get(of(layout)) ?? 0) + 1)
  }
  return [...counts].sort((a, b) => b[1] - a[1])
}

/** A group in a few words, such as `two columns, nm, percent`. */
export function groupWords(group: Alike, correction: Correction | undefined): string {
  const [name] = kindsOf(group, (layout) => layout.name)[0] ?? [group.like.split(';')[0]]
  const unit = kindsOf(group, ({ wavelengthUnit }) => wavelengthUnit)[0]?.[0]
  const scale = kindsOf(group, ({ reflectanceUnit }) => reflectanceUnit)[0]?.[0]
  const words = [name, unit, scale, correction ? 'corrected' : undefined]
  return words.filter((word) => word !== undefined).join(', ')
}

/**
 * The worry that files alike were read as different units, which one instrument seldom writes; empty
 * where they agree.
 */
export function disagreement(group: Alike): string {
  const scales = kindsOf(group, ({ reflectanceUnit }) => reflectanceUnit)
  const units = kindsOf(group, ({ wavelengthUnit }) => wavelengthUnit)
  const kinds = scales.length > 1 ? scales : units
  if (kinds.length < 2) return ''
  const parts = kinds.map(([kind, count]) => `${count} as ${kind}`).join(', ')
  return `Of these files ${parts}. If all are of one kind, choose it below.`
}
