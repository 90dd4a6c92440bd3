/** The names a formula may speak of, and the nearest known one to a name that is not. */
import { editDistance } from '../places/names'

/** A longer name is no misspelling of a short one, and would take long to compare. Letters. */
const LONGEST_COMPARED = 200

/** Names are compared letter by letter in Unicode's composed form (NFC). */
export interface KnownNames {
  /** Minerals of the reference set. */
  readonly minerals: Iterable<string>
  /** Groups of the reference set. */
  readonly groups: Iterable<string>
  /** Headings of the sample tables; null where no table says, and any heading is taken. */
  readonly columns: Iterable<string> | null
}

/** The same names, looked up quickly. */
export interface NameSets {
  readonly minerals: ReadonlySet<string>
  readonly groups: ReadonlySet<string>
  readonly columns: ReadonlySet<string> | null
}

/** Known names in composed form. */
export function nameSets(known: KnownNames): NameSets {
  return {
    minerals: composed(known.minerals),
    groups: composed(known.groups),
    columns: known.columns && composed(known.columns),
  }
}

function composed(names: Iterable<string>): Set<string> {
  return new Set(Array.from(names, (name) => name.normalize('NFC')))
}

/**
 * The known name most like a wrong one: the same but for case, else at most a third of
 * its letters away (insertions, deletions and substitutions, at most 3).
 */
export function nearestName(name: string, known: Iterable<string>): string | null {
  if (name.length > LONGEST_COMPARED) return null
  const wanted = name.toLowerCase()
  let nearest: string | null = null
  let least = Math.min(3, Math.ceil(wanted.length / 3)) + 1
  for (const candidate of known) {
    if (Math.abs(candidate.length - wanted.length) >= least) continue
    const distance = editDistance(wanted, candidate.toLowerCase(), least)
    if (distance < least) {
      least = distance
      nearest = candidate
    }
  }
  return nearest
}
