/** The shared vocabulary of surfaces: points, grids, variogram models, results. */

/** Values at places. All arrays have one entry a point; coordinates in working units. */
export interface Points {
  readonly x: Float64Array
  readonly y: Float64Array
  readonly value: Float64Array
  /** One standard error of each value, in its unit; absent or NaN where unknown. */
  readonly error?: Float64Array
  /** What an external drift is at each point, in its own unit; absent for none. */
  readonly drift?: Float64Array
}

/** A regular grid. Edges are multiples of the cell; nodes stand at cell centres; row 0 is the northernmost. */
export interface Grid {
  /** West edge and north edge, working units. */
  readonly west: number
  readonly north: number
  readonly cell: number
  readonly columns: number
  readonly rows: number
}

export interface Structure {
  readonly model: 'spherical' | 'exponential' | 'gaussian' | 'matern'
  /** Partial sill, squared unit of the value. */
  readonly sill: number
  /** Where a spherical model reaches its sill and the others 95 % of it, working units. */
  readonly range: number
  /** Matérn's ν; ignored by the others. */
  readonly smoothness?: number
}

export interface Variogram {
  readonly nugget: number
  readonly structures: readonly Structure[]
  /** Direction of the longest range, degrees clockwise from north; absent when isotropic. */
  readonly azimuth?: number
  /** Minor range over major range, 0 to 1; absent or 1 when isotropic. */
  readonly ratio?: number
}

/** One lag of an experimental variogram. */
export interface Lag {
  readonly pairs: number
  /** Mean separation, working units. */
  readonly distance: number
  /** Half the mean squared difference. */
  readonly gamma: number
}

/** A surface that another is drawn within. */
export interface Mask {
  readonly surface: string
  /** Limits of its value. */
  readonly at_least?: number
  readonly at_most?: number
  /** Of the likeliest class: those that are drawn, "none of these" among them. */
  readonly classes?: readonly string[]
  /** Of the likeliest class: drawn where its doubt is no larger, 0 to 1. */
  readonly doubt_at_most?: number
}

/** How a surface can be made. */
export const METHODS = [
  'kriging',
  'inverse-distance',
  'nearest',
  'natural-neighbour',
  'class-probability',
  'chance-above',
  'likeliest-class',
] as const

/** An entry of the recipe's `surfaces`. */
export interface SurfaceRule {
  readonly name: string
  readonly value?: string
  readonly class?: string
  readonly group?: string
  readonly method: (typeof METHODS)[number]
  /** For `likeliest-class`: the classes that are told apart, or the recipe's. */
  readonly classes?: 'all' | readonly string[]
  /** For `likeliest-class`: mineral groups that are told apart instead of classes. */
  readonly groups?: readonly string[]
  /** Working units. */
  readonly cell?: number
  readonly neighbours?: number
  readonly power?: number
  readonly variogram?: 'fit' | Variogram
  /** How far from data it is drawn, working units; no limit where another of the two stands alone. */
  readonly reach?: number
  /** Drawn where its standard error is no larger, the value's unit; of methods that have one. */
  readonly error_at_most?: number
  /** Drawn no farther than this outside the stations' convex hull, working units; 0 for inside it. */
  readonly hull?: number
  readonly mask?: Mask
  /** For `likeliest-class`: drawn where its doubt is no larger, 0 to 1. */
  readonly doubt_at_most?: number
  readonly support?: readonly string[]
  /** Contours at whole multiples of this, the value's unit; about eight at round values where absent. */
  readonly contour_interval?: number
  /** Values are kriged so transformed and brought back, for `kriging`; absent for as they are. */
  readonly transform?: 'log' | 'normal-score' | 'rank'
  /**
   * Whether crowded stations count less in normal scores, of that transform and of `chance-above`;
   * absent for all alike.
   */
  readonly declustered?: boolean
  /** Length to which stations in holes are joined first, working units; absent for none. */
  readonly composite?: number
  /** The value whose chance of being exceeded is drawn, for `chance-above`. */
  readonly above?: number
  /** For `chance-above`; 200 where absent. */
  readonly realisations?: number
  /** What a table's cell such as `<5` counts as; it is left out where absent. */
  readonly below_detection?: 'half' | 'zero' | 'limit' | 'leave out'
  /** A node is drawn where so many stations are within its reach; 1 where absent. */
  readonly stations_at_least?: number
  /** Most stations of each of the eight octants around a node. */
  readonly octants?: number
  /** A GeoJSON file of the project: the surface is drawn inside its polygons alone. */
  readonly within?: string
  /** A GeoJSON file of the project: nothing is used across its lines. */
  readonly barriers?: string
  /** Degree of a trend in the coordinates, for kriging: 0 (absent) none, 1 a plane, 2 a quadratic. */
  readonly trend?: 0 | 1 | 2
  /** A raster of the project whose values the mean follows linearly, for kriging. */
  readonly drift?: string
}

/** Whether a method gives a chance, 0 to 1, rather than a value. */
export function givesChance(method: SurfaceRule['method']): boolean {
  return method === 'class-probability' || method === 'chance-above'
}

/** A computed surface: Float64 in row-major order, NaN outside the reach. */
export interface SurfaceBands {
  readonly grid: Grid
  readonly estimate: Float64Array
  /** Squared unit of the value; null where the method has none. */
  readonly variance: Float64Array | null
}

/** How stations that were left out were predicted from the others, in the value's unit. */
export interface Testing {
  readonly count: number
  readonly meanError: number
  readonly rmse: number
  /** Mean squared standardised error: 1 when the stated variance is right; null without variance. */
  readonly meanSquaredStandardised: number | null
  /** Standard deviation of the values themselves: what predicting the mean would cost. */
  readonly meanRmse: number
  /** Part of stations inside the stated 90 % interval: 0.9 when it is right; null without variance. */
  readonly coverage90?: number | null
  /** One standard error of that part, where whole blocks were left out; null or absent where not. */
  readonly coverage90Error?: number | null
}
