/** The report's part on surfaces: how each was made, and how far it can be believed. */
import type { WorkingCrs } from '../places/crs'
import { REALISATIONS } from '../surfaces/chance'
import type { Testing } from '../surfaces/model'
import type { WrittenFile } from './report'
import { subjectOf, type LikeliestLayer, type SurfaceLayer } from './surface-layer'

/** What `report.json` says of one surface: its settings, model, testing figures, grid and files. */
export function reportedSurface(
  surface: SurfaceLayer,
  crs: WorkingCrs,
  files: readonly WrittenFile[],
): object {
  const { rule, unit, bands, testing, blocked } = surface
  return {
    name: rule.name,
    of: subjectOf(rule),
    method: rule.method,
    unit,
    stations: surface.stations,
    failure: surface.failure,
    files: filesOf(rule.name, files),
    grid: bands === null ? null : { ...bands.grid, crs: crs.code, unit: crs.unit },
    reach: surface.reach,
    error_at_most: rule.error_at_most ?? null,
    hull: rule.hull ?? null,
    neighbours: rule.neighbours ?? null,
    power: rule.power ?? null,
    trend: rule.trend ?? 0,
    drift: rule.drift ?? null,
    transform: rule.transform ?? null,
    declustered: rule.declustered ?? false,
    octants: rule.octants ?? null,
    stations_at_least: rule.stations_at_least ?? null,
    within: rule.within ?? null,
    barriers: rule.barriers ?? null,
    below_detection: rule.below_detection ?? 'leave out',
    composite: rule.composite ?? null,
    above: rule.above ?? null,
    realisations: rule.realisations ?? (rule.method === 'chance-above' ? REALISATIONS : null),
    mask: rule.mask ?? null,
    support: rule.support ?? null,
    model: surface.variogram,
    leave_blocks_out: blocked ? reportedTesting(blocked) : null,
    leave_one_out: testing && reportedTesting(testing),
    ...(surface.likeliest ? reportedClasses(surface.likeliest, surface) : {}),
    contour_interval: rule.contour_interval ?? null,
    contours: surface.contours.length,
    sentence: surface.sentence,
  }
}

function reportedClasses(
  { classes, single, blocked }: LikeliestLayer,
  { bands, rule }: Pick<SurfaceLayer, 'bands' | 'rule'>,
): object {
  const cell = bands?.grid.cell ?? 0
  return {
    class_table: classes.map(({ code, name, stations, nodes }) => ({
      code,
      class: name,
      stations,
      nodes,
      area: nodes * cell * cell,
    })),
    right_with_blocks_left_out: blocked?.right ?? null,
    right_with_one_left_out: single?.right ?? null,
    right_of_the_commonest: (blocked ?? single)?.commonest ?? null,
    doubt_at_most: rule.doubt_at_most ?? null,
    right_within_doubt: (blocked ?? single)?.sure ?? null,
  }
}

function reportedTesting(testing: Testing): object {
  return {
    stations: testing.count,
    mean_error: testing.meanError,
    rmse: testing.rmse,
    mean_squared_standardised_error: testing.meanSquaredStandardised,
    inside_90_percent_interval: testing.coverage90 ?? null,
    inside_90_percent_interval_error: testing.coverage90Error ?? null,
    rmse_of_the_mean: testing.meanRmse,
  }
}

function filesOf(surface: string, files: readonly WrittenFile[]): string[] {
  return files
    .filter(
      ({ holds, name }) => ['surface', 'contours', 'areas'].includes(holds) && name === surface,
    )
    .map(({ file }) => file)
}
