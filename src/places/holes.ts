/**
 * The path of a drill hole by minimum curvature: between two surveys the hole is taken for the arc
 * of a circle that is tangent to both directions (Taylor and Mason 1972; Sawaryn and Thorogood
 * 2005, SPE 84246).
 */

/** A survey of a hole. */
export interface Survey {
  /** Metres along the hole. */
  readonly depth: number
  /** Degrees from straight down: 0 down, 90 level, above 90 up. */
  readonly inclination: number
  /** Degrees clockwise from the grid's north. */
  readonly azimuth: number
}

/** Metres north, east and down. */
export interface Displacement {
  readonly north: number
  readonly east: number
  readonly down: number
}

/** A surveyed hole, its surveys in order of depth from 0. */
export interface HolePath {
  readonly surveys: readonly Survey[]
  /** From the collar to each survey. */
  readonly at: readonly Displacement[]
}

type Direction = readonly [north: number, east: number, down: number]

const RADIANS = Math.PI / 180

function directionOf({ inclination, azimuth }: Survey): Direction {
  const i = inclination * RADIANS
  const a = azimuth * RADIANS
  return [Math.sin(i) * Math.cos(a), Math.sin(i) * Math.sin(a), Math.cos(i)]
}

/** The angle between two directions, radians; exact for small ones. */
function doglegOf(a: Direction, b: Direction): number {
  const chord = Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])
  return 2 * Math.asin(Math.min(1, chord / 2))
}

/** The displacement along an arc of a length from one direction to another. */
function arc(length: number, a: Direction, b: Direction): Displacement {
  const dogleg = doglegOf(a, b)
  if (dogleg > Math.PI - 1e-9) {
    throw new Error('two surveys that point opposite ways define no arc')
  }
  // tan(β/2)/(β/2); its series below a thousandth of a radian, where the quotient loses digits.
  const factor = dogleg < 1e-3 ? 1 + dogleg ** 2 / 12 : (2 / dogleg) * Math.tan(dogleg / 2)
  const half = (length / 2) * factor
  return {
    north: half * (a[0] + b[0]),
    east: half * (a[1] + b[1]),
    down: half * (a[2] + b[2]),
  }
}

/** The displacement from one survey to the next. */
export function minimumCurvature(from: Survey, to: Survey): Displacement {
  return arc(to.depth - from.depth, directionOf(from), directionOf(to))
}

/**
 * A hole's path from its surveys, in any order. The first survey's direction holds from the collar.
 *
 * @throws Error where there is none, one is out of range, or two stand at one depth and disagree
 */
export function holePath(surveys: readonly Survey[]): HolePath {
  const sorted = [...surveys].sort((a, b) => a.depth - b.depth)
  if (sorted.length === 0) throw new Error('no survey')
  for (const { depth, inclination, azimuth } of sorted) {
    if (!(depth >= 0)) throw new Error(`a survey at depth ${depth}`)
    if (!(inclination >= 0 && inclination <= 180)) {
      throw new Error(`a dip beyond straight down or up at ${depth} m`)
    }
    if (!(azimuth >= -360 && azimuth <= 360)) throw new Error(`azimuth ${azimuth} at ${depth} m`)
  }
  const kept = sorted[0].depth > 0 ? [{ ...sorted[0], depth: 0 }] : []
  for (const survey of sorted) {
    const last = kept[kept.length - 1]
    if (last && survey.depth === last.depth) {
      if (doglegOf(directionOf(survey), directionOf(last)) > 0.1 * RADIANS) {
        throw new Error(`two different surveys at ${survey.depth} m`)
      }
      continue
    }
    kept.push(survey)
  }
  const at: Displacement[] = [{ north: 0, east: 0, down: 0 }]
  for (let i = 1; i < kept.length; i++) {
    at.push(sum(at[i - 1], minimumCurvature(kept[i - 1], kept[i])))
  }
  return { surveys: kept, at }
}

/**
 * The place at a depth along the hole, from the collar. Between surveys it lies on the arc; beyond
 * the last one the hole is taken for straight.
 *
 * @returns `beyond`: metres past the last survey, 0 within
 */
export function atDepth(path: HolePath, depth: number): Displacement & { readonly beyond: number } {
  const { surveys, at } = path
  const last = surveys.length - 1
  if (depth >= surveys[last].depth) {
    const direction = directionOf(surveys[last])
    const beyond = depth - surveys[last].depth
    return { ...sum(at[last], arc(beyond, direction, direction)), beyond }
  }
  let low = 0
  let high = last
  while (high - low > 1) {
    const middle = (low + high) >>> 1
    if (surveys[middle].depth <= depth) low = middle
    else high = middle
  }
  const a = directionOf(surveys[low])
  const b = directionOf(surveys[high])
  const along = depth - surveys[low].depth
  const turned = between(a, b, along / (surveys[high].depth - surveys[low].depth))
  return { ...sum(at[low], arc(along, a, turned)), beyond: 0 }
}

/** The direction a part of the way along the arc: the angle grows evenly with length. */
function between(a: Direction, b: Direction, part: number): Direction {
  const angle = doglegOf(a, b)
  if (angle < 1e-9) return a
  const p = Math.sin((1 - part) * angle) / Math.sin(angle)
  const q = Math.sin(part * angle) / Math.sin(angle)
  return [p * a[0] + q * b[0], p * a[1] + q * b[1], p * a[2] + q * b[2]]
}

function sum(a: Displacement, b: Displacement): Displacement {
  return { north: a.north + b.north, east: a.east + b.east, down: a.down + b.down }
}
