/** Whether straight steps cross a fault or contact, for steps to one place after another. */
import { PieceIndex, type Box } from './piece-index'

const NOTHING = () => false

/** Barriers, asked around one place at a time. */
export class Crossing {
  private readonly index: PieceIndex
  private readonly near: number[] = []

  /** @param barriers straight pieces as x1, y1, x2, y2 …, working units */
  constructor(private readonly barriers: Float64Array) {
    this.index = new PieceIndex(barriers)
  }

  /** Turns to steps inside a box; says whether any piece can cross them. */
  face(box: Box): boolean {
    this.near.length = 0
    this.index.visit(box, NOTHING, (piece) => void this.near.push(piece))
    return this.near.length > 0
  }

  /**
   * Whether a piece lies across the step from one place to another inside the box. A place exactly
   * on a barrier is seen from both of its sides.
   */
  crosses(x: number, y: number, toX: number, toY: number): boolean {
    for (const piece of this.near) if (cuts(this.barriers, piece, x, y, toX, toY)) return true
    return false
  }
}

/**
 * Whether a piece lies across the step from (x, y) to (toX, toY), working units. A piece's end that
 * lies exactly on the step counts to one side, so that no gap opens where two pieces of a line meet.
 *
 * @param barriers four numbers a piece: its two ends
 * @param piece index of its first number
 */
export function cuts(
  barriers: Float64Array,
  piece: number,
  x: number,
  y: number,
  toX: number,
  toY: number,
): boolean {
  const dx = toX - x
  const dy = toY - y
  const ax = barriers[piece] - x
  const ay = barriers[piece + 1] - y
  const bx = barriers[piece + 2] - x
  const by = barriers[piece + 3] - y
  if (dx * ay - dy * ax >= 0 === dx * by - dy * bx >= 0) return false
  const px = bx - ax
  const py = by - ay
  const here = px * -ay - py * -ax
  const there = px * (dy - ay) - py * (dx - ax)
  return (here < 0 && there > 0) || (here > 0 && there < 0)
}
