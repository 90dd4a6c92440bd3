/**
 * Matches that allow for water: where a scan absorbs as liquid water does, the references that
 * are like it elsewhere are compared with it once more, a film of water taken off.
 */
import { dot, likenessOf } from './likeness'
import { matchAll, matchOne, type Match, type ScanShape, type UserRanges } from './match'
import type { PreparedSet } from './prepare'
import { FILMS, filmOn, filmsBeside, waterAlone, withoutFilm } from './water'

/** What a match through a film must be better by than one without. */
const COST = 0.01
/** References compared again, those most like the scan where water absorbs little. */
const AGAIN = 24
/** A film may be this many times what all of the scan's absorption near 1900 nm would make. */
const MOST = 1.5
/** A film stands for thicknesses up to this many times thinner or thicker. */
const NEAR = 2
/** Water alone must be as like the scan as this where it only slopes, beyond 2080 nm. */
const LIKE_WATER = 0.8

/** A scan, with what water it holds taken off, and its matches. */
export interface Matched {
  readonly scan: ScanShape
  readonly matches: readonly Match[]
  /** Whether water alone is more like the scan than any reference. */
  readonly isWaterAlone: boolean
}

/** A scan with a film taken off. */
interface Through {
  readonly film: number
  readonly scan: ScanShape
}

/**
 * Every reference's match in the set's order, through a film of water where that is better.
 *
 * @param empty energy below which a shape holds nothing
 */
export function matchWet(
  scan: ScanShape,
  set: PreparedSet,
  ranges: UserRanges,
  empty: number,
): Matched {
  const matches = matchAll(scan, set, ranges)
  const most = MOST * filmOn(scan)
  const films = FILMS.filter((film) => film <= most)
    .map((film): Through => ({ film, scan: withoutFilm(scan, film) }))
    .filter((through) => through.scan.linearEnergy >= empty)
  if (films.length === 0) return { scan, matches, isWaterAlone: false }
  let best = matches.reduce((a, b) => (b.score > a.score ? b : a))
  let seen: ScanShape = scan
  const filmBeside = filmsBeside(scan)
  for (const match of matches.toSorted((a, b) => b.dry - a.dry).slice(0, AGAIN)) {
    const { reference, index, product, energy } = match
    const { linear } = reference.shapeAt(scan.scale)
    const film = filmBeside(linear, product, energy)
    for (const through of films) {
      if (!isNear(film, through.film)) continue
      const again = matchOne(through.scan, reference, index, ranges.get(reference.mineral))
      const score = again.score - COST
      if (score > matches[index].score) matches[index] = { ...again, score, product }
      if (score <= best.score) continue
      best = matches[index]
      seen = through.scan
    }
  }
  return {
    scan: seen,
    matches: seen === scan ? matches : matches.map((match) => seenThrough(match, seen, ranges)),
    isWaterAlone: isLikeWater(scan, best.score),
  }
}

const isNear = (film: number, other: number): boolean =>
  film > 0 && Math.abs(Math.log(film / other)) <= Math.log(NEAR)

/** A match with its product on the one scan that mixtures are made for. */
function seenThrough(match: Match, scan: ScanShape, ranges: UserRanges): Match {
  if (ranges.has(match.reference.mineral)) return match
  return { ...match, product: dot(scan.linear, match.reference.shapeAt(scan.scale).linear) }
}

function isLikeWater(scan: ScanShape, best: number): boolean {
  const { whole, telling } = likenessOf(scan, waterAlone(scan), null)
  return whole > best && telling > LIKE_WATER
}
