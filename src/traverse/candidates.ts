/** Where a station might be worth its walk. */
import { nodeX, nodeY } from '../surfaces/grid'
import type { Grid, SurfaceBands } from '../surfaces/model'
import { fallBy, withStationAt, type Errors, type Spots } from './worth'

/** Nodes at most by which worth is measured. */
const MOST_NODES = 1200
/** Spots at most among which candidates are sought. */
const MOST_SPOTS = 260

/** Evenly spread nodes of the drawn part of a surface, where it is to become surer. */
export function areaNodes(bands: SurfaceBands): Spots {
  return spread(bands, MOST_NODES, () => true)
}

/** Evenly spread spots of the drawn part of a surface that can be walked to and back in time. */
export function possibleSpots(
  bands: SurfaceBands,
  isNear: (x: number, y: number) => boolean,
): Spots {
  return spread(bands, MOST_SPOTS, isNear)
}

/**
 * A square lattice of the nodes that are drawn and wanted, as few nodes apart as keeps to a number;
 * of ground that is narrower than that, every so-manieth node. At least one where there is any.
 */
function spread(
  { grid, estimate }: SurfaceBands,
  most: number,
  isWanted: (x: number, y: number) => boolean,
): Spots {
  const { columns, rows } = grid
  const isIn = (column: number, row: number) =>
    !Number.isNaN(estimate[row * columns + column]) &&
    isWanted(nodeX(grid, column), nodeY(grid, row))
  // Grids have up to 16 million nodes: they are counted, and never listed.
  let count = 0
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) if (isIn(column, row)) count++
  let step = Math.max(1, Math.floor(Math.sqrt(count / most)))
  let kept = latticeOf(grid, step, most, isIn)
  while (kept.length > most) kept = latticeOf(grid, ++step, most, isIn)
  if (kept.length < Math.min(count, most) / NARROW) {
    kept = everyOf(grid, Math.ceil(count / most), isIn)
  }
  return {
    x: Float64Array.from(kept, (node) => nodeX(grid, node % columns)),
    y: Float64Array.from(kept, (node) => nodeY(grid, Math.floor(node / columns))),
  }
}

/** A lattice over ground of some width has at least a fourth of the nodes that it may have. */
const NARROW = 8

/** Nodes of a lattice, row by row; one more than asked for at most. */
function latticeOf(
  { columns, rows }: Grid,
  step: number,
  most: number,
  isIn: (column: number, row: number) => boolean,
): number[] {
  const offset = Math.floor(step / 2)
  const kept: number[] = []
  for (let row = offset; row < rows; row += step) {
    for (let column = offset; column < columns; column += step) {
      if (!isIn(column, row)) continue
      kept.push(row * columns + column)
      if (kept.length > most) return kept
    }
  }
  return kept
}

/** Every so-manieth node, row by row. */
function everyOf(
  { columns, rows }: Grid,
  each: number,
  isIn: (column: number, row: number) => boolean,
): number[] {
  const kept: number[] = []
  let passed = 0
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      if (isIn(column, row) && passed++ % each === Math.floor(each / 2))
        kept.push(row * columns + column)
    }
  }
  return kept
}

/** A candidate, and how much the mean variance falls by it once those before it are stations. */
export interface Candidate {
  readonly spot: number
  readonly fall: number
}

/**
 * The spots that bring most, the best first, each judged with those before it as stations: so two
 * that tell the same do not both count (greedy choice is within 37 % of the best for falls that
 * shrink as others are chosen: Nemhauser, Wolsey and Fisher 1978, Math. Program. 14, 265).
 *
 * @param isOpen whether a spot may be chosen
 */
export function bestCandidates(
  errors: Errors,
  most: number,
  isOpen: (spot: number) => boolean,
): Candidate[] {
  const spots = Array.from({ length: Math.sqrt(errors.among.length) }, (_, i) => i).filter(isOpen)
  const chosen: Candidate[] = []
  let left = errors
  while (chosen.length < Math.min(most, spots.length)) {
    let best = -1
    let fall = 0
    for (const spot of spots) {
      const own = fallBy(left, spot)
      if (own > fall) {
        fall = own
        best = spot
      }
    }
    if (best < 0) break
    chosen.push({ spot: best, fall: fall / errors.nodes.length })
    left = withStationAt(left, best)
  }
  return chosen
}
