/**
 * What a new station is worth: the fall of kriging variance that it brings, which needs no value
 * there (for instance Cressie 1993, Statistics for Spatial Data, section 5.6).
 */
import { factorPacked, forward, packedLength } from '../surfaces/cholesky'
import type { Variogram } from '../surfaces/model'
import { correlation, planeOf, totalSill } from '../surfaces/variogram-models'

/** Places, working units. */
export interface Spots {
  readonly x: Float64Array
  readonly y: Float64Array
}

export interface WorthInput {
  readonly variogram: Variogram
  /** Where values are known. */
  readonly stations: Spots
  /** One variance of each station's own value beside the variogram's; absent for none. */
  readonly variances?: Float64Array
  /** Where the surface is to become surer. */
  readonly nodes: Spots
  /** Where a station might be. */
  readonly candidates: Spots
}

/** Covariances of the errors of ordinary kriging, which do not depend on values. */
export interface Errors {
  /** Squared unit; one a node. */
  readonly nodes: Float64Array
  /** Node by node, a covariance with each candidate. */
  readonly cross: Float64Array
  /** Candidate by candidate; the nugget stands in the diagonal. */
  readonly among: Float64Array
}

/**
 * The errors of ordinary kriging from all stations at once (their number should be some hundreds).
 * The nugget is each value's own: a station at a node does not tell the node's.
 *
 * @throws RangeError where there is no station
 */
export function krigingErrors(input: WorthInput): Errors {
  const { variogram, stations, variances, nodes, candidates } = input
  const count = stations.x.length
  if (count === 0) throw new RangeError('no station to krige from')
  const shared = sharedCovariance(variogram)
  const sill = totalSill(variogram)
  const factor = new Float64Array(packedLength(count))
  for (let i = 0, entry = 0; i < count; i++) {
    for (let j = 0; j < i; j++) factor[entry++] = between(shared, stations, i, stations, j)
    factor[entry++] = sill + (variances?.[i] ?? 0)
  }
  const inverse = new Float64Array(count)
  factorPacked(factor, inverse, count)
  const solved = (right: Float64Array) => {
    forward(factor, inverse, count, right)
    return right
  }
  const ones = solved(new Float64Array(count).fill(1))
  const total = dot(ones, ones)
  const rowsOf = (spots: Spots) =>
    Array.from(spots.x, (_, spot) => {
      const own = solved(
        Float64Array.from({ length: count }, (_, i) => between(shared, stations, i, spots, spot)),
      )
      return { own, lacks: (1 - dot(ones, own)) / Math.sqrt(total) }
    })
  const [ofNodes, ofCandidates] = [rowsOf(nodes), rowsOf(candidates)]
  const many = candidates.x.length
  const cross = new Float64Array(nodes.x.length * many)
  ofNodes.forEach((node, i) =>
    ofCandidates.forEach((candidate, j) => {
      cross[i * many + j] =
        between(shared, nodes, i, candidates, j) -
        dot(node.own, candidate.own) +
        node.lacks * candidate.lacks
    }),
  )
  const among = new Float64Array(many * many)
  ofCandidates.forEach((a, i) =>
    ofCandidates.forEach((b, j) => {
      const apart = i === j ? sill : between(shared, candidates, i, candidates, j)
      among[i * many + j] = apart - dot(a.own, b.own) + a.lacks * b.lacks
    }),
  )
  return {
    nodes: Float64Array.from(ofNodes, ({ own, lacks }) => sill - dot(own, own) + lacks * lacks),
    cross,
    among,
  }
}

/** How much the sum of the nodes' variances falls by a station at a candidate. */
export function fallBy({ nodes, cross, among }: Errors, candidate: number): number {
  const many = Math.sqrt(among.length)
  const own = among[candidate * many + candidate]
  if (!(own > 0)) return 0
  let squares = 0
  for (let i = 0; i < nodes.length; i++) squares += cross[i * many + candidate] ** 2
  return squares / own
}

/** The errors once there is a station at a candidate, which then brings nothing more. */
export function withStationAt(errors: Errors, candidate: number): Errors {
  const many = Math.sqrt(errors.among.length)
  const own = errors.among[candidate * many + candidate]
  const nodes = errors.nodes.slice()
  const cross = errors.cross.slice()
  const among = errors.among.slice()
  if (!(own > 0)) return { nodes, cross, among }
  const row = errors.among.subarray(candidate * many, (candidate + 1) * many)
  for (let i = 0; i < nodes.length; i++) {
    const part = errors.cross[i * many + candidate] / own
    nodes[i] = Math.max(0, nodes[i] - part * errors.cross[i * many + candidate])
    for (let j = 0; j < many; j++) cross[i * many + j] -= part * row[j]
  }
  for (let i = 0; i < many; i++) {
    const part = row[i] / own
    for (let j = 0; j < many; j++) among[i * many + j] -= part * row[j]
  }
  // What is known brings nothing more; rounding may not make it.
  for (let i = 0; i < nodes.length; i++) cross[i * many + candidate] = 0
  for (let i = 0; i < many; i++) among[i * many + candidate] = among[candidate * many + i] = 0
  return { nodes, cross, among }
}

/** The errors for some of the candidates alone, in the order given. */
export function errorsAt(errors: Errors, candidates: readonly number[]): Errors {
  const many = Math.sqrt(errors.among.length)
  const few = candidates.length
  const cross = new Float64Array(errors.nodes.length * few)
  for (let i = 0; i < errors.nodes.length; i++) {
    candidates.forEach((candidate, j) => {
      cross[i * few + j] = errors.cross[i * many + candidate]
    })
  }
  const among = Float64Array.from({ length: few * few }, (_, i) => {
    return errors.among[candidates[Math.floor(i / few)] * many + candidates[i % few]]
  })
  return { nodes: errors.nodes, cross, among }
}

/** Covariance of two places by the step between them, the nugget left out. */
function sharedCovariance(variogram: Variogram): (dx: number, dy: number) => number {
  const { uu, uv, vu, vv } = planeOf(variogram)
  return (dx, dy) => {
    const h = Math.hypot(uu * dx + uv * dy, vu * dx + vv * dy)
    return variogram.structures.reduce((sum, each) => sum + each.sill * correlation(each, h), 0)
  }
}

function between(
  shared: (dx: number, dy: number) => number,
  a: Spots,
  i: number,
  b: Spots,
  j: number,
): number {
  return shared(a.x[i] - b.x[j], a.y[i] - b.y[j])
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i]
  return sum
}
