/** The nearest points to a place, by buckets of a square grid. */

/** Finds nearest points; ties go to the higher index, as gstat has it on equal distances. Places are in the plane it was built in. */
export class NeighbourIndex {
  readonly u: Float64Array
  readonly v: Float64Array
  private readonly west: number
  private readonly south: number
  private readonly side: number
  private readonly columns: number
  private readonly rows: number
  /** Points of bucket b are `members[starts[b] … starts[b + 1])`, ascending. */
  private readonly starts: Int32Array
  private readonly members: Int32Array

  /** @param u east and @param v north of each point, finite */
  constructor(u: Float64Array, v: Float64Array) {
    this.u = u
    this.v = v
    const n = u.length
    let west = Infinity
    let south = Infinity
    let east = -Infinity
    let north = -Infinity
    for (let i = 0; i < n; i++) {
      west = Math.min(west, u[i])
      east = Math.max(east, u[i])
      south = Math.min(south, v[i])
      north = Math.max(north, v[i])
    }
    const width = Math.max(east - west, 0)
    const height = Math.max(north - south, 0)
    // About two points a bucket over the bounding box, and never a sliver of buckets.
    const side = Math.max(Math.sqrt((2 * width * height) / n), Math.max(width, height) / (2 * n))
    this.side = side > 0 ? side : 1
    this.west = n > 0 ? west : 0
    this.south = n > 0 ? south : 0
    this.columns = Math.max(1, Math.floor(width / this.side) + 1)
    this.rows = Math.max(1, Math.floor(height / this.side) + 1)
    this.starts = new Int32Array(this.columns * this.rows + 1)
    this.members = new Int32Array(n)
    this.fillBuckets()
  }

  private fillBuckets(): void {
    const { starts, members } = this
    const bucket = new Int32Array(this.u.length)
    for (let i = 0; i < bucket.length; i++) {
      bucket[i] = this.rowOf(this.v[i]) * this.columns + this.columnOf(this.u[i])
      starts[bucket[i] + 1]++
    }
    for (let b = 0; b + 1 < starts.length; b++) starts[b + 1] += starts[b]
    const next = starts.slice(0, -1)
    for (let i = 0; i < bucket.length; i++) members[next[bucket[i]]++] = i
  }

  private columnOf(u: number): number {
    return Math.min(this.columns - 1, Math.max(0, Math.floor((u - this.west) / this.side)))
  }

  private rowOf(v: number): number {
    return Math.min(this.rows - 1, Math.max(0, Math.floor((v - this.south) / this.side)))
  }

  /**
   * The `count` nearest points to (u, v), nearest first, leaving out the point `except`.
   *
   * @param found takes the indices; @param squared their squared distances; both ≥ count long
   * @returns how many there are: `count`, or all that exist
   */
  nearest(
    u: number,
    v: number,
    count: number,
    found: Int32Array,
    squared: Float64Array,
    except = -1,
  ): number {
    const column = this.columnOf(u)
    const row = this.rowOf(v)
    let size = 0
    for (let ring = 0; ; ring++) {
      if (
        ring > 0 &&
        size === count &&
        this.ringDistance(u, v, column, row, ring) ** 2 > squared[size - 1]
      )
        return size
      const left = column - ring
      const right = column + ring
      const bottom = row - ring
      const top = row + ring
      if (left < 0 && bottom < 0 && right >= this.columns && top >= this.rows) return size
      for (let r = Math.max(0, bottom); r <= Math.min(this.rows - 1, top); r++) {
        const whole = r === bottom || r === top
        const step = whole || ring === 0 ? 1 : 2 * ring
        for (let c = left; c <= right; c += step) {
          if (c < 0 || c >= this.columns) continue
          size = this.insertBucket(r * this.columns + c, u, v, count, found, squared, size, except)
        }
      }
    }
  }

  /** The least distance from (u, v) to anything outside the rings before `ring`. */
  private ringDistance(u: number, v: number, column: number, row: number, ring: number): number {
    const inner = ring - 1
    let least = Infinity
    if (column - inner > 0) least = Math.min(least, u - (this.west + (column - inner) * this.side))
    if (column + inner < this.columns - 1)
      least = Math.min(least, this.west + (column + inner + 1) * this.side - u)
    if (row - inner > 0) least = Math.min(least, v - (this.south + (row - inner) * this.side))
    if (row + inner < this.rows - 1)
      least = Math.min(least, this.south + (row + inner + 1) * this.side - v)
    // A hair less, so that rounding of bucket limits can lose no point.
    return Math.max(0, least - 1e-9 * this.side)
  }

  private insertBucket(
    bucket: number,
    u: number,
    v: number,
    count: number,
    found: Int32Array,
    squared: Float64Array,
    size: number,
    except: number,
  ): number {
    for (let m = this.starts[bucket]; m < this.starts[bucket + 1]; m++) {
      const i = this.members[m]
      if (i === except) continue
      const du = this.u[i] - u
      const dv = this.v[i] - v
      const d2 = du * du + dv * dv
      if (size === count && !isBefore(d2, i, squared[size - 1], found[size - 1])) continue
      if (size < count) size++
      let at = size - 1
      while (at > 0 && isBefore(d2, i, squared[at - 1], found[at - 1])) {
        squared[at] = squared[at - 1]
        found[at] = found[at - 1]
        at--
      }
      squared[at] = d2
      found[at] = i
    }
    return size
  }

  /** At least as many as there are points within a radius: those of the buckets it touches. */
  countAround(u: number, v: number, radius: number): number {
    let count = 0
    const right = this.columnOf(u + radius)
    const top = this.rowOf(v + radius)
    for (let row = this.rowOf(v - radius); row <= top; row++) {
      const first = row * this.columns + this.columnOf(u - radius)
      count += this.starts[row * this.columns + right + 1] - this.starts[first]
    }
    return count
  }

  /**
   * All points no farther than `radius` from (u, v), ascending by index.
   *
   * @param found takes them; at least `countAround` long
   * @returns how many there are
   */
  within(u: number, v: number, radius: number, found: Int32Array): number {
    const size = this.around(u, v, radius, found)
    found.subarray(0, size).sort()
    return size
  }

  /** The same in whatever order they come. */
  around(u: number, v: number, radius: number, found: Int32Array): number {
    const right = this.columnOf(u + radius)
    const top = this.rowOf(v + radius)
    let size = 0
    for (let row = this.rowOf(v - radius); row <= top; row++) {
      const end = this.starts[row * this.columns + right + 1]
      for (let m = this.starts[row * this.columns + this.columnOf(u - radius)]; m < end; m++) {
        const i = this.members[m]
        const du = this.u[i] - u
        const dv = this.v[i] - v
        if (du * du + dv * dv <= radius * radius) found[size++] = i
      }
    }
    return size
  }
}

function isBefore(d2: number, i: number, otherD2: number, other: number): boolean {
  return d2 < otherD2 || (d2 === otherD2 && i > other)
}

/**
 * Distance from each point to its nearest other point, working units; Infinity for a lone point.
 */
export function nearestDistances(x: Float64Array, y: Float64Array): Float64Array {
  const index = new NeighbourIndex(x, y)
  const found = new Int32Array(1)
  const squared = new Float64Array(1)
  return x.map((_, i) =>
    index.nearest(x[i], y[i], 1, found, squared, i) === 1 ? Math.sqrt(squared[0]) : Infinity,
  )
}
