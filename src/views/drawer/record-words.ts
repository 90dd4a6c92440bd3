/** The station's record in words, and the lists it is chosen from. */
import {
  NONE_SEEN,
  RECORD_PARTS,
  RECORD_WORDS,
  SILENT_MINERALS,
  type RecordPart,
} from '../../project/record-parts'
import type { StationRecord } from '../../project/station-record'
import {
  STRUCTURE_FORMS,
  structureWords,
  trueAzimuth,
  type Structure,
} from '../../project/structures'

export const PART_WORDS: Readonly<Record<RecordPart, string>> = {
  lithology: 'Lithology',
  weathering: 'Weathering',
  alteration: 'Alteration',
  alteration_intensity: 'Its intensity',
  veins: 'Veins',
  cover: 'Cover',
  sample_ticket: 'Sample ticket',
  note: 'Note',
}

/** Planes and lines that are measured; users add theirs. */
const STRUCTURES = [
  'bedding',
  'foliation',
  'joint',
  'fault',
  'vein',
  'contact',
  'lineation',
  'striae',
] as const

export const FORM_WORDS: Readonly<Record<Structure['form'], string>> = {
  plane: 'plane',
  line: 'line',
  core: 'oriented core',
}
export const FORMS = STRUCTURE_FORMS

/** A list to choose from: the program's words, then those that this project has used. */
export function wordsFor(part: RecordPart, records: readonly StationRecord[]): readonly string[] {
  return withUsed(
    RECORD_WORDS[part],
    records.map(({ words }) => words[part]),
  )
}

/** Minerals to look for: those that stay silent here, then those that this project has used. */
export function mineralsFor(records: readonly StationRecord[]): readonly string[] {
  return withUsed(
    SILENT_MINERALS,
    records.flatMap(({ minerals }) => Object.keys(minerals)),
  )
}

/** What a structure can be of. */
export function structuresFor(records: readonly StationRecord[]): readonly string[] {
  return withUsed(
    STRUCTURES,
    records.flatMap(({ structures }) => structures.map(({ what }) => what)),
  )
}

function withUsed(given: readonly string[], used: readonly (string | undefined)[]): string[] {
  const further = new Set(used.filter((word) => word !== undefined && !given.includes(word)))
  return [...given, ...[...further].sort()] as string[]
}

/** A part's word as it can stand among others; null where it is told with another or not at all. */
function saidBare(part: RecordPart, word: string): string | null {
  if (part === 'note') return null
  const name = PART_WORDS[part].toLowerCase()
  if (word === NONE_SEEN) return `${name}: ${NONE_SEEN}`
  if (part === 'cover') return word === 'none' ? 'no cover' : `cover ${word}`
  if (part === 'veins') return `${word} veins`
  if (part === 'alteration_intensity') return `${word} intensity`
  return part === 'sample_ticket' ? `ticket ${word}` : word
}

/**
 * A structure in words, from true north; where a compass read it from magnetic north, what it read
 * and the declination that was put in.
 */
export function measuredWords(structure: Structure): string {
  const words = structureWords(structure)
  if (structure.form === 'core') return words
  const read = structure.form === 'plane' ? structure.dip_direction : structure.trend
  if (trueAzimuth(read, structure.declination) === trueAzimuth(read, 0)) return words
  const declination = `${Math.abs(structure.declination)}° ${structure.declination < 0 ? 'W' : 'E'}`
  return `${words} (compass ${read}°, declination ${declination})`
}

/** A record in a few words; empty where nothing is recorded. */
export function recordSummary({ words, minerals, structures }: StationRecord): string {
  const parts = RECORD_PARTS.flatMap((part) => {
    const word = words[part]
    return word === undefined ? [] : (saidBare(part, word) ?? [])
  })
  const seen = Object.keys(minerals).filter((mineral) => minerals[mineral])
  const none = Object.keys(minerals).filter((mineral) => !minerals[mineral])
  return [
    ...parts,
    ...seen,
    ...none.map((mineral) => `no ${mineral}`),
    structures.length > 0
      ? `${structures.length} ${structures.length === 1 ? 'structure' : 'structures'}`
      : '',
  ]
    .filter(Boolean)
    .join(', ')
}
