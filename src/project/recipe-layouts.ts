/** What a recipe says of how files alike are to be understood. */
import {
  correctionFor,
  DATE_ORDERS,
  DECIMAL_SIGNS,
  REFLECTANCE_UNITS,
  sameCorrection,
  WAVELENGTH_UNITS,
  type Correction,
  type WavelengthUnitKey,
} from '../readers/correction'
import { ENCODINGS } from '../readers/input'
import { RecipeError, type Cursor } from './json-cursor'
import type { SourceFile } from './project'

const UNIT_KEYS = Object.keys(WAVELENGTH_UNITS) as WavelengthUnitKey[]
const CHOICES = [
  'wavelength_unit',
  'reflectance',
  'column',
  'decimal',
  'encoding',
  'date_order',
] as const
const MOST_LAYOUTS = 1000

/**
 * The recipe's `layouts`.
 *
 * @throws RecipeError with its place, also where two speak of the same files or one says nothing
 */
export function readLayouts(entries: readonly Cursor[]): Correction[] {
  if (entries.length > MOST_LAYOUTS) {
    throw new RecipeError('layouts', `more than ${MOST_LAYOUTS} entries`)
  }
  const seen = new Set<string>()
  return entries.map((entry) => {
    const correction = readLayout(entry)
    if (seen.has(correction.like)) {
      throw new RecipeError(`${entry.path}.like`, `‘${correction.like}’ stands in the list twice`)
    }
    seen.add(correction.like)
    return correction
  })
}

function readLayout(entry: Cursor): Correction {
  entry.allow(['like', ...CHOICES])
  const correction: Correction = {
    like: entry.at('like').filledText(),
    ...given('wavelength_unit', entry.optional('wavelength_unit')?.oneOf(UNIT_KEYS)),
    ...given('reflectance', entry.optional('reflectance')?.oneOf(REFLECTANCE_UNITS)),
    ...given('column', entry.optional('column')?.filledText()),
    ...given('decimal', entry.optional('decimal')?.oneOf(DECIMAL_SIGNS)),
    ...given('encoding', entry.optional('encoding')?.oneOf(ENCODINGS)),
    ...given('date_order', entry.optional('date_order')?.oneOf(DATE_ORDERS)),
  }
  if (!saysSomething(correction)) {
    throw new RecipeError(entry.path, `it corrects nothing; expected one of ${CHOICES.join(', ')}`)
  }
  return correction
}

function given<K extends string, T>(key: K, value: T | undefined): Partial<Record<K, T>> {
  return value === undefined ? {} : ({ [key]: value } as Record<K, T>)
}

function saysSomething(correction: Correction): boolean {
  return CHOICES.some((choice) => correction[choice] !== undefined)
}

/** The corrections with one taken in, in place of what was said of the same files before. */
export function withCorrection(
  corrections: readonly Correction[] | undefined,
  correction: Correction,
): readonly Correction[] | undefined {
  const others = (corrections ?? []).filter(({ like }) => like !== correction.like)
  const list = saysSomething(correction) ? [...others, correction] : others
  return list.length === 0 ? undefined : list
}

/** Files that were read otherwise than the recipe now says: they are to be read anew. */
export function misreadFiles(
  files: readonly SourceFile[],
  corrections: readonly Correction[] | undefined,
): SourceFile[] {
  return files.filter(
    ({ look, correction }) =>
      look !== undefined &&
      !sameCorrection(correction, correctionFor(look.like, corrections ?? [])),
  )
}

/** Files that look alike. */
export interface Alike {
  readonly like: string
  readonly columns: readonly string[]
  readonly files: readonly SourceFile[]
}

/** The files by their look, the largest group first; those without a look are left out. */
export function filesAlike(files: readonly SourceFile[]): Alike[] {
  const groups = new Map<string, SourceFile[]>()
  for (const file of files) {
    if (file.look === undefined) continue
    const group = groups.get(file.look.like)
    if (group) group.push(file)
    else groups.set(file.look.like, [file])
  }
  return [...groups]
    .map(([like, list]) => ({ like, columns: list[0].look?.columns ?? [], files: list }))
    .sort((a, b) => b.files.length - a.files.length || (a.like < b.like ? -1 : 1))
}
