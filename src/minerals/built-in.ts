/** The reference set that Aureole brings along. */
import { readReferenceSet } from './set-file'
import type { ReferenceSet } from './reference'

/** The built-in set, read when first asked for so that a page opens without it. */
export async function loadBuiltInSet(): Promise<ReferenceSet> {
  const file = await import('./reference-set/built-in.json')
  return readReferenceSet(file.default)
}
