/** What a scan is taken for once a person has said what it is. */
import type { KnownMineral } from '../jobs/references'
import { NOTHING_DIAGNOSTIC, type Identification } from '../minerals/reference'

/** What stands for the doubt of a scan whose mineral a person decided: there is none left. */
export const BY_HAND = 'Overruled by hand.'

/** Whether a decision's mineral says that nothing can be told. */
export function isNothing(mineral: string): boolean {
  return mineral === '' || mineral === NOTHING_DIAGNOSTIC
}

/**
 * The identification after a decision: the mineral alone, its fit as it was found, and what had
 * been found as the runner-up. A mineral that is not known changes nothing; it is a problem of
 * the decisions.
 */
export function overruled(
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
