/** Editing many scans at once: which are found, what they hold, what decision sets it. */
import { scanKey, type DecisionAbout, type Decisions } from '../../project/decisions'
import { fieldNameFault } from '../../project/field-names'
import type { ScanHead } from '../../project/project'
import { HAND_FIELDS, handFieldFault, handFieldText, isHandField } from '../../project/hand-fields'
import type { Placement } from '../../places/place-scans'
import { SUPPORTS, TARGETS } from '../../places/station'

/** Fields that can be set besides the users' own. */
export const EDITABLE: readonly string[] = [
  'sample',
  'station',
  'support',
  'target',
  ...HAND_FIELDS.filter((field) => field !== 'sample'),
]

/** The words that a field takes; null where any will do. */
export function wordsOf(field: string): readonly string[] | null {
  if (field === 'support') return SUPPORTS
  return field === 'target' ? TARGETS : null
}

/** Keys of the scans that a person set a field of, and did not take back since. */
export function setByHand({ list }: Decisions, field: string): ReadonlySet<string> {
  const set = new Set<string>()
  for (const { file, scan, about } of list) {
    const value = valueSet(about, field)
    if (value === null) continue
    if (value === '') set.delete(scanKey(file, scan))
    else set.add(scanKey(file, scan))
  }
  return set
}

/** What a decision sets a field to, empty where it takes back; null where it is of something else. */
function valueSet(about: DecisionAbout, field: string): string | null {
  switch (about.kind) {
    case 'station':
      return field === 'station' ? about.station : null
    case 'target':
      return field === 'target' ? about.target : null
    case 'support':
      return field === 'support' ? about.support : null
    case 'field':
      return about.field === field ? about.value : null
    default:
      return null
  }
}

/** What a scan holds in a field; empty where nothing. */
export function valueOf(
  head: ScanHead,
  scan: number,
  field: string,
  placement: Placement | null,
): string {
  const placed = placement?.scans[scan]
  const station =
    placed?.station === null || placed === undefined
      ? undefined
      : placement?.stations[placed.station]
  if (field === 'station') return station?.name ?? ''
  if (field === 'support') return station?.support ?? head.known.support ?? ''
  if (field === 'target') return placed?.target ?? ''
  if (isHandField(field)) return handFieldText(head.known, field)
  return head.own && Object.hasOwn(head.own, field) ? head.own[field] : ''
}

/** What a search looks into, for each scan: name, file, station, sample and fields, in lower case. */
export function searchTexts(heads: readonly ScanHead[], placement: Placement | null): string[] {
  return heads.map((head, scan) =>
    [
      head.name,
      head.file,
      valueOf(head, scan, 'station', placement),
      head.known.sample ?? '',
      ...Object.values(head.own ?? {}),
      ...Object.values(head.metadata),
    ]
      .join('\n')
      .toLowerCase(),
  )
}

/** Scans in whose text all words of a search stand. */
export function scansFound(texts: readonly string[], sought: string): number[] {
  const words = sought.toLowerCase().split(/\s+/).filter(Boolean)
  return texts.flatMap((text, scan) => (words.every((word) => text.includes(word)) ? [scan] : []))
}

/** What setting a field decides about each scan, an empty one that it is taken back; in words where it cannot be. */
export function decisionAbout(field: string, value: string): DecisionAbout | string {
  if (field === 'support') {
    return { kind: 'support', support: SUPPORTS.find((word) => word === value) ?? '' }
  }
  if (field === 'target') {
    return { kind: 'target', target: TARGETS.find((word) => word === value) ?? '' }
  }
  if (field === 'station') return { kind: 'station', station: value }
  const fault = isHandField(field) ? handFieldFault(field, value) : fieldNameFault(field)
  if (fault !== null) return `${fault.charAt(0).toUpperCase()}${fault.slice(1)}.`
  return { kind: 'field', field, value }
}
