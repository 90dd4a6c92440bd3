/**
 * Liquid water, which lies on any scan of a damp rock and in fine powder, and is no mineral: its
 * absorption on the grid, and scans with a film of it taken off. Shapes are linear in ln
 * reflectance, so a film comes off a shape as it comes off the scan.
 */
import { modelContinuum } from './model'
import { dot } from './likeness'
import type { ScanShape } from './match'
import { linearShapes, shapeFrom, type PreparedShape } from './prepare'
import { bridge, GRID, nodesBetween } from './work-grid'

/** Films that are tried, micrometres. */
export const FILMS = [3, 10, 30] as const

/**
 * The imaginary index of liquid water: nm and k, the logarithm splined (Hale and Querry 1973,
 * Appl. Opt. 12, 555, and Palmer and Williams 1974, J. Opt. Soc. Am. 64, 1107; written down from
 * memory, so about right: films are tried coarsely, and minerals are never named by water).
 */
export const WATER_INDEX: readonly (readonly [nm: number, k: number])[] = [
  [350, 6e-9],
  [700, 3.4e-8],
  [900, 4.9e-7],
  [970, 3.5e-6],
  [1070, 1.4e-6],
  [1190, 1.1e-5],
  [1280, 1e-5],
  [1350, 3.6e-5],
  [1400, 1.38e-4],
  [1450, 3.3e-4],
  [1500, 2e-4],
  [1600, 8.6e-5],
  [1690, 7e-5],
  [1800, 1.15e-4],
  [1880, 4e-4],
  [1910, 1.2e-3],
  [1940, 1.85e-3],
  [1970, 1.6e-3],
  [2000, 1.1e-3],
  [2100, 4.4e-4],
  [2200, 2.9e-4],
  [2300, 4.3e-4],
  [2400, 9.6e-4],
  [2500, 1.8e-3],
]

/** ln reflectance of a white surface under a film of 1 µm, light passing twice, on the grid. */
const ONE_MICROMETRE: Float64Array = modelContinuum(
  WATER_INDEX.map(([nm, k]) => [nm, Math.log(k)] as const),
  GRID,
).map((logIndex, node) => (-8 * Math.PI * Math.exp(logIndex) * 1000) / GRID[node])

/** A film's shapes by scale, for each mask of what scans know. */
const kept = new WeakMap<Uint8Array, WaterShape[]>()

/** The shapes of a film of 1 µm, weighted as a scan's are. */
interface WaterShape {
  readonly linear: Float64Array
  readonly coarseLinear: Float64Array
}

/** The film's shape as a scan with these gaps would show it. */
function waterShape({ scale, known }: Pick<ScanShape, 'scale' | 'known'>): WaterShape {
  const shapes = kept.get(known) ?? []
  kept.set(known, shapes)
  if (!shapes[scale]) {
    const log = ONE_MICROMETRE.slice()
    bridge(log, known)
    shapes[scale] = linearShapes(log, known, scale)
  }
  return shapes[scale]
}

/** A scan's shape with a film of water taken off it. */
export function withoutFilm(scan: ScanShape, micrometres: number): ScanShape {
  const water = waterShape(scan)
  const off = (shape: Float64Array, film: Float64Array): Float64Array =>
    shape.map((value, node) => value - micrometres * film[node])
  const linear = off(scan.linear, water.linear)
  const coarseLinear = off(scan.coarseLinear, water.coarseLinear)
  return { ...scan, ...shapeFrom(linear, coarseLinear), coarseLinear }
}

const TINY = 1e-12

const NEAR_1900 = nodesBetween(1860, 2079)

/** The film that the scan's absorption near 1900 nm would make if all of it were water's, µm. */
export function filmOn(scan: ScanShape): number {
  const { linear } = waterShape(scan)
  const [start, end] = NEAR_1900
  return dot(scan.linear, linear, start, end) / (dot(linear, linear, start, end) + TINY)
}

/** A film of the mean thickness as a shape of its own, as the scan would show it. */
export function waterAlone(scan: Pick<ScanShape, 'scale' | 'known'>): PreparedShape {
  const film = FILMS[1]
  const { linear, coarseLinear } = waterShape(scan)
  return shapeFrom(
    linear.map((value) => film * value),
    coarseLinear.map((value) => film * value),
  )
}

/**
 * How thick a film would be beside a reference, µm, by least squares of both on the scan's shape:
 * from the reference's linear shape, its product with the scan and with itself.
 */
export function filmsBeside(
  scan: ScanShape,
): (reference: Float64Array, product: number, energy: number) => number {
  const { linear } = waterShape(scan)
  const ofScan = dot(scan.linear, linear)
  const own = dot(linear, linear)
  return (reference, product, energy) => {
    const shared = dot(reference, linear)
    const rest = own * energy - shared * shared
    return rest > 0 ? (ofScan * energy - product * shared) / rest : 0
  }
}
