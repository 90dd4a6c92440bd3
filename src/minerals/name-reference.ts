/** A reference under another name: what the catalogue says of a mineral follows its name. */
import { CATALOGUE, factsOf, findMineral, type CatalogueEntry } from './catalogue'
import type { Reference } from './reference'

/** What a person calls a reference. */
export interface ReferenceName {
  readonly mineral: string
  /** Of a mineral that the catalogue does not know; else the catalogue's. */
  readonly group: string
  readonly variety: string | null
}

/** The catalogue's entry for a name; for a mineral it does not know, one with the group that is told. */
export function entryFor({ mineral, group }: Omit<ReferenceName, 'variety'>): CatalogueEntry {
  const known = findMineral(mineral)
  if (known) return known
  const name = mineral.trim()
  return { mineral: name, symbol: null, group: group.trim() || name, names: [], fibrous: false }
}

/**
 * The reference named so. Symbol, fibre, diagnostic ranges, confusions and setting are the
 * catalogue's for that name and group; bands and record stay.
 */
export function nameReference(reference: Reference, name: ReferenceName): Reference {
  const entry = entryFor(name)
  const { diagnostic, confusedWith, setting, silent } = factsOf(entry)
  const { silent: wasSilent, ...rest } = reference
  return {
    ...rest,
    mineral: entry.mineral,
    variety: name.variety,
    symbol: entry.symbol,
    group: entry.group,
    fibrous: entry.fibrous,
    diagnostic,
    confusedWith,
    setting,
    ...(silent || (wasSilent && entry.group === reference.group) ? { silent: true } : {}),
  }
}

/** A mineral of the catalogue's in a group, for its ranges; null where the group is not known. */
export function anyOfGroup(group: string): CatalogueEntry | null {
  return CATALOGUE.find((entry) => entry.group === group) ?? null
}
