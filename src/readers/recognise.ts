/** The fields that the work needs, found among metadata by the spellings in use. */
import { headingWords } from './headings'
import { ABROAD, SPELLINGS, type Field } from './spellings'
import { parseMoment, statedZone, type DateOrder, type Moment } from './time'

/** What is known of a scan; null where the metadata does not say. Text stands as found. */
export interface KnownFields {
  readonly name: string | null
  readonly sample: string | null
  readonly time: Moment | null
  /** Date and time as written, also where they could not be read. */
  readonly timeText: string | null
  readonly longitudeText: string | null
  readonly latitudeText: string | null
  readonly eastingText: string | null
  readonly northingText: string | null
  readonly elevationText: string | null
  readonly crsText: string | null
  readonly accuracyText: string | null
  readonly support: string | null
  readonly target: string | null
  readonly operator: string | null
  readonly probe: string | null
  readonly spot: string | null
  readonly integration: string | null
  readonly whiteReference: Moment | null
  /** As written, so that it can be read again once the scan's time is known; absent in old projects. */
  readonly whiteReferenceText?: string | null
  readonly battery: string | null
  readonly temperature: string | null
  readonly comment: string | null
  readonly hole: string | null
  /** Metres along the hole. */
  readonly from: number | null
  readonly to: number | null
  readonly depth: number | null
}

const FIELD_OF = new Map<string, { field: Field; rank: number }>()
for (const field of Object.keys(SPELLINGS) as Field[])
  `${SPELLINGS[field]}|${ABROAD[field] ?? ''}`.split('|').forEach((words, rank) => {
    if (words !== '' && !FIELD_OF.has(words)) FIELD_OF.set(words, { field, rank })
  })

/** Words that mean a date in one language and something else in another: their value decides. */
const PERHAPS_DATE = new Set(['datum', 'data'])
const DATED =
  /\d{1,4}[-/.]\s?\d{1,2}[-/.]\s?\d{2,4}|\d{1,2}[.\s-]+(de )?\p{L}{3,}[.\s-]+(de )?\d{4}/u

function knownAs(key: string, value: string): { field: Field; rank: number } | undefined {
  const words = headingWords(key)
  if (PERHAPS_DATE.has(words) && DATED.test(value)) return { field: 'date', rank: 0 }
  return FIELD_OF.get(words)
}

/** The field that a key or a column's heading is known as, or null. */
export function fieldOf(key: string): Field | null {
  return FIELD_OF.get(headingWords(key))?.field ?? null
}

/** What is known by metadata, each with the order of dates that it was found by. */
const recognised = new WeakMap<
  Readonly<Record<string, string>>,
  { readonly dateOrder?: DateOrder; readonly fields: KnownFields }
>()

/**
 * Finds the known fields among metadata; those of one object are found once, so that scans that
 * share their metadata share what is known of them, and in a message to a worker it stands once.
 *
 * @param dateOrder how dates such as `05/03/2024` are meant, where the user has said so
 */
export function recognise(
  metadata: Readonly<Record<string, string>>,
  dateOrder?: DateOrder,
): KnownFields {
  const known = recognised.get(metadata)
  if (known !== undefined && known.dateOrder === dateOrder) return known.fields
  const fields = knownFields(metadata, dateOrder)
  recognised.set(metadata, { dateOrder, fields })
  return fields
}

function knownFields(
  metadata: Readonly<Record<string, string>>,
  dateOrder?: DateOrder,
): KnownFields {
  const found = findFields(metadata)
  const text = (field: Field): string | null => found.get(field)?.value ?? null
  const timeText = joined(text('date'), text('dateTime'), text('zone') ?? zoneOfKey(found))
  return {
    name: text('name'),
    sample: text('sample'),
    time: timeText === null ? null : parseMoment(timeText, dateOrder),
    timeText,
    longitudeText: withSide(text('longitude'), text('longitudeSide')),
    latitudeText: withSide(text('latitude'), text('latitudeSide')),
    eastingText: text('easting'),
    northingText: text('northing'),
    elevationText: text('elevation'),
    crsText: joined(text('crs'), zoned(text('crsZone'))),
    accuracyText: text('accuracy'),
    support: text('support'),
    target: text('target'),
    operator: text('operator'),
    probe: text('probe'),
    spot: text('spot'),
    integration: text('integration'),
    whiteReference: whiteReferenceOf(text('whiteReference'), timeText, dateOrder),
    whiteReferenceText: text('whiteReference'),
    battery: text('battery'),
    temperature: text('temperature'),
    comment: text('comment'),
    hole: text('hole'),
    from: metres(found.get('from')),
    to: metres(found.get('to')),
    depth: metres(found.get('depth')),
  }
}

interface Found {
  readonly key: string
  readonly value: string
  readonly rank: number
}

/** The surest spelling of each field that has a value. */
function findFields(metadata: Readonly<Record<string, string>>): Map<Field, Found> {
  const found = new Map<Field, Found>()
  for (const [key, value] of Object.entries(metadata)) {
    const known = knownAs(key, value)
    if (known === undefined || value.trim() === '') continue
    const before = found.get(known.field)
    if (before === undefined || known.rank < before.rank)
      found.set(known.field, { key, value: value.trim(), rank: known.rank })
  }
  return found
}

function joined(...parts: (string | null)[]): string | null {
  const present = parts.filter((part) => part !== null)
  return present.length === 0 ? null : present.join(' ')
}

/** A coordinate with the hemisphere that a field of its own states; a sign or letter of its own counts. */
function withSide(coordinate: string | null, side: string | null): string | null {
  const letter = /^(north|south|east|west|[nsew])$/iu.exec(side ?? '')?.[0].at(0)
  if (coordinate === null || letter === undefined) return coordinate
  return /^[-−+]|\p{L}/u.test(coordinate) ? coordinate : `${coordinate} ${letter.toUpperCase()}`
}

/** `UTC time` says the zone of a time that states none itself. */
function zoneOfKey(found: ReadonlyMap<Field, Found>): string | null {
  const time = found.get('dateTime')
  if (time === undefined || !/\b(utc|gmt)\b/u.test(headingWords(time.key))) return null
  return statedZone(`2000-01-01 ${time.value}`) === null ? 'UTC' : null
}

/** A bare zone such as `19S` is a UTM zone. */
function zoned(zone: string | null): string | null {
  return zone !== null && /^\d{1,2}\s*\p{L}?$/u.test(zone) ? `UTM zone ${zone}` : zone
}

/** A date in numbers. */
const OWN_DATE = /\d{1,4}[-/.]\d{1,2}[-/.]\d{2,4}/

/** The time of the white reference; without a date or zone it is on the scan's own. */
export function whiteReferenceOf(
  text: string | null,
  scanTime: string | null,
  dateOrder?: DateOrder,
): Moment | null {
  if (text === null) return null
  const zone = scanTime === null ? null : statedZone(scanTime, dateOrder)
  const whole = parseMoment(text, dateOrder, zone ?? undefined)
  // A date of its own that cannot be told is not taken for the scan's.
  if (whole !== null || scanTime === null || OWN_DATE.test(text)) return whole
  const day = scanTime.replace(/T?\d{1,2}:\d{2}(:\d{2}([.,]\d+)?)?\s*([ap]\.?m\.?)?.*$/iu, ' ')
  const year = /\d{4}/.test(day) ? '' : (/\d{1,2}:\d{2}\S*\s+(\d{4})/.exec(scanTime)?.[1] ?? '')
  return parseMoment(`${day} ${year} ${text}`, dateOrder, zone ?? undefined)
}

/** International feet (0.3048 m exactly, 1959 agreement) where key or value says so. */
function metres(found: Found | undefined): number | null {
  if (found === undefined) return null
  const match = /^([+-]?\d+(?:[.,]\d+)?)\s*(m|metres?|meters?|ft|feet|')?$/iu.exec(found.value)
  if (match === null) return null
  const value = Number(match[1].replace(',', '.'))
  const unit = match[2] ?? (/\b(ft|feet)\b|_ft$/iu.test(found.key) ? 'ft' : 'm')
  return /^(ft|feet|')/iu.test(unit) ? value * 0.3048 : value
}
