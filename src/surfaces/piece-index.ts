/** Straight pieces of lines, found by the rectangle that they touch. */

/** A rectangle of places. */
export interface Box {
  readonly west: number
  readonly south: number
  readonly east: number
  readonly north: number
}

type Excludes = (west: number, south: number, east: number, north: number) => boolean

/** Neighbouring pieces, and neighbouring bounds, that are bounded together. */
const TOGETHER = 8

/**
 * A tree of bounds over pieces in the order given, which for the pieces of a line is an order of
 * nearness.
 */
export class PieceIndex {
  /** Bounds of each level as west, south, east, north …, the pieces' own first. */
  private readonly levels: Float64Array[] = []

  /** @param pieces as x1, y1, x2, y2 … */
  constructor(readonly pieces: Float64Array) {
    let bounds = new Float64Array(pieces.length)
    for (let at = 0; at < pieces.length; at += 4) {
      bounds[at] = Math.min(pieces[at], pieces[at + 2])
      bounds[at + 1] = Math.min(pieces[at + 1], pieces[at + 3])
      bounds[at + 2] = Math.max(pieces[at], pieces[at + 2])
      bounds[at + 3] = Math.max(pieces[at + 1], pieces[at + 3])
    }
    this.levels.push(bounds)
    while (bounds.length > 4 * TOGETHER) {
      bounds = boundedTogether(bounds)
      this.levels.push(bounds)
    }
  }

  /**
   * Has every piece visited whose bounds touch a box, in order, by where it starts in `pieces`.
   *
   * @param excludes whether bounds can hold nothing of interest
   */
  visit(box: Box, excludes: Excludes, visitor: (piece: number) => void): void {
    const top = this.levels.length - 1
    this.visitLevel(top, 0, this.levels[top].length, box, excludes, visitor)
  }

  private visitLevel(
    level: number,
    from: number,
    to: number,
    box: Box,
    excludes: Excludes,
    visitor: (piece: number) => void,
  ): void {
    const bounds = this.levels[level]
    for (let at = from; at < to; at += 4) {
      if (bounds[at] > box.east || bounds[at + 2] < box.west) continue
      if (bounds[at + 1] > box.north || bounds[at + 3] < box.south) continue
      if (level === 0) {
        visitor(at)
        continue
      }
      if (excludes(bounds[at], bounds[at + 1], bounds[at + 2], bounds[at + 3])) continue
      const end = Math.min((at + 4) * TOGETHER, this.levels[level - 1].length)
      this.visitLevel(level - 1, at * TOGETHER, end, box, excludes, visitor)
    }
  }
}

function boundedTogether(bounds: Float64Array): Float64Array<ArrayBuffer> {
  const groups = Math.ceil(bounds.length / (4 * TOGETHER))
  const out = new Float64Array(4 * groups)
  for (let group = 0; group < groups; group++) {
    const part = bounds.subarray(4 * TOGETHER * group, 4 * TOGETHER * (group + 1))
    let [west, south, east, north] = part
    for (let at = 4; at < part.length; at += 4) {
      west = Math.min(west, part[at])
      south = Math.min(south, part[at + 1])
      east = Math.max(east, part[at + 2])
      north = Math.max(north, part[at + 3])
    }
    out.set([west, south, east, north], 4 * group)
  }
  return out
}
