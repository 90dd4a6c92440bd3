/** Decisions: what a person changed by hand, each with who, when and why. */
import { SUPPORTS, TARGETS, type Support, type Target } from '../places/station'
import type { Check } from '../check/verdict'
import { ORIGINS, type Origin } from '../minerals/origin'
import { parseJson, readRange, RecipeError, type Cursor } from './json-cursor'
import { fieldNameFault } from './field-names'
import { handFieldFault, isHandField } from './hand-fields'
import { readRecordAbout } from './record-decisions'
import type { RecordAbout } from './record-parts'

/** What one decision is about. Scans are named by file and name, so it outlives a renumbering. */
export type DecisionAbout =
  | { readonly kind: 'verdict'; readonly check: Check }
  | { readonly kind: 'place'; readonly longitude: number; readonly latitude: number }
  /** `of`: the found mineral that it stands in place of; absent for all that was found. */
  | { readonly kind: 'mineral'; readonly mineral: string; readonly of?: string }
  /** What was found, accepted as it was then named. */
  | { readonly kind: 'accepted'; readonly minerals: readonly string[] }
  /** Ranges in which a mineral is compared with this scan, nm; none: as with all others. */
  | {
      readonly kind: 'ranges'
      readonly mineral: string
      readonly ranges: readonly (readonly [from: number, to: number])[]
    }
  /** Of these three an empty one takes back what was set: what the files say counts again. */
  | { readonly kind: 'station'; readonly station: string }
  | { readonly kind: 'target'; readonly target: Target | '' }
  | { readonly kind: 'support'; readonly support: Support | '' }
  | { readonly kind: 'step correction'; readonly on: boolean }
  | { readonly kind: 'origin'; readonly mineral: string; readonly origin: Origin }
  | { readonly kind: 'note'; readonly note: string }
  | { readonly kind: 'field'; readonly field: string; readonly value: string }
  | RecordAbout

export interface Decision {
  readonly file: string
  readonly scan: string
  readonly about: DecisionAbout
  readonly who: string
  /** ISO 8601. */
  readonly when: string
  readonly why: string
}

export interface Decisions {
  readonly decisions: 1
  readonly list: readonly Decision[]
}

export const NO_DECISIONS: Decisions = { decisions: 1, list: [] }

const CHECKS = ['sound', 'doubtful', 'set aside'] as const
const KINDS = [
  'verdict',
  'place',
  'mineral',
  'accepted',
  'ranges',
  'station',
  'target',
  'support',
  'step correction',
  'origin',
  'note',
  'field',
  'record',
  'minerals seen',
  'structures',
  'photos',
] as const

/** What a decision of each kind says beside its kind. */
const KEYS: Readonly<Record<(typeof KINDS)[number], readonly string[]>> = {
  verdict: ['check'],
  place: ['longitude', 'latitude'],
  mineral: ['mineral', 'of'],
  accepted: ['minerals'],
  ranges: ['mineral', 'ranges'],
  station: ['station'],
  target: ['target'],
  support: ['support'],
  'step correction': ['on'],
  origin: ['mineral', 'origin'],
  note: ['note'],
  field: ['field', 'value'],
  record: ['part', 'value', 'station'],
  'minerals seen': ['minerals', 'station'],
  structures: ['structures', 'station'],
  photos: ['photos', 'station'],
}

/** A decisions file may not be larger than this, bytes. */
export const MAX_DECISIONS_BYTES = 50_000_000

/**
 * Reads decisions from their JSON text.
 *
 * @throws RecipeError with the place in the file
 */
export function parseDecisions(text: string): Decisions {
  const root = parseJson(text, MAX_DECISIONS_BYTES)
  root.allow(['decisions', 'list'])
  const version = root.at('decisions').number()
  if (version !== 1) {
    throw new RecipeError('decisions', `version ${version} is not known here, only 1`)
  }
  return { decisions: 1, list: root.list('list').map(readDecision) }
}

/** The decisions as the JSON text of their file. */
export function writeDecisions(decisions: Decisions): string {
  return JSON.stringify(decisions, null, 2) + '\n'
}

/** The scan that a decision speaks of, as one key. */
export function scanKey(file: string, scan: string): string {
  return `${file}\u0000${scan}`
}

/** The last decision of a kind about each scan. */
export function latestDecisions<K extends DecisionAbout['kind']>(
  decisions: Decisions,
  kind: K,
): Map<string, Extract<DecisionAbout, { kind: K }>> {
  return new Map(
    [...decisionsByScan(decisions, [kind])].map(([key, made]) => [key, made[made.length - 1]]),
  )
}

/** Each scan's decisions of some kinds, in the order in which they were made. */
export function decisionsByScan<K extends DecisionAbout['kind']>(
  decisions: Decisions,
  kinds: readonly K[],
): Map<string, Extract<DecisionAbout, { kind: K }>[]> {
  const wanted: ReadonlySet<string> = new Set(kinds)
  const byScan = new Map<string, Extract<DecisionAbout, { kind: K }>[]>()
  for (const { file, scan, about } of decisions.list) {
    if (!wanted.has(about.kind)) continue
    const key = scanKey(file, scan)
    const made = byScan.get(key) ?? []
    made.push(about as Extract<DecisionAbout, { kind: K }>)
    byScan.set(key, made)
  }
  return byScan
}

function readDecision(entry: Cursor): Decision {
  entry.allow(['file', 'scan', 'about', 'who', 'when', 'why'])
  return {
    file: entry.at('file').text(),
    scan: entry.at('scan').text(),
    about: readAbout(entry.at('about')),
    who: entry.at('who').text(),
    when: entry.at('when').text(),
    why: entry.at('why').text(),
  }
}

function readAbout(about: Cursor): DecisionAbout {
  const kind = about.at('kind').oneOf(KINDS)
  about.allow(['kind', ...KEYS[kind]])
  switch (kind) {
    case 'verdict':
      return { kind, check: about.at('check').oneOf(CHECKS) }
    case 'place':
      return {
        kind,
        longitude: about.at('longitude').between(-180, 180),
        latitude: about.at('latitude').between(-90, 90),
      }
    case 'mineral':
      return {
        kind,
        mineral: about.at('mineral').text(),
        ...(about.optional('of') ? { of: about.at('of').filledText() } : {}),
      }
    case 'accepted':
      return { kind, minerals: about.list('minerals').map((mineral) => mineral.filledText()) }
    case 'ranges':
      return {
        kind,
        mineral: about.at('mineral').filledText(),
        ranges: about.list('ranges').map(readRange),
      }
    case 'station':
      return { kind, station: about.at('station').text().trim() }
    case 'target':
      return { kind, target: about.at('target').oneOf(['', ...TARGETS]) }
    case 'support':
      return { kind, support: about.at('support').oneOf(['', ...SUPPORTS]) }
    case 'step correction':
      return { kind, on: about.at('on').truth() }
    case 'origin':
      return {
        kind,
        mineral: about.at('mineral').filledText(),
        origin: about.at('origin').oneOf(ORIGINS),
      }
    case 'note':
      return { kind, note: about.at('note').text() }
    case 'field':
      return readField(about)
    case 'record':
    case 'minerals seen':
    case 'structures':
    case 'photos':
      return readRecordAbout(kind, about)
  }
}

function readField(about: Cursor): DecisionAbout {
  const name = about.at('field')
  const field = name.text().normalize('NFC')
  const value = about.at('value').text()
  const isKnown = isHandField(field)
  const fault = isKnown ? handFieldFault(field, value) : fieldNameFault(field)
  if (fault !== null) throw new RecipeError(isKnown ? about.at('value').path : name.path, fault)
  return { kind: 'field', field, value }
}
