/** Normal scores of stations: all alike, or weighed so that crowded ones count less. */
import { decluster } from './declustering'
import type { Points } from './model'
import { normalScores, type NormalScores } from './normal-scores'
import { weightedMean } from './spread'

/** What declustering made of the stations' mean. */
export interface Declustering {
  /** Side of the cells, working units. */
  readonly cell: number
  /** Means of the values, declustered and plain. */
  readonly mean: number
  readonly plain: number
}

export interface ScoreTable extends NormalScores {
  /** Null where all stations count alike. */
  readonly declustering: Declustering | null
}

/**
 * The table of values and scores. Declustered, a station weighs what cell declustering gives it
 * (`decluster`, the side to which most cells lead), so that a score stands for a part of the ground
 * and not for a part of the stations (Deutsch and Journel 1998, §II.1.2 and §V.2.1).
 */
export function scoreTable(points: Points, declustered: boolean): ScoreTable {
  if (!declustered) return { ...normalScores(points.value), declustering: null }
  const { weights, mean, cell } = decluster(points, 'told')
  const plain = weightedMean(points.value, null)
  return { ...normalScores(points.value, weights), declustering: { cell, mean, plain } }
}
