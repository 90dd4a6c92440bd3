/** What a person recorded at a station, as a decision. */
import type { Station } from '../../places/station'
import type { Decision } from '../../project/decisions'
import type { ScanHead } from '../../project/project'
import type { RecordAbout } from '../../project/record-parts'
import { decisionNow } from '../who.svelte'

const WHY = 'recorded at the station'

/** A decision about a station, made now: by its first scan, else by its table and its name. */
export function recordDecision(
  station: Station,
  heads: readonly ScanHead[],
  about: RecordAbout,
): Decision {
  const scan = station.scans.at(0)
  return scan === undefined
    ? decisionNow({ file: station.file ?? '', name: '' }, { ...about, station: station.name }, WHY)
    : decisionNow(heads[scan], about, WHY)
}
