/** The parts of a station's record, and what decisions say of them. */
import type { Photo } from './photos'
import type { Structure } from './structures'

/** An answer of its own: not the same as nothing recorded. */
export const NONE_SEEN = 'looked, none seen'

/** Parts of a record that are words; the list of each is a beginning, to which users add. */
export const RECORD_WORDS = {
  lithology: [
    'andesite',
    'dacite',
    'rhyolite',
    'basalt',
    'tuff',
    'breccia',
    'diorite',
    'granodiorite',
    'granite',
    'porphyry',
    'sandstone',
    'siltstone',
    'limestone',
    'schist',
  ],
  weathering: [
    'fresh',
    'slightly weathered',
    'moderately weathered',
    'highly weathered',
    'completely weathered',
    'residual soil',
  ],
  alteration: [
    NONE_SEEN,
    'argillic',
    'advanced argillic',
    'phyllic',
    'propylitic',
    'potassic',
    'silicic',
    'skarn',
  ],
  alteration_intensity: ['trace', 'weak', 'moderate', 'strong', 'complete'],
  veins: [NONE_SEEN, 'quartz', 'quartz–sulfide', 'carbonate', 'iron oxide', 'gypsum'],
  cover: ['none', 'thin', 'lichen or moss', 'soil', 'scree', 'alluvium'],
  sample_ticket: [],
  note: [],
} as const satisfies Record<string, readonly string[]>

export type RecordPart = keyof typeof RECORD_WORDS
export const RECORD_PARTS = Object.keys(RECORD_WORDS) as RecordPart[]

/** Minerals that this range of wavelengths does not show, or shows poorly; users add theirs. */
export const SILENT_MINERALS = [
  'quartz',
  'feldspar',
  'pyrite',
  'other sulfides',
  'magnetite',
] as const

/** What decisions about a record are; empty words, no minerals, structures or photos take back. */
export type RecordAbout =
  | {
      readonly kind: 'record'
      readonly part: RecordPart
      readonly value: string
      readonly station?: string
    }
  | {
      readonly kind: 'minerals seen'
      readonly minerals: Readonly<Record<string, boolean>>
      readonly station?: string
    }
  | {
      readonly kind: 'structures'
      readonly structures: readonly Structure[]
      readonly station?: string
    }
  | {
      readonly kind: 'photos'
      readonly photos: readonly Photo[]
      readonly station?: string
    }

/** Whether a decision is about a station's record. */
export function isRecordAbout<T extends { readonly kind: string }>(
  about: T,
): about is Extract<T, RecordAbout> {
  return ['record', 'minerals seen', 'structures', 'photos'].includes(about.kind)
}

const LIST_COLUMNS = ['minerals_seen', 'minerals_not_seen', 'structures'] as const
const ANGLE_COLUMNS = ['dip', 'dip_direction', 'trend', 'plunge', 'alpha', 'beta'] as const

/** The record's columns in `stations.csv`, in their order. */
export const RECORD_COLUMNS: readonly string[] = [
  ...RECORD_PARTS.filter((part) => part !== 'note'),
  ...LIST_COLUMNS,
  ...ANGLE_COLUMNS,
  'note',
  'photos',
]

/** What the name of the column of a mineral seen or not begins with. */
export const SEEN_COLUMN = 'seen '

/** The column by which rules ask whether a mineral was seen: `yes`, or `no` where looked for. */
export function seenColumn(mineral: string): string {
  return SEEN_COLUMN + mineral
}

/** Whether a column's name in lower case belongs to the record. */
export function isRecordColumn(name: string): boolean {
  return RECORD_COLUMNS.includes(name) || name.startsWith(SEEN_COLUMN)
}
