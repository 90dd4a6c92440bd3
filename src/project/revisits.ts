/** Stations that were visited again, and how well the walk repeats itself. */
import { repeatability, type Repeatability } from '../indices/repeatability'
import type { Measured } from '../indices/rule'
import { countsForStation, stationMean, type Average } from '../indices/station-values'
import type { Recipe } from './recipe'
import type { Results } from './results'

/** Scans of one station that were taken without a long pause. */
export interface Visit {
  /** Of its first scan, s since 1970, UTC or by the instrument's clock. */
  readonly seconds: number
  /** Scans that count for the station. */
  readonly scans: readonly number[]
  /** Each index, in the recipe's order. */
  readonly values: readonly Measured[]
  /** What most of its scans are classed as, the first of equals. */
  readonly class: string
}

export interface RevisitedStation {
  readonly station: number
  /** Two or more, in order of time. */
  readonly visits: readonly Visit[]
}

export interface Revisits {
  readonly stations: readonly RevisitedStation[]
  /** How many of them had the same class on every visit. */
  readonly sameClass: number
  /** Of each index that reads scans and has a value on two visits of a station. */
  readonly indices: readonly (Repeatability & { readonly name: string; readonly unit: string })[]
}

/** A longer pause makes another visit, s (ours: one walks on and comes back in an hour or more). */
const AWAY = 3600

/**
 * The stations that were visited again. Only scans that count for a station are looked at, and of
 * those only the ones with a time.
 *
 * @param recipe its targets, and how scans are averaged
 */
export function revisitsOf(
  results: Results,
  { targets, average = 'mean' }: Pick<Recipe, 'targets' | 'average'>,
): Revisits {
  const { placement, verdicts, indices } = results
  const stations = placement.stations.flatMap(({ scans }, station): RevisitedStation[] => {
    const counted = scans.filter((scan) =>
      countsForStation(verdicts[scan], placement.scans[scan].target, targets),
    )
    const visits = parted(results, counted)
    return visits.length < 2
      ? []
      : [{ station, visits: visits.map((v) => visitOf(results, v, average)) }]
  })
  return {
    stations,
    sameClass: stations.filter(({ visits }) => new Set(visits.map((v) => v.class)).size === 1)
      .length,
    indices: indices.flatMap(({ rule, needsScan }, at) => {
      const values = stations.map(({ visits }) => visits.map((visit) => visit.values[at]))
      const found = needsScan ? repeatability(values) : null
      return found ? [{ name: rule.name, unit: rule.unit ?? '', ...found }] : []
    }),
  }
}

/** Scans in order of time, parted where there is a pause. */
function parted({ heads }: Results, scans: readonly number[]): number[][] {
  const time = (scan: number) => heads[scan].known.time?.seconds ?? NaN
  const timed = scans.filter((scan) => !Number.isNaN(time(scan))).sort((a, b) => time(a) - time(b))
  const visits: number[][] = []
  for (const scan of timed) {
    const visit = visits.at(-1)
    if (visit && time(scan) - time(visit[visit.length - 1]) <= AWAY) visit.push(scan)
    else visits.push([scan])
  }
  return visits
}

function visitOf(
  { heads, indices, scanClasses }: Results,
  scans: readonly number[],
  average: Average,
): Visit {
  return {
    seconds: heads[scans[0]].known.time?.seconds ?? NaN,
    scans,
    values: indices.map((index) =>
      stationMean(
        scans.map((scan) => index.scans[scan]),
        average,
      ),
    ),
    class: mostFrequent(scans.map((scan) => scanClasses[scan])),
  }
}

function mostFrequent(names: readonly string[]): string {
  const counts = new Map<string, number>()
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1)
  return [...counts].sort((a, b) => b[1] - a[1])[0][0]
}
