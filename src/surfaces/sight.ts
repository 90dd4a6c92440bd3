/**
 * Which stations are seen from where: a straight line to them crosses no fault or contact.
 *
 * It works block by block. For each station only the pieces that can lie between it and the block
 * are kept; most stations have none, and many of the others are hidden from all of the block by
 * pieces that hang together, mostly the same that hid the station before.
 */
import { cuts } from './crossing'
import { PieceIndex, type Box } from './piece-index'

const NOTHING = () => false

/** Pieces to either side of those that hid one station that are tried on the next. */
const MARGIN = 8

/** Says which stations are cut off from which places of a block. */
export class Sight {
  private box: Box = { west: 0, south: 0, east: 0, north: 0 }
  private readonly index: PieceIndex
  /** Pieces between a station and the block, once asked for: places in `lists`. */
  private readonly starts: Int32Array
  private readonly ends: Int32Array
  private lists = new Int32Array(256)
  private listed = 0
  /** The station whose pieces are sought: its place, its tangents to the block, a hair's area. */
  private readonly hull = { x: 0, y: 0, lx: 0, ly: 0, rx: 0, ry: 0, hair: 0 }
  private readonly around = { west: 0, south: 0, east: 0, north: 0 }
  /** Pieces that hid a station from the block, counted in pieces. */
  private screen = { from: 0, to: 0 }

  constructor(
    private readonly x: Float64Array,
    private readonly y: Float64Array,
    private readonly barriers: Float64Array,
  ) {
    this.index = new PieceIndex(barriers)
    this.starts = new Int32Array(x.length).fill(-1)
    this.ends = new Int32Array(x.length)
  }

  /** Turns to the places of a rectangle. */
  face(box: Box): void {
    this.box = box
    this.starts.fill(-1)
    this.listed = 0
    this.screen.to = this.screen.from
  }

  /** Whether a barrier can run through the block. */
  isStraddled(): boolean {
    const { box } = this
    this.stand((box.west + box.east) / 2, (box.south + box.north) / 2)
    let straddled = false
    this.index.visit(box, NOTHING, (piece) => {
      straddled ||= this.mayCross(piece)
    })
    return straddled
  }

  /** Whether nothing can lie between a station and any place of the block. */
  isClear(station: number): boolean {
    this.seek(station)
    return this.starts[station] === this.ends[station]
  }

  /**
   * Whether one piece, or pieces that hang together, hide a station from every place of the block;
   * where it says no, each place must be asked for.
   */
  isHidden(station: number): boolean {
    const { screen, starts, ends } = this
    this.stand(this.x[station], this.y[station])
    if (screen.to > screen.from && this.screens(null, screen.from, screen.to)) return true
    this.seek(station)
    const [start, end] = [starts[station], ends[station]]
    return start < end && (this.screens(this.lists, start, end) || this.oneHides(station))
  }

  /**
   * Whether the straight line from a place of the block to a station crosses no barrier. A station
   * exactly on a barrier is seen from both of its sides.
   */
  sees(x: number, y: number, station: number): boolean {
    this.seek(station)
    const { lists } = this
    const start = this.starts[station]
    for (let at = start; at < this.ends[station]; at++) {
      const piece = lists[at]
      if (!cuts(this.barriers, piece, x, y, this.x[station], this.y[station])) continue
      // What hides it from here hides it from next door too: asked first there.
      lists[at] = lists[start]
      lists[start] = piece
      return false
    }
    return true
  }

  /** Lists the pieces that can lie between a station and the block, unless they are known. */
  private seek(station: number): void {
    if (this.starts[station] >= 0) return
    const { box, around } = this
    const x = this.x[station]
    const y = this.y[station]
    around.west = Math.min(box.west, x)
    around.east = Math.max(box.east, x)
    around.south = Math.min(box.south, y)
    around.north = Math.max(box.north, y)
    this.stand(x, y)
    this.starts[station] = this.listed
    this.index.visit(around, this.isOutside, this.list)
    this.ends[station] = this.listed
  }

  private readonly list = (piece: number) => {
    if (!this.mayCross(piece)) return
    if (this.listed === this.lists.length) {
      const longer = new Int32Array(2 * this.listed)
      longer.set(this.lists)
      this.lists = longer
    }
    this.lists[this.listed++] = piece
  }

  /** Puts the hull's tip at a place: all of the block lies right of one tangent, left of the other. */
  private stand(x: number, y: number): void {
    const { hull, box } = this
    const width = Math.max(box.east, x) - Math.min(box.west, x)
    const span = width + Math.max(box.north, y) - Math.min(box.south, y)
    hull.x = x
    hull.y = y
    hull.hair = 1e-10 * span * span
    hull.lx = hull.ly = hull.rx = hull.ry = 0
    if (x >= box.west && x <= box.east && y >= box.south && y <= box.north) return
    hull.lx = hull.rx = box.west - x
    hull.ly = hull.ry = box.south - y
    this.widen(box.east - x, box.south - y)
    this.widen(box.east - x, box.north - y)
    this.widen(box.west - x, box.north - y)
  }

  private widen(cx: number, cy: number): void {
    const { hull } = this
    if (hull.lx * cy - hull.ly * cx > 0) {
      hull.lx = cx
      hull.ly = cy
    }
    if (hull.rx * cy - hull.ry * cx < 0) {
      hull.rx = cx
      hull.ry = cy
    }
  }

  /** Whether bounds lie wholly outside one of the tangents. */
  private readonly isOutside = (west: number, south: number, east: number, north: number) => {
    const { x, y, lx, ly, rx, ry, hair } = this.hull
    return (
      lx * ((lx > 0 ? south : north) - y) - ly * ((ly > 0 ? east : west) - x) > hair ||
      rx * ((rx > 0 ? north : south) - y) - ry * ((ry > 0 ? west : east) - x) < -hair
    )
  }

  /**
   * Whether pieces that hang together lead from outside one of the hull's tangents to outside the
   * other, between its tip and the nearest of the block: every line to the block crosses them.
   *
   * @param list of the pieces; null for all pieces, counted from the first
   */
  private screens(list: Int32Array | null, from: number, to: number): boolean {
    const { box, barriers } = this
    const { x, y, lx, ly, rx, ry } = this.hull
    const cx = (box.west + box.east) / 2 - x
    const cy = (box.south + box.north) / 2 - y
    const nearest =
      cx * ((cx > 0 ? box.west : box.east) - x) + cy * ((cy > 0 ? box.south : box.north) - y)
    let left = false
    let right = false
    let end = -1
    for (let at = from; at < to; at++) {
      const piece = list ? list[at] : 4 * at
      const joined =
        end >= 0 &&
        barriers[piece] === barriers[end + 2] &&
        barriers[piece + 1] === barriers[end + 3]
      if (!joined) left = right = false
      end = piece
      for (let corner = piece; corner < piece + 4; corner += 2) {
        const px = barriers[corner] - x
        const py = barriers[corner + 1] - y
        const along = cx * px + cy * py
        // Behind the station or beside the block: what leads there screens nothing.
        if (!(along > 0 && along < nearest)) left = right = false
        else if (lx * py - ly * px > 0) left = true
        else if (rx * py - ry * px < 0) right = true
      }
      if (!left || !right) continue
      if (list) {
        this.screen.from = Math.max(0, list[from] / 4 - MARGIN)
        this.screen.to = Math.min(barriers.length / 4, piece / 4 + MARGIN + 1)
      }
      return true
    }
    return false
  }

  /** Whether one of a station's pieces lies across the lines to all of the block. */
  private oneHides(station: number): boolean {
    const { west, south, east, north } = this.box
    // What a straight piece hides from a station is convex, so that the corners answer for all.
    for (let at = this.starts[station]; at < this.ends[station]; at++) {
      const piece = this.lists[at]
      if (!cuts(this.barriers, piece, west, south, this.x[station], this.y[station])) continue
      if (!cuts(this.barriers, piece, east, south, this.x[station], this.y[station])) continue
      if (!cuts(this.barriers, piece, west, north, this.x[station], this.y[station])) continue
      if (cuts(this.barriers, piece, east, north, this.x[station], this.y[station])) return true
    }
    return false
  }

  /** Whether a piece can lie between the hull's tip and the block; in doubt, yes. */
  private mayCross(piece: number): boolean {
    const { hull, barriers, box } = this
    const ax = barriers[piece] - hull.x
    const ay = barriers[piece + 1] - hull.y
    const bx = barriers[piece + 2] - hull.x
    const by = barriers[piece + 3] - hull.y
    const { lx, ly, rx, ry, hair } = hull
    if (lx * ay - ly * ax > hair && lx * by - ly * bx > hair) return false
    if (rx * ay - ry * ax < -hair && rx * by - ry * bx < -hair) return false
    // The tip and the block on one side of the piece's line.
    const px = bx - ax
    const py = by - ay
    const own = px * -ay - py * -ax
    if (Math.abs(own) <= hair) return true
    const side = own > 0 ? 1 : -1
    const w = box.west - hull.x - ax
    const e = box.east - hull.x - ax
    const s = box.south - hull.y - ay
    const n = box.north - hull.y - ay
    return (
      side * (px * s - py * w) <= hair ||
      side * (px * s - py * e) <= hair ||
      side * (px * n - py * w) <= hair ||
      side * (px * n - py * e) <= hair
    )
  }
}
