/** Asking which coordinate system projected coordinates stand in, with what speaks for each answer. */
import { medianPosition, openCrs } from './crs'
import { numberIn } from './cells'
import { distance } from './tracks'
import { utmEpsg, utmZone } from './utm'

/** A projected table whose coordinate system nobody has stated. */
export interface CrsQuestion {
  readonly file: string
  /** The headings of its coordinates. */
  readonly columns: readonly [x: string, y: string]
  /** The first few pairs, as written. */
  readonly sample: readonly (readonly [x: string, y: string])[]
  /** What it may be, the likeliest first. Never taken without an answer. */
  readonly suggestions: readonly { readonly crs: string; readonly why: string }[]
}

type LonLat = readonly [lon: number, lat: number]

/** How near the rest of the project a guess must come to be worth a word, metres. */
const NEAR = 100_000

/**
 * The question with what it may be.
 *
 * @param known positions of the rest of the project, degrees
 * @param setting the recipe's working CRS
 */
export function withSuggestions(
  question: CrsQuestion,
  known: readonly LonLat[],
  setting: string,
): CrsQuestion {
  const first = firstPair(question)
  const middle = medianPosition(known)
  const suggestions: { crs: string; why: string; away: number }[] = []
  const offer = (crs: string, otherwise: string | null) => {
    if (suggestions.some((made) => made.crs === crs)) return
    const away = first === null || middle === null ? null : awayFrom(crs, first, middle)
    if (away !== null && away < NEAR) {
      const why = `puts the first row ${lengthOf(away)} from the middle of the other stations`
      suggestions.push({ crs, why, away })
    } else if (otherwise !== null) suggestions.push({ crs, why: otherwise, away: Infinity })
  }
  if (/^EPSG:/i.test(setting)) offer(setting, 'is the recipe’s working system')
  if (middle !== null) {
    const zone = utmZone(middle[0], middle[1])
    if (zone !== null) {
      for (const step of [0, -1, 1]) {
        const number = ((zone.zone - 1 + step + 60) % 60) + 1
        offer(`EPSG:${utmEpsg({ zone: number, south: zone.south })}`, null)
      }
    }
  }
  if (first !== null && Math.abs(first[0]) <= 180 && Math.abs(first[1]) <= 90) {
    offer('EPSG:4326', 'the values would fit longitude and latitude')
  }
  suggestions.sort((a, b) => a.away - b.away)
  suggestions.push({ crs: 'local:m', why: 'is a grid tied to nothing', away: Infinity })
  return { ...question, suggestions: suggestions.map(({ crs, why }) => ({ crs, why })) }
}

function firstPair(question: CrsQuestion): [number, number] | null {
  for (const [x, y] of question.sample) {
    const decimal = /\d,\d/.test(x) && !/\./.test(x) ? ',' : '.'
    const pair: [number, number] = [numberIn(x, decimal), numberIn(y, decimal)]
    if (Number.isFinite(pair[0]) && Number.isFinite(pair[1])) return pair
  }
  return null
}

/** Metres between a pair read in a system and a position; null where that cannot be told. */
function awayFrom(code: string, pair: readonly [number, number], middle: LonLat): number | null {
  try {
    const there = openCrs(code).toGeographic(pair[0], pair[1])
    return there === null ? null : distance(there[0], there[1], middle[0], middle[1])
  } catch {
    return null
  }
}

/** A length in words: `350 m`, `12.3 km`. */
export function lengthOf(metres: number): string {
  return metres < 1000
    ? `${Math.round(metres)} m`
    : `${(metres / 1000).toFixed(metres < 1e5 ? 1 : 0)} km`
}
