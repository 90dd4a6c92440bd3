/** What is chosen for a walk: proposed at first, and changed until it can be planned. */
import type { WorkingCrs } from '../../places/crs'
import { foldedName } from '../../places/names'
import { parseJson, RecipeError } from '../../project/json-cursor'
import { readTraverse, type TraverseEnd, type TraverseRule } from '../../project/recipe-traverse'
import { fixed } from '../numbers'
import { typedPlace } from '../places/typed-place'

/** A walk that has no start yet, or one that has. */
export type WalkDraft = Omit<TraverseRule, 'start'> & { readonly start?: TraverseEnd }

/** A day's walk as it is proposed: common working hours, three scans and a note at each stop. */
export function proposedWalk(surface: string, terrain: string | undefined): WalkDraft {
  return { surface, leave: '07:30', back: '16:30', stop_minutes: 15, terrain }
}

/** A rule's text is never longer; its reader bounds what stands in it. */
const MOST_LETTERS = 1_000_000

/**
 * A draft as the recipe would read it, or what is wrong with it in words for the screen. A start
 * that is missing is no fault here.
 */
export function checkedDraft(draft: WalkDraft): { readonly wrong: string } | WalkDraft {
  if (Number.isNaN(draft.stop_minutes))
    return { wrong: `${MEMBER_WORDS.stop_minutes}: a number from 0 to 600 is expected.` }
  const start = draft.start ?? { longitude: 0, latitude: 0 }
  try {
    const read = readTraverse(parseJson(JSON.stringify({ ...draft, start }), MOST_LETTERS))
    return draft.start ? read : { ...read, start: undefined }
  } catch (error) {
    if (!(error instanceof RecipeError)) throw error
    return { wrong: wordsOf(error) }
  }
}

/** What the form calls the members of the recipe. */
const MEMBER_WORDS: Readonly<Record<string, string>> = {
  leave: 'Leave',
  back: 'Back',
  stop_minutes: 'Minutes at a stop',
  pace: 'Pace',
  steepest: 'Steepest slope',
  batteries: 'Batteries',
  battery_hours: 'Hours of one',
  most_stops: 'Most stops',
}

function wordsOf({ path, what }: RecipeError): string {
  // What is said of a member of the whole begins with a point here.
  const word = MEMBER_WORDS[path.replace(/^\./, '')]
  return word ? `${word}: ${what}.` : `${what}.`
}

/**
 * A time of day that someone writes: `7:30`, `07.30`, `730` or `7`.
 *
 * @returns `HH:MM`; null where it is no time
 */
export function typedClock(text: string): string | null {
  const found = /^(\d{1,2})(?:[:.h ]?([0-5]\d))?$/.exec(text.trim())
  if (!found || Number(found[1]) > 23) return null
  return `${found[1].padStart(2, '0')}:${found[2] ?? '00'}`
}

/** Where a walk begins or ends, for the screen. */
export function endWords(end: TraverseEnd): string {
  return 'easting' in end
    ? `E ${fixed(end.easting, 1)} N ${fixed(end.northing, 1)}`
    : `${fixed(end.latitude, 5)}, ${fixed(end.longitude, 5)}`
}

/** A press on the map as an end: to a centimetre or so, which is finer than any press. */
export function pressedEnd(
  degrees: readonly [number, number],
  working: readonly [number, number],
  isLocal: boolean,
): TraverseEnd {
  const [longitude, latitude] = degrees.map((value) => Number(value.toFixed(7)))
  const [easting, northing] = working.map((value) => Number(value.toFixed(2)))
  return isLocal ? { easting, northing } : { longitude, latitude }
}

/**
 * An end that someone writes: the name of a station on the ground, or a place.
 *
 * @throws Error that says what is wrong and what to write
 */
export function typedEnd(
  text: string,
  stations: readonly {
    readonly name: string
    readonly position: { readonly easting: number; readonly northing: number }
  }[],
  crs: WorkingCrs,
): TraverseEnd {
  const typed = text.trim()
  const station = stations.find(({ name }) => foldedName(name) === foldedName(typed))
  if (station) {
    const { easting, northing } = station.position
    const degrees = crs.toGeographic(easting, northing)
    return pressedEnd(degrees ?? [0, 0], [easting, northing], degrees === null)
  }
  if (!/\d/.test(typed)) throw new Error(`No station is called ‘${typed}’.`)
  if (crs.kind !== 'local') return typedPlace(typed, crs)
  const [easting, northing, ...more] = typed.split(/[\s;,]+/).map(Number)
  if (more.length > 0 || !Number.isFinite(easting) || !Number.isFinite(northing))
    throw new Error(
      `No station is called ‘${typed}’, and it is no place: write easting and northing, such as 1250 860.`,
    )
  return { easting, northing }
}
