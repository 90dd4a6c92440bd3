/** Words and fields of the Places step about how scans became stations. */
import {
  GROUPING_BOUNDS,
  groupingFault,
  groupingOf,
  USUAL_GROUPING,
  type Grouping,
  type GroupingChoice,
} from '../../places/grouping'
import type { GroupingReport } from '../../places/grouped'
import type { GroupedBy } from '../../places/station'

type Limit = keyof typeof GROUPING_BOUNDS

const BY_WORDS: Readonly<Record<GroupedBy, string>> = {
  name: 'by the sample’s name, or hole and depth',
  time: 'by time and distance',
  likeness: 'by likeness of names and distance',
  hand: 'by hand',
}

const LIMIT_WORDS: Readonly<Record<Limit, readonly [words: string, unit: string]>> = {
  gap_s: ['Longest gap between scans of a burst', 's'],
  pause_s: ['A longer pause begins another station', 's'],
  near_m: ['Like names are one spot within', 'm'],
  widest_m: ['No station is wider than', 'm'],
}

/** Stations by what joined their scans, in words; none that there are none of. */
export function countRows({ counts, single }: GroupingReport): [words: string, count: number][] {
  const rows = (['name', 'time', 'likeness', 'hand'] as const).map((means): [string, number] => [
    BY_WORDS[means],
    counts[means],
  ])
  return [...rows, ['of one scan' as string, single] as [string, number]].filter(
    ([, count]) => count > 0,
  )
}

/** A limit as a field. */
export interface GroupingField {
  readonly name: Limit
  readonly words: string
  readonly unit: string
  /** Undefined where it is as usual, so that the field stands empty. */
  readonly value: number | undefined
  readonly usual: number
  readonly low: number
  readonly high: number
}

/** The fields of a choice of limits. */
export function groupingFields(choice: GroupingChoice | undefined): GroupingField[] {
  return (Object.keys(GROUPING_BOUNDS) as Limit[]).map((name) => {
    const [low, high] = GROUPING_BOUNDS[name]
    const [words, unit] = LIMIT_WORDS[name]
    const usual = USUAL_GROUPING[name]
    return { name, words, unit, value: choice?.[name], usual, low, high }
  })
}

/**
 * A choice with one member changed; what is as usual is left out, and nothing is left of a choice
 * that says nothing.
 *
 * @param value null for the usual one
 * @returns the choice, or what is wrong with it in words for the screen
 */
export function withGrouping<Key extends keyof Grouping>(
  choice: GroupingChoice | undefined,
  key: Key,
  value: Grouping[Key] | null,
): { readonly choice: GroupingChoice | undefined } | { readonly wrong: string } {
  const changed = { ...choice, [key]: value ?? USUAL_GROUPING[key] }
  const said = Object.fromEntries(
    Object.entries(changed).filter(([name, set]) => set !== USUAL_GROUPING[name as keyof Grouping]),
  ) as GroupingChoice
  if (groupingFault(said) !== null) return { wrong: faultWords(said) }
  return { choice: Object.keys(said).length === 0 ? undefined : said }
}

function faultWords(choice: GroupingChoice): string {
  const { near_m, widest_m, gap_s, pause_s } = groupingOf(choice)
  return near_m > widest_m
    ? `One spot reaches ${near_m} m, and no station may be wider than ${widest_m} m: set the first lower or the second higher.`
    : `A gap within a burst of ${gap_s} s would be longer than a pause of ${pause_s} s: set the first lower or the second higher.`
}
