/** Where a station might be worth its walk. */
import { nodeX, nodeY } from '../surfaces/grid'
import type { SurfaceBands } from '../surfaces/model'
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

/** Every so-manieth node that is drawn and wanted, as few apart as keep to a number. */
function spread(
  { grid, estimate }: SurfaceBands,
  most: number,
  isWanted: (x: number, y: number) => boolean,
): Spots {
  const x: number[] = []
  const y: number[] = []
  for (let node = 0; node < estimate.length; node++) {
    const column = node % grid.columns
    const [east, north] = [nodeX(grid, column), nodeY(grid, (node - column) / grid.columns)]
    if (Number.isNaN(estimate[node]) || !isWanted(east, north)) continue
    x.push(column)
    y.push((node - column) / grid.columns)
  }
  for (let step = Math.max(1, Math.floor(Math.sqrt(x.length / most))); ; step++) {
    const kept = x.flatMap((column, i) => {
      const offset = Math.floor(step / 2)
      return column % step === offset && y[i] % step === offset ? [i] : []
    })
    if (kept.length > most || (kept.length === 0 && step === 1 && x.length > 0)) continue
    return {
      x: Float64Array.from(kept, (i) => nodeX(grid, x[i])),
      y: Float64Array.from(kept, (i) => nodeY(grid, y[i])),
    }
  }
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
