/**
 * The shape that is compared: ln reflectance less its own smooth trend, so that level, slope
 * and broad continuum drop out and absorptions add up as Beer's law has it. Unlike a hull it
 * is linear: noise averages out instead of lifting the continuum.
 */
import { GRID, nodesBetween, SPACING } from './work-grid'

/** Full widths at half height of what is kept and of the trend that is taken off, nm. */
interface Scale {
  /** From 1300 nm: hydroxyl, water, carbonate, sulfate. */
  readonly fine: number
  readonly trend: number
  /** Below 1300 nm, where iron and copper absorb broadly. */
  readonly fineVisible: number
  readonly trendVisible: number
}

/** From clean to noisy scans: the more noise, the smoother the shape. */
const SCALES: readonly Scale[] = [
  { fine: 15, trend: 60, fineVisible: 25, trendVisible: 120 },
  { fine: 20, trend: 80, fineVisible: 25, trendVisible: 120 },
  { fine: 35, trend: 120, fineVisible: 60, trendVisible: 300 },
]

/** Beside it, for scans of any noise: broad shapes. */
const COARSE: Scale = { fine: 40, trend: 160, fineVisible: 60, trendVisible: 300 }

/** Below this standard deviation of ln reflectance a node, the first and the second scale serve. */
const NOISE_LIMITS = [0.004, 0.01]

/** The scale for a scan's noise (standard deviation of ln reflectance on the grid at 2200 nm). */
export function scaleForNoise(noise: number): number {
  const found = NOISE_LIMITS.findIndex((limit) => noise < limit)
  return found < 0 ? SCALES.length - 1 : found
}

/**
 * How much each part of the range counts: iron stains and adsorbed water change from sample to
 * sample of one mineral, hydroxyl and carbonate overtones beyond 2080 nm hardly do.
 */
const COUNTS: readonly (readonly [from: number, to: number, weight: number])[] = [
  [400, 1000, 0.5],
  [1000, 1480, 1],
  [1480, 1860, 0.8],
  [1860, 2080, 0.7],
  [2080, 2500, 1],
]

/** The parts of the range that are also compared each for itself: nodes [start, end). */
export const PARTS: readonly (readonly [start: number, end: number])[] = [
  [400, 1339],
  [1340, 1479],
  [1480, 1859],
  [1860, 2079],
  [2080, 2500],
].map(([from, to]) => nodesBetween(from, to))

interface ShapeRow {
  readonly start: number
  readonly weights: Float64Array
}

const keptRows = new Map<Scale, readonly ShapeRow[]>()

/** A scale's rows, made when first asked for. */
function rowsOf(scale: Scale): readonly ShapeRow[] {
  const rows = keptRows.get(scale) ?? Array.from(GRID, (_, node) => shapeRow(node, scale))
  keptRows.set(scale, rows)
  return rows
}

/** The shape of ln reflectance on the grid, weighted so that its squares sum as an integral. */
export function shapeOf(log: Float64Array, scale: number): Float64Array {
  return shapeBy(log, rowsOf(SCALES[scale]))
}

/** The broad shape that stands beside it. */
export function coarseShapeOf(log: Float64Array): Float64Array {
  return shapeBy(log, rowsOf(COARSE))
}

function shapeBy(log: Float64Array, rows: readonly ShapeRow[]): Float64Array {
  const shape = new Float64Array(GRID.length)
  for (let node = 0; node < GRID.length; node++) {
    const { start, weights } = rows[node]
    let sum = 0
    for (let k = 0; k < weights.length; k++) sum += weights[k] * log[start + k]
    shape[node] = sum
  }
  return shape
}

/** Variance of the shape at each node from independent variances of ln reflectance. */
export function shapeVariance(variance: Float64Array, scale: number): Float64Array {
  const rows = rowsOf(SCALES[scale])
  const shape = new Float64Array(GRID.length)
  for (let node = 0; node < GRID.length; node++) {
    const { start, weights } = rows[node]
    let sum = 0
    for (let k = 0; k < weights.length; k++) sum += weights[k] * weights[k] * variance[start + k]
    shape[node] = sum
  }
  return shape
}

/** What compression leaves nearly alone: shape below this is small against noise and mismatch. */
const SMALL = 0.003

const ROOT_SMALL = Math.sqrt(SMALL)

/**
 * Strong absorptions held back (signed square root, linear near zero): grain size and albedo
 * change strong bands most, and a few of them would drown the rest.
 */
export function compress(value: number): number {
  return value < 0 ? ROOT_SMALL - Math.sqrt(SMALL - value) : Math.sqrt(SMALL + value) - ROOT_SMALL
}

function shapeRow(node: number, scale: Scale): ShapeRow {
  const visible = GRID[node] < 1300
  const fine = smoothing(node, visible ? scale.fineVisible : scale.fine)
  const trend = smoothing(node, visible ? scale.trendVisible : scale.trend)
  const weight = Math.sqrt(SPACING[node])
  const row = fine.map((value, i) => (value - trend[i]) * weight)
  let start = 0
  while (Math.abs(row[start]) < 1e-6) start++
  let end = row.length
  while (Math.abs(row[end - 1]) < 1e-6) end--
  return { start, weights: row.slice(start, end) }
}

/** Weight of each node in a comparison. */
export const NODE_WEIGHTS: Float64Array = GRID.map(
  (nm) => COUNTS.find(([from, to]) => nm >= from && nm < to)?.[2] ?? 0,
)

function smoothing(node: number, fwhm: number): Float64Array {
  const row = GRID.map(
    (nm, i) => SPACING[i] * Math.exp(-4 * Math.LN2 * ((nm - GRID[node]) / fwhm) ** 2),
  )
  const total = row.reduce((sum, value) => sum + value, 0)
  return row.map((value) => value / total)
}
