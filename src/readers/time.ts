/** Dates and times as instruments and hands write them (ISO 8601 and common forms). */

/** A moment. */
export interface Moment {
  /** Seconds since 1970-01-01T00:00:00Z; as though in UTC where the zone was not stated. */
  readonly seconds: number
  readonly zoneStated: boolean
}

/** How months begin in English, German, French, Spanish, Portuguese and Italian. */
const MONTHS = [
  'jan|ene|gen',
  'feb|fev|fév',
  'mar|mär|mrz',
  'apr|abr|avr',
  'may|mai|mag',
  'jun|juin|giu',
  'jul|juil|lug',
  'aug|ago|aoû|aou',
  'sep|set',
  'oct|okt|out|ott',
  'nov',
  'dec|dez|dic|déc',
]
const MONTH = `(${MONTHS.join('|')})`
/** `6 May 2024`, `06-mai-2024`, `6. Mai 2024`, `6 de mayo de 2024`. */
const DAY_MONTH_YEAR = new RegExp(
  `(\\d{1,2})[-\\s.]*(?:de\\s+)?${MONTH}\\p{L}*[-\\s.,]*(?:de\\s+)?(\\d{4})`,
  'iu',
)
/** `May 6, 2024`, `Mon May 06 11:43:15 2024`. */
const MONTH_DAY_YEAR = new RegExp(
  `(?<!\\p{L})${MONTH}\\p{L}*\\.?\\s+(\\d{1,2})\\b(?!:).*?(\\d{4})`,
  'iu',
)

/** How a date such as `05/03/2024` is meant. */
export type DateOrder = 'day first' | 'month first'

/**
 * A date with its time of day, wherever in the text they stand.
 *
 * @param order without it a date such as `05/03/2024` is told only where one of its numbers is
 *   above 12
 * @param zone seconds east of Greenwich to take where the text states no zone
 * @returns null where there is no date or time, or where day and month cannot be told apart
 */
export function parseMoment(text: string, order?: DateOrder, zone?: number): Moment | null {
  const parts = localParts(text, order)
  if (parts === null) return null
  const offset = parts.offset ?? zone ?? null
  return { seconds: parts.local - (offset ?? 0), zoneStated: offset !== null }
}

/** Seconds east of Greenwich that a date with its time states, or null. */
export function statedZone(text: string, order?: DateOrder): number | null {
  return localParts(text, order)?.offset ?? null
}

/** A longer text is no date: looking for one in it would take long. Characters. */
const LONGEST = 200

/** Seconds since 1970 by the clock on the wall, and that clock's zone where it is stated. */
function localParts(
  text: string,
  order?: DateOrder,
): { readonly local: number; readonly offset: number | null } | null {
  if (text.length > LONGEST) return null
  const clock =
    /(\d{1,2})(?::|(?<=\d)h)(\d{2})(?!\d)(?::(\d{2}(?:[.,]\d+)?))?\s*([ap]\.?m\.?)?/iu.exec(text)
  const compact = /\b\d{8}(?:T|[ _](?=\d{6}\b))(\d{2})(\d{2})(\d{2})?/.exec(text)
  const day = parseDay(text, order)
  if (day === null || (clock === null && compact === null)) return null
  const found = clock ?? compact ?? []
  let hour = Number(found[1])
  const minute = Number(found[2])
  const second = Number((found[3] ?? '0').replace(',', '.'))
  const half = clock?.[4]?.toLowerCase()[0]
  if (half !== undefined) {
    if (hour < 1 || hour > 12) return null
    hour = (hour % 12) + (half === 'p' ? 12 : 0)
  }
  if (hour > 23 || minute > 59 || second >= 61) return null
  const rest = text.slice((clock?.index ?? compact?.index ?? 0) + (found[0]?.length ?? 0))
  const local = day / 1000 + hour * 3600 + minute * 60 + second
  return { local, offset: zoneOffset(rest) }
}

/** Seconds east of Greenwich that a text begins with, or null. */
function zoneOffset(rest: string): number | null {
  if (/^\s*(z|utc|gmt)\b(?!\s*[+-−])/iu.test(rest)) return 0
  const match = /^\s*(?:utc|gmt)?\s*([+\-−])(\d{1,2})(?::?(\d{2}))?\b/iu.exec(rest)
  if (match === null) return null
  const size = Number(match[2]) * 3600 + Number(match[3] ?? 0) * 60
  return size > 14 * 3600 ? null : match[1] === '+' ? size : -size
}

/** Midnight of a date in milliseconds since 1970, as though in UTC. */
function parseDay(text: string, order?: DateOrder): number | null {
  const iso =
    /(\d{4})(?:[-/.]|\s?年\s?)(\d{1,2})(?:[-/.]|\s?月\s?)(\d{1,2})/u.exec(text) ??
    /\b(\d{4})(\d{2})(\d{2})(?=T|\b)/.exec(text)
  if (iso !== null) return utcDay(Number(iso[1]), Number(iso[2]), Number(iso[3]))
  const named = DAY_MONTH_YEAR.exec(text)
  if (named !== null) return utcDay(Number(named[3]), monthOf(named[2]), Number(named[1]))
  const american = MONTH_DAY_YEAR.exec(text)
  if (american !== null)
    return utcDay(Number(american[3]), monthOf(american[1]), Number(american[2]))
  const parts = /(\d{1,2})[/.-](\d{1,2})[/.-](\d{4})/.exec(text)
  if (parts === null) return null
  const [first, second, year] = [Number(parts[1]), Number(parts[2]), Number(parts[3])]
  // Dates with points are written day first everywhere that writes them so.
  const dayFirst = first > 12 || parts[0].includes('.') || first === second || order === 'day first'
  if (dayFirst) return utcDay(year, second, first)
  return second > 12 || order === 'month first' ? utcDay(year, first, second) : null
}

function monthOf(name: string): number {
  return MONTHS.findIndex((names) => names.split('|').includes(name.toLowerCase())) + 1
}

function utcDay(year: number, month: number, day: number): number | null {
  const time = Date.UTC(year, month - 1, day)
  const date = new Date(time)
  return date.getUTCMonth() === month - 1 && date.getUTCDate() === day ? time : null
}
