/** How surely each station is of each class or group: what indicator kriging begins with. */
import { NOT_MEASURABLE } from '../classes/rule'
import type { Identification } from '../minerals/reference'
import { isSettled } from './overrule-mineral'

/**
 * A group's share from which it is taken to be there, and to which it is taken to be absent; in
 * between the indicator is soft. Common practice would cut at one value; doubt about the
 * identification makes the cut soft here.
 */
const PRESENT_FROM = 0.3
const ABSENT_TO = 0.1
/**
 * The part of a scan's vote that a spoken doubt of its minerals takes from its class and gives to
 * the classes as they are spread over all stations. A choice of ours: such a scan says half as much.
 */
const DOUBT_TAKES = 0.5

export interface ClassEvidence {
  readonly stationClasses: readonly string[]
  readonly scanClasses: readonly string[]
  readonly identifications: readonly (Identification | null)[]
  /** The scans that count for each station. */
  readonly counted: readonly (readonly number[])[]
  /** Whether any class rule, or an index, asks for minerals or groups. */
  readonly readsMinerals: boolean
}

/**
 * Whether a station's class is known. One without a scan that counts is left aside beside others
 * that have some, for a rule that asks for spectra may have been passed over there; where all is
 * from tables no station has any, and classes are what their columns say.
 */
export function hasClass({
  stationClasses,
  counted,
}: Pick<ClassEvidence, 'stationClasses' | 'counted'>): (station: number) => boolean {
  const anyScan = counted.some((scans) => scans.length > 0)
  return (station) =>
    stationClasses[station] !== NOT_MEASURABLE && (!anyScan || counted[station].length > 0)
}

/** Parts of 1 by class name, `unclassified` among them; null where the class is not known. */
export type ClassShares = (station: number) => ReadonlyMap<string, number> | null

/**
 * A station's class as parts of 1: each scan that counts votes for its own class, and where its
 * minerals are in doubt half of the vote goes to all stations' proportions. Scans that are `not
 * measurable` do not vote; a station without votes is wholly of its class.
 */
export function classShares(evidence: ClassEvidence): ClassShares {
  const { stationClasses, scanClasses, identifications, counted, readsMinerals } = evidence
  const known = hasClass(evidence)
  const overall = proportions(stationClasses.filter((_, station) => known(station)))
  return (station) => {
    if (!known(station)) return null
    const votes = counted[station].filter((scan) => scanClasses[scan] !== NOT_MEASURABLE)
    if (votes.length === 0) return new Map([[stationClasses[station], 1]])
    const shares = new Map<string, number>()
    const add = (name: string, part: number) => {
      if (part > 0) shares.set(name, (shares.get(name) ?? 0) + part / votes.length)
    }
    for (const scan of votes) {
      const doubt = identifications[scan]?.doubt ?? ''
      const doubtful = readsMinerals && doubt !== '' && !isSettled(doubt)
      add(scanClasses[scan], doubtful ? 1 - DOUBT_TAKES : 1)
      if (doubtful) for (const [name, part] of overall) add(name, DOUBT_TAKES * part)
    }
    return shares
  }
}

function proportions(classes: readonly string[]): Map<string, number> {
  const shares = new Map<string, number>()
  for (const name of classes) shares.set(name, (shares.get(name) ?? 0) + 1 / classes.length)
  return shares
}

/**
 * How surely a station holds a group, 0 to 1: the mean over its scans of 0 up to a share of 0.1,
 * 1 from 0.3, and in between on a straight line; null without an identified scan.
 */
export function groupPresence(
  { identifications, counted }: Pick<ClassEvidence, 'identifications' | 'counted'>,
  group: string,
): (station: number) => number | null {
  return (station) => {
    let sum = 0
    let count = 0
    for (const scan of counted[station]) {
      const found = identifications[scan]
      if (!found) continue
      const share = found.minerals.reduce((s, m) => s + (m.group === group ? m.share : 0), 0)
      sum += Math.min(1, Math.max(0, (share - ABSENT_TO) / (PRESENT_FROM - ABSENT_TO)))
      count++
    }
    return count === 0 ? null : sum / count
  }
}
