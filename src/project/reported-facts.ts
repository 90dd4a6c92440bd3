/** What the report says besides its rows. */
import type { ReportedLayout, ReportedRevisits } from '../layers/report'
import type { ReportedGrouping } from '../layers/report-grouping'
import type { Placement } from '../places/place-scans'
import type { Alike } from './recipe-layouts'
import type { Revisits } from './revisits'

/** How files alike were read. */
export function reportedLayout({ like, files }: Alike): ReportedLayout {
  const layouts = files.flatMap(({ layout }) => layout ?? [])
  return {
    like,
    files: files.length,
    scans: files.reduce((sum, { scanCount }) => sum + scanCount, 0),
    wavelength_units: [...new Set(layouts.map(({ wavelengthUnit }) => wavelengthUnit))],
    reflectance_units: [...new Set(layouts.map(({ reflectanceUnit }) => reflectanceUnit))],
    corrected: files.some(({ correction }) => correction !== undefined),
  }
}

/** How scans were gathered into stations. */
export function reportedGrouping({ stations, grouping }: Placement): ReportedGrouping {
  return {
    stations: { ...grouping.counts, one_scan: grouping.single },
    untimed_scans: grouping.untimed,
    unsure: grouping.unsure.map(({ station, why, other }) => ({
      station: stations[station].name,
      why,
      other: other === null ? null : stations[other].name,
    })),
  }
}

/** How well the walk repeats itself; undefined where no station was visited again. */
export function reportedRevisits({
  stations,
  sameClass,
  indices,
}: Revisits): ReportedRevisits | undefined {
  if (stations.length === 0) return undefined
  return {
    stations: stations.length,
    same_class: sameClass,
    indices: indices.map((index) => ({
      index: index.name.normalize('NFC'),
      unit: index.unit,
      stations: index.stations,
      deviation: index.deviation,
      deviation_error: index.error,
      limit: index.limit,
      stated: index.stated,
    })),
  }
}
