/** Places that a person gave. */
import type { HandPlace } from '../places/place-scans'
import { latestDecisions, scanKey } from './decisions'
import type { Project, ScanHead } from './project'

/** What a person decided about the scans' places. */
export function handPlaces(heads: readonly ScanHead[], { decisions }: Project): HandPlace[] {
  const place = latestDecisions(decisions, 'place')
  const station = latestDecisions(decisions, 'station')
  const target = latestDecisions(decisions, 'target')
  const support = latestDecisions(decisions, 'support')
  if (place.size + station.size + target.size + support.size === 0) return []
  return heads.flatMap(({ file, name }, scan): HandPlace[] => {
    const key = scanKey(file, name)
    const hand: HandPlace = {
      scan,
      place: place.get(key),
      // An empty word takes back what was set.
      station: station.get(key)?.station || undefined,
      target: target.get(key)?.target || undefined,
      support: support.get(key)?.support || undefined,
    }
    return hand.place || hand.station || hand.target || hand.support ? [hand] : []
  })
}
