/** Fields that the program itself reads off scans and that a person can set: how each is written. */
import { whiteReferenceOf, type KnownFields } from '../readers/recognise'
import { parseMoment } from '../readers/time'

/**
 * Fields that the program itself knows and that can be set by hand, as they are offered. The time
 * stands before the white reference, whose day may be its.
 */
export const HAND_FIELDS = [
  'sample',
  'time',
  'white reference',
  'hole',
  'depth',
  'operator',
  'comment',
  'probe',
  'spot',
  'integration',
  'battery',
  'temperature',
] as const
export type HandField = (typeof HAND_FIELDS)[number]

/** Whether a name is that of a field which the program knows. */
export function isHandField(field: string): field is HandField {
  return HAND_FIELDS.some((known) => known === field)
}

const CLOCK = /^\d{1,2}:\d{2}(:\d{2})?$/
const DEPTH = /^(\d{1,5}(?:[.,]\d+)?)(?:\s*(?:-|–|to)\s*(\d{1,5}(?:[.,]\d+)?))?(?:\s*m)?$/u

/** How a field is to be written; null where any words will do. */
export function writingOf(field: string): string | null {
  if (field === 'time') return '2024-05-07T14:30-04:00'
  if (field === 'white reference') return '14:20, or with its date'
  return field === 'depth' ? '120.5, or 120–121 (m)' : null
}

/** What is wrong with a field's value, in words; null where nothing is. Empty takes back. */
export function handFieldFault(field: HandField, value: string): string | null {
  const text = value.trim()
  if (text === '' || valuesOf(field, text, '2024-05-07T14:30Z') !== null) return null
  if (field === 'depth')
    return `‘${text}’ is no depth: write metres, 120.5, or an interval, 120–121`
  const example = field === 'time' ? '2024-05-07T14:30-04:00' : '14:20, or 2024-05-07T14:20-04:00'
  return `‘${text}’ is no certain date and time: write it as ${example}`
}

/** Whether a time of the white reference has no day: neither its own nor its scan's. */
export function isUndated(field: string, value: string, timeText: string | null): boolean {
  const text = value.trim()
  return (
    field === 'white reference' && CLOCK.test(text) && whiteReferenceOf(text, timeText) === null
  )
}

/**
 * What is known of a scan once people set fields of it. A time of the white reference without a
 * date is on the scan's own day, a time set by hand included.
 */
export function withHandFields(
  known: KnownFields,
  set: ReadonlyMap<HandField, string>,
): KnownFields {
  let found = known
  for (const field of HAND_FIELDS) {
    const value = set.get(field)?.trim()
    if (!value) continue
    found = { ...found, ...valuesOf(field, value, found.timeText) }
    if (field === 'time') found = { ...found, ...referenceAnew(found) }
  }
  return found
}

/** A file's time of the white reference, which may be on the day of the time set by hand. */
function referenceAnew({ whiteReferenceText, timeText }: KnownFields): Partial<KnownFields> | null {
  const whiteReference = whiteReferenceOf(whiteReferenceText ?? null, timeText)
  return whiteReference && { whiteReference }
}

/** What a field's value says; null where it cannot be read. */
function valuesOf(
  field: HandField,
  text: string,
  timeText: string | null,
): Partial<KnownFields> | null {
  switch (field) {
    case 'time': {
      const time = parseMoment(text)
      return time && { time, timeText: text }
    }
    case 'white reference': {
      if (!CLOCK.test(text) && parseMoment(text) === null) return null
      const whiteReference = whiteReferenceOf(text, timeText)
      return whiteReference && { whiteReference }
    }
    case 'depth':
      return depthOf(text)
    default:
      return { [field]: text }
  }
}

/** Metres along the hole: a point, or an interval. */
function depthOf(text: string): Partial<KnownFields> | null {
  const match = DEPTH.exec(text)
  if (match === null) return null
  const [from, to] = [match[1], match[2]].map((part) => Number(part?.replace(',', '.')))
  if (match[2] === undefined) return { depth: from, from: null, to: null }
  return from < to ? { depth: null, from, to } : null
}

/** A field as it stands now, as text that could be set; empty where nothing is known. */
export function handFieldText(known: KnownFields, field: HandField): string {
  switch (field) {
    case 'time':
      return known.timeText ?? ''
    case 'white reference':
      return known.whiteReference === null ? '' : momentText(known.whiteReference)
    case 'depth':
      return known.from !== null && known.to !== null && known.depth === null
        ? `${known.from}–${known.to}`
        : String(known.depth ?? known.from ?? '')
    default:
      return known[field] ?? ''
  }
}

function momentText({ seconds, zoneStated }: NonNullable<KnownFields['time']>): string {
  const text = new Date(1000 * seconds).toISOString().slice(0, 16)
  return zoneStated ? `${text}Z` : text
}
