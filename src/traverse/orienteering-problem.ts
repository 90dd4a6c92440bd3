/** The orienteering problem, and what solves it. */

/** Places 0 … n-1; the walk begins at 0 and ends at n-1, which may be one spot twice. */
export interface OrienteeringProblem {
  /** n × n, row by row: from the row's place to the column's. Infinite where there is no way. */
  readonly costs: Float64Array
  /** n; what a place is worth. Start and end count nothing. */
  readonly scores: Float64Array
  readonly budget: number
  /** Stops between start and end at most; Infinity for as many as the budget allows. */
  readonly mostStops: number
}

/** A walk that keeps to the budget. */
export interface Route {
  /** Places in order, start and end among them. */
  readonly places: readonly number[]
  readonly cost: number
  readonly score: number
}
