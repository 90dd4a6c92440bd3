/** What stations visited again say, in words. */
import type { Revisits, Visit } from '../../project/revisits'
import { twoDigits } from '../numbers'

/** Visits scatter this many times more than stated before it is spoken of (ours). */
const CLEARLY_MORE = 1.5
/** Stations under which nothing is concluded from the scatter (ours). */
const FEW = 3

/** Indices whose visits scatter clearly more than their scans state; empty for none. */
export function beyondStated(indices: Revisits['indices']): string {
  const times = indices.flatMap(({ name, stations, deviation, stated }) => {
    if (stations < FEW || stated === null || deviation <= CLEARLY_MORE * stated) return []
    return `${name} ${twoDigits(deviation / stated)} times`
  })
  if (times.length === 0) return ''
  return `Visits scatter more than their scans state: ${times.join(', ')}.`
}

/** Such as `8 May white mica, 11 May white mica`. */
export function classCourse(visits: readonly Visit[]): string {
  return visits.map((visit) => `${dayOf(visit.seconds)} ${visit.class}`).join(', ')
}

function dayOf(seconds: number): string {
  const date = new Date(seconds * 1000)
  const month = date.toLocaleString('en', { month: 'short', timeZone: 'UTC' })
  return `${date.getUTCDate()} ${month}`
}
