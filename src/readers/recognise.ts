/** The fields that the work needs, found among metadata by the spellings in use. */
import { headingWords } from './headings'
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

/** For each field its spellings as `headingWords` gives them, the surest first. */
const SPELLINGS = {
  name: 'name|scan name|scan|scan id|spectrum|spectrum name|spectrum id|measurement|measurement id|file name|filename|scan number|scan no|spectrum number',
  sample:
    'sample|sample id|sample name|sample number|sample no|sampleid|sampleno|station|station id|station name|site|site id|specimen|specimen id|id|point|point id|waypoint',
  dateTime:
    'time|datetime|date time|date and time|time and date|timestamp|time stamp|acquired|acquisition time|acquisition date time|scan time|measurement time|measured|measured at|recorded|collected|utc|utc time|gps time|gps utc|local time|time utc|time local|saved|created|spectrum saved|longdate',
  date: 'date|acquisition date|scan date|measurement date|date utc|gps date|day|utc date|local date|collection date',
  zone: 'time zone|timezone|utc offset|zone offset|gmt offset|tz',
  longitude:
    'longitude|lon|long|lng|gps longitude|gps lon|gps long|lon dd|long dd|x lon|longitude dd|longitude wgs84|wgs84 longitude|lon wgs84|longitude deg|lon deg',
  latitude:
    'latitude|lat|gps latitude|gps lat|lat dd|y lat|latitude dd|latitude wgs84|wgs84 latitude|lat wgs84|latitude deg|lat deg',
  easting:
    'easting|eastings|east|utm easting|utm east|utm e|utme|x|xcoord|x coord|x coordinate|e|utm x|east m|easting m|grid east|coord x|mga e|mga east',
  northing:
    'northing|northings|north|utm northing|utm north|utm n|utmn|y|ycoord|y coord|y coordinate|n|utm y|north m|northing m|grid north|coord y|mga n|mga north',
  elevation:
    'elevation|elev|altitude|alt|height|z|rl|gps altitude|gps elevation|gps alt|elevation m|altitude m|elev m|msl|z m',
  crs: 'crs|epsg|coordinate system|coordinate reference system|projection|datum|grid|srs|spatial reference',
  crsZone: 'utm zone|zone|grid zone|mga zone',
  accuracy:
    'accuracy|gps accuracy|horizontal accuracy|position error|gps error|hdop|epe|coordinate accuracy|position accuracy|precision',
  support: 'support|sample type|material|medium|sample medium|sample kind|station type|type',
  target: 'target|scan target|surface|surface type|spot type|scan of|measured on|scanned surface',
  operator:
    'operator|user|observer|geologist|analyst|measured by|recorded by|scanned by|collected by|by|owner|logger',
  probe: 'probe|foreoptic|fore optic|accessory|optic|attachment|foreoptics',
  spot: 'spot|spot size|spot diameter|aperture|spot mm|measurement spot',
  integration:
    'integration|integration time|integration ms|exposure|exposure time|int time|integration times|vnir integration time',
  whiteReference:
    'white reference|white reference time|white ref|white ref time|reference time|last white reference|white panel|panel time|white reference taken|time of white reference|last white ref|wr time|white reference at|last reference|white time|calibration time',
  battery:
    'battery|battery voltage|battery level|battery v|battery volts|battery percent|voltage|battery charge',
  temperature:
    'temperature|temp|ambient temperature|instrument temperature|detector temperature|air temperature|temp c|temperature c',
  comment: 'comment|comments|note|notes|remark|remarks|description|memo|field notes',
  hole: 'hole|hole id|holeid|bhid|dhid|drillhole|drill hole|drill hole id|drillhole id|borehole|borehole id|well|hole name|hole number|hole no|ddh',
  from: 'from|depth from|from m|from depth|start depth|depth start|from ft|top|depth top|depthfrom|mfrom',
  to: 'to|depth to|to m|to depth|end depth|depth end|to ft|bottom|base|depth bottom|depthto|mto',
  depth:
    'depth|depth m|hole depth|downhole depth|down hole depth|depth ft|measured depth|core depth|md|depth along hole',
} as const

type Field = keyof typeof SPELLINGS

const FIELD_OF = new Map<string, { field: Field; rank: number }>()
for (const field of Object.keys(SPELLINGS) as Field[])
  SPELLINGS[field].split('|').forEach((words, rank) => {
    if (!FIELD_OF.has(words)) FIELD_OF.set(words, { field, rank })
  })

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
  const timeText = joined(text('date'), text('dateTime'), text('zone'))
  return {
    name: text('name'),
    sample: text('sample'),
    time: timeText === null ? null : parseMoment(timeText, dateOrder),
    timeText,
    longitudeText: text('longitude'),
    latitudeText: text('latitude'),
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
    const known = FIELD_OF.get(headingWords(key))
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
