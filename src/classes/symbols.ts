/**
 * The outlines of the classes' symbols. All cover the same area, so that none weighs more
 * than another on the map, and any two can be told apart at 10 pixels without colour; the
 * hexagon is drawn wider than tall, for a regular one that small is a circle.
 */
import type { SymbolShape } from './rule'

/** Corners before scaling, around the middle of the symbol; x to the right, y down. */
const CORNERS: Readonly<Record<SymbolShape, readonly number[]>> = {
  circle: ring(32, () => 1, 0),
  square: [-1, -1, 1, -1, 1, 1, -1, 1],
  triangle: ring(3, () => 1, -90),
  diamond: [0, -1.25, 0.8, 0, 0, 1.25, -0.8, 0],
  cross: cross(0.36),
  star: ring(10, (corner) => (corner % 2 === 0 ? 1 : 0.42), -90),
  hexagon: stretched(
    ring(6, () => 1, 0),
    1.3,
  ),
  'inverted triangle': ring(3, () => 1, 90),
  'turned cross': turned(cross(0.3)),
  'left triangle': ring(3, () => 1, 180),
  'right triangle': ring(3, () => 1, 0),
  hourglass: [-1, -1.2, 1, -1.2, 0.16, 0, 1, 1.2, -1, 1.2, -0.16, 0],
  'upright bar': bar(0.68),
  'flat bar': bar(1 / 0.68),
}

/**
 * A symbol's outline as one closed polygon.
 *
 * @param radius of the circle that covers the same area, any unit
 * @returns x and y of each corner in turn, y down, centred on the symbol's centre of area;
 *   the last corner joins the first
 */
export function symbolPath(shape: SymbolShape, radius: number): Float64Array {
  const corners = CORNERS[shape]
  const scale = radius * Math.sqrt(Math.PI / Math.abs(signedArea(corners)))
  return Float64Array.from(corners, (part) => part * scale)
}

/** The same outline as the `d` of an SVG path, to a hundredth of the unit. */
export function symbolSvg(shape: SymbolShape, radius: number): string {
  const path = symbolPath(shape, radius)
  const points: string[] = []
  for (let i = 0; i < path.length; i += 2) {
    points.push(`${hundredths(path[i])} ${hundredths(path[i + 1])}`)
  }
  return `M${points.join('L')}Z`
}

/** Area of a polygon by the shoelace formula; negative where it runs against the clock. */
export function signedArea(corners: ArrayLike<number>): number {
  let twice = 0
  for (let i = 0; i < corners.length; i += 2) {
    const next = (i + 2) % corners.length
    twice += corners[i] * corners[next + 1] - corners[next] * corners[i + 1]
  }
  return twice / 2
}

/** Corners evenly around a circle, the first at `start` degrees, clockwise on a screen. */
function ring(count: number, distance: (corner: number) => number, start: number): number[] {
  return Array.from({ length: count }, (_, i) => {
    const angle = ((start + (360 * i) / count) * Math.PI) / 180
    return [distance(i) * Math.cos(angle), distance(i) * Math.sin(angle)]
  }).flat()
}

function cross(arm: number): number[] {
  const a = arm
  return [
    [-a, -1, a, -1, a, -a, 1, -a, 1, a, a, a],
    [a, 1, -a, 1, -a, a, -1, a, -1, -a, -a, -a],
  ].flat()
}

/** A rectangle so many times as wide as a square of the same area. */
function bar(width: number): number[] {
  return [-width, -1 / width, width, -1 / width, width, 1 / width, -width, 1 / width]
}

/** Turned by an eighth. */
function turned(corners: readonly number[]): number[] {
  return corners.map((part, i) =>
    i % 2 === 0 ? (part - corners[i + 1]) * Math.SQRT1_2 : (part + corners[i - 1]) * Math.SQRT1_2,
  )
}

function stretched(corners: readonly number[], ratio: number): number[] {
  return corners.map((part, i) => (i % 2 === 0 ? part * ratio : part / ratio))
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100 + 0
}
