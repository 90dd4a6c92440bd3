/**
 * Runs water over a rough surface: hollows are filled, each cell drains to its steepest lower
 * neighbour, and streams cut by their catchment and slope (the stream power law, solved from
 * the mouth upward as Braun and Willett 2013, Geomorphology 180, 170).
 */

/** A square grid of heights, the northernmost row first. */
export interface HeightGrid {
  readonly columns: number
  readonly rows: number
  /** Metres. */
  readonly cell: number
  readonly heights: Float64Array
}

/** A fall that makes a filled hollow drain, metres a cell. */
const TRICKLE = 0.01

/**
 * Cuts valleys in place; the edge stays where it is.
 *
 * @param strength for each cell how easily it is cut, 1/turn · m^(1 − 2·0.5)
 */
export function erode(grid: HeightGrid, strength: Float64Array, turns: number): void {
  for (let turn = 0; turn < turns; turn++) {
    const order = fillHollows(grid)
    const receivers = steepest(grid)
    const catchment = new Float64Array(grid.heights.length).fill(grid.cell ** 2)
    for (let k = order.length - 1; k >= 0; k--) {
      const receiver = receivers[order[k]]
      if (receiver >= 0) catchment[receiver] += catchment[order[k]]
    }
    for (const cell of order) {
      const receiver = receivers[cell]
      if (receiver < 0) continue
      const cut = (strength[cell] * Math.sqrt(catchment[cell])) / grid.cell
      grid.heights[cell] = (grid.heights[cell] + cut * grid.heights[receiver]) / (1 + cut)
    }
  }
}

/** Lets slopes creep: each inner cell moves toward the mean of its four neighbours. */
export function creep(grid: HeightGrid, part: number, turns: number): void {
  const { columns, rows, heights } = grid
  for (let turn = 0; turn < turns; turn++) {
    const before = heights.slice()
    for (let row = 1; row < rows - 1; row++) {
      for (let column = 1; column < columns - 1; column++) {
        const i = row * columns + column
        const mean = (before[i - 1] + before[i + 1] + before[i - columns] + before[i + columns]) / 4
        heights[i] += part * (mean - before[i])
      }
    }
  }
}

/**
 * Fills hollows from the edge inward (priority flood: Barnes, Lehman and Mulla 2014, Computers
 * and Geosciences 62, 117).
 *
 * @returns the cells, each after the one that it drains to
 */
function fillHollows(grid: HeightGrid): Int32Array {
  const { columns, rows, heights } = grid
  const queue = new LowestFirst()
  const seen = new Uint8Array(heights.length)
  for (let i = 0; i < heights.length; i++) {
    const [row, column] = [Math.floor(i / columns), i % columns]
    if (row > 0 && row < rows - 1 && column > 0 && column < columns - 1) continue
    seen[i] = 1
    queue.add(i, heights[i])
  }
  const order = new Int32Array(heights.length)
  for (let k = 0; k < order.length; k++) {
    const cell = queue.take()
    order[k] = cell
    for (const other of neighbours(grid, cell)) {
      if (seen[other]) continue
      seen[other] = 1
      heights[other] = Math.max(heights[other], heights[cell] + TRICKLE)
      queue.add(other, heights[other])
    }
  }
  return order
}

/** The steepest lower neighbour of each cell; −1 on the edge. */
function steepest(grid: HeightGrid): Int32Array {
  const { columns, rows, heights } = grid
  return Int32Array.from(heights, (height, i) => {
    const [row, column] = [Math.floor(i / columns), i % columns]
    if (row === 0 || row === rows - 1 || column === 0 || column === columns - 1) return -1
    let best = -1
    let most = 0
    for (const other of neighbours(grid, i)) {
      const straight = Math.abs(other - i) === 1 || Math.abs(other - i) === columns
      const fall = (height - heights[other]) / (straight ? 1 : Math.SQRT2)
      if (fall > most) [best, most] = [other, fall]
    }
    return best
  })
}

function neighbours({ columns, rows }: HeightGrid, cell: number): number[] {
  const [row, column] = [Math.floor(cell / columns), cell % columns]
  const found: number[] = []
  for (let r = Math.max(0, row - 1); r <= Math.min(rows - 1, row + 1); r++) {
    for (let c = Math.max(0, column - 1); c <= Math.min(columns - 1, column + 1); c++) {
      if (r !== row || c !== column) found.push(r * columns + c)
    }
  }
  return found
}

/** A binary heap of cells, the lowest first; equal heights by number, so that the order is fixed. */
class LowestFirst {
  private readonly cells: number[] = []
  private readonly heights: number[] = []

  add(cell: number, height: number): void {
    let at = this.cells.push(cell) - 1
    this.heights.push(height)
    while (at > 0) {
      const above = (at - 1) >> 1
      if (!this.before(at, above)) return
      this.swap(at, above)
      at = above
    }
  }

  take(): number {
    const cell = this.cells[0]
    this.swap(0, this.cells.length - 1)
    this.cells.pop()
    this.heights.pop()
    let at = 0
    for (;;) {
      let least = at
      for (const below of [2 * at + 1, 2 * at + 2]) {
        if (below < this.cells.length && this.before(below, least)) least = below
      }
      if (least === at) return cell
      this.swap(at, least)
      at = least
    }
  }

  private before(a: number, b: number): boolean {
    return (
      this.heights[a] < this.heights[b] ||
      (this.heights[a] === this.heights[b] && this.cells[a] < this.cells[b])
    )
  }

  private swap(a: number, b: number): void {
    ;[this.cells[a], this.cells[b]] = [this.cells[b], this.cells[a]]
    ;[this.heights[a], this.heights[b]] = [this.heights[b], this.heights[a]]
  }
}
