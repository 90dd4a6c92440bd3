/** Reads what decisions say of a station's record. */
import { RecipeError, type Cursor } from './json-cursor'
import { readPhotos } from './photos'
import { RECORD_PARTS, type RecordAbout } from './record-parts'
import { readStructures } from './structures'

const MOST_MINERALS = 200

/**
 * The rest of a decision about a record.
 *
 * @throws RecipeError with the place
 */
export function readRecordAbout(kind: RecordAbout['kind'], about: Cursor): RecordAbout {
  const named = about.optional('station')?.filledText()
  const station = named === undefined ? {} : { station: named }
  switch (kind) {
    case 'record': {
      const part = about.at('part').oneOf(RECORD_PARTS)
      return { kind, part, value: about.at('value').text(), ...station }
    }
    case 'minerals seen':
      return { kind, minerals: readMinerals(about.at('minerals')), ...station }
    case 'structures':
      return { kind, structures: readStructures(about.list('structures')), ...station }
    case 'photos':
      return { kind, photos: readPhotos(about.list('photos')), ...station }
  }
}

function readMinerals(minerals: Cursor): Record<string, boolean> {
  const names = minerals.keys()
  if (names.length > MOST_MINERALS) {
    throw new RecipeError(minerals.path, `more than ${MOST_MINERALS} minerals`)
  }
  return Object.fromEntries(names.map((name) => [name, minerals.at(name).truth()]))
}
