/**
 * The references that the scans are made of: an excerpt of the project's own fitted set, kept
 * as it was when the area was made, so that a better fit tomorrow leaves the scans alone.
 */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Reference } from '../../src/minerals/reference'
import { readReferenceSet } from '../../src/minerals/set-file'
import type { Ingredient } from './mixture'

/** What can be asked for: an ingredient, or one end of a solid solution. */
export type EndMember =
  | Exclude<Ingredient, 'white mica' | 'alunite' | 'host'>
  | 'paragonite'
  | 'short muscovite'
  | 'long muscovite'
  | 'phengite'
  | 'potassic alunite'
  | 'sodic alunite'

/** The library record (Kokaly et al. 2017, doi:10.3133/ds1035) that each was fitted to. */
export const RECORDS: Readonly<Record<EndMember, string>> = {
  'potassic alunite': 'Alunite_HS295.3B_ASDFRa',
  'sodic alunite': 'Alunite_SUSTDA-20_BECKb',
  pyrophyllite: 'Pyrophyllite_SU1421_BECKb',
  dickite: 'Dickite_NMNH46967_BECKa',
  kaolinite: 'Kaolinite_CM7_BECKb',
  paragonite: 'Paragonite_GDS109_BECKa',
  'short muscovite': 'Muscovite_GDS113_Ruby_ASDNGa',
  'long muscovite': 'Muscovite_GDS116_Tanzania_ASDNGa',
  phengite: 'Muscovite_GDS111_Guatemala_BECKa',
  chlorite: 'Chlorite_HS179.4B_ASDFRb',
  epidote: 'Epidote_GDS26.b_lt75um_ASDNGb',
  calcite: 'Calcite_GDS304_75-150um_ASDFRb',
  goethite: 'Goethite_GDS134_ASDFRb',
  hematite: 'Hematite_GDS69.e_20-30um_BECKb',
  jarosite: 'Jarosite_JR2501_(K)_BECKb',
  sulfide: 'Pyrite_HS35.3_BECKb',
}

/** The excerpt's file, in the format of a reference set. */
export const EXCERPT = join(import.meta.dirname, 'references.json')

let byRecord: Map<string, Reference> | undefined

/**
 * The fitted reference of an end member.
 *
 * @throws where the excerpt lacks its record: take-references.ts writes it anew
 */
export function referenceOf(member: EndMember): Reference {
  byRecord ??= new Map(
    readReferenceSet(JSON.parse(readFileSync(EXCERPT, 'utf8'))).references.map((reference) => [
      reference.record,
      reference,
    ]),
  )
  const reference = byRecord.get(RECORDS[member])
  if (!reference) {
    throw new Error(
      `${RECORDS[member]} is not in references.json. Run npx tsx sample-area/make/take-references.ts.`,
    )
  }
  return reference
}

/**
 * Quartz and feldspar, which are nearly silent here: one smooth curve of our own with a trace of
 * hydroxyl and water. The only spectrum of the area that is not fitted to a measurement.
 */
export const HOST: Pick<Reference, 'continuum' | 'bands'> = {
  continuum: [
    [350, -1.6],
    [550, -1.05],
    [900, -0.8],
    [1400, -0.7],
    [1800, -0.66],
    [2200, -0.67],
    [2500, -0.74],
  ],
  bands: [
    { position: 1413, width: 40, strength: 0.006 },
    { position: 1920, width: 80, strength: 0.02 },
  ],
}
