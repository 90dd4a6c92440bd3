/** What a scan is taken for once a person has said what it is, or that it is what was found. */
import type { KnownMineral } from '../jobs/references'
import { NOTHING_DIAGNOSTIC, type Identification } from '../minerals/reference'
import type { DecisionAbout } from './decisions'

/** What stands for the doubt of a scan whose mineral a person decided: there is none left. */
export const BY_HAND = 'Overruled by hand.'
export const ACCEPTED = 'Accepted by hand.'

/** A decision about what a scan holds. */
export type MineralDecision = Extract<DecisionAbout, { kind: 'mineral' | 'accepted' }>

/** Whether a person has settled what a scan holds. */
export function isSettled(doubt: string): boolean {
  return doubt === BY_HAND || doubt === ACCEPTED
}

/** Whether a decision's mineral says that nothing can be told. */
export function isNothing(mineral: string): boolean {
  return mineral === '' || mineral === NOTHING_DIAGNOSTIC
}

/**
 * The identification after a person's decisions, one after the other. A mineral that is not
 * known, or that stands in place of one that is not there, changes nothing; it is a problem of
 * the decisions. What was accepted stays so while the same minerals are found.
 */
export function settled(
  found: Identification | null,
  decisions: readonly MineralDecision[],
  known: readonly KnownMineral[],
): Identification | null {
  return decisions.reduce((so, decision) => {
    if (decision.kind === 'accepted') return accepted(so, decision.minerals)
    const { mineral, of } = decision
    return of === undefined ? overruled(so, mineral, known) : exchanged(so, of, mineral, known)
  }, found)
}

/** The mineral alone, its fit as it was found, and what had been found as the runner-up. */
function overruled(
  found: Identification | null,
  decided: string,
  known: readonly KnownMineral[],
): Identification | null {
  const runnerUp = found?.minerals[0] ?? null
  if (isNothing(decided)) return { minerals: [], runnerUp, doubt: BY_HAND }
  const entry = known.find(({ mineral }) => mineral === decided)
  if (!entry) return found
  const { mineral, group } = entry
  const fit = found?.minerals.find((part) => part.mineral === mineral)?.fit ?? 0
  return { minerals: [{ mineral, group, share: 1, fit }], runnerUp, doubt: BY_HAND }
}

/**
 * One mineral of a mixture exchanged for another, which takes over its share, or taken out; then
 * the others' shares grow in proportion, so that they sum to what they did.
 */
function exchanged(
  found: Identification | null,
  of: string,
  decided: string,
  known: readonly KnownMineral[],
): Identification | null {
  const gone = found?.minerals.find(({ mineral }) => mineral === of)
  if (!found || !gone) return found
  const rest = found.minerals.filter((part) => part !== gone)
  if (isNothing(decided)) {
    const left = rest.reduce((sum, { share }) => sum + share, 0)
    const times = left > 0 ? (left + gone.share) / left : 1
    const minerals = rest.map((part) => ({ ...part, share: part.share * times }))
    return { ...found, minerals, runnerUp: gone, doubt: BY_HAND }
  }
  const entry = known.find(({ mineral }) => mineral === decided)
  if (!entry) return found
  const twin = rest.find(({ mineral }) => mineral === decided)
  const part = {
    mineral: entry.mineral,
    group: entry.group,
    share: gone.share + (twin?.share ?? 0),
    fit: twin?.fit ?? 0,
  }
  const minerals = [...rest.filter((each) => each !== twin), part].sort((a, b) => b.share - a.share)
  return { ...found, minerals, runnerUp: gone, doubt: BY_HAND }
}

function accepted(found: Identification | null, names: readonly string[]): Identification | null {
  if (!found || found.minerals.length !== names.length) return found
  const same = found.minerals.every(({ mineral }) => names.includes(mineral))
  return same ? { ...found, doubt: ACCEPTED } : found
}
