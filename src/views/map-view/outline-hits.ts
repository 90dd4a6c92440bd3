/** Which stations an outline drawn on the screen takes in. */

/** A place on the screen, CSS px. */
export interface ScreenPoint {
  readonly x: number
  readonly y: number
}

/** Whether a point lies in a closed outline, by the even–odd rule. */
export function isInOutline(outline: readonly ScreenPoint[], { x, y }: ScreenPoint): boolean {
  let inside = false
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const [a, b] = [outline[i], outline[j]]
    if (a.y > y !== b.y > y && x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) inside = !inside
  }
  return inside
}

/** An outline so short is a touch and not a drawing, CSS px. */
const TOUCH = 12

/** Whether the hand moved far enough to have drawn something. */
export function isDrawn(outline: readonly ScreenPoint[]): boolean {
  const [first] = outline
  return outline.some(({ x, y }) => Math.hypot(x - first.x, y - first.y) > TOUCH)
}
