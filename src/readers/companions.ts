/**
 * The public library layout: a record holds one value a line under a title, and its wavelengths
 * and channel widths stand in files of their own (Kokaly et al. 2017, USGS Data Series 1035).
 */
import { readBody, type Body } from './body'
import { decodeText, textOf } from './decode'
import { numericFormat, readHead, type CellFormat, type Head } from './head'
import type { Companion, Companions, InputFile } from './input'
import { axisFault, FEWEST_CHANNELS, toNanometres } from './units'

export type { Companions }

/** A file of one value a line, in the numbers as written. */
export interface ValueColumn {
  readonly title: string
  readonly body: Body
  readonly values: Float64Array
}

/** Larger than a companion of a million channels. */
const MOST_BYTES = 20_000_000

/** Whatever among the files is an axis or a list of channel widths. Others cost a look at their head. */
export function collectCompanions(files: Iterable<InputFile>): Companions {
  const axes: Companion[] = []
  const bandwidths: Companion[] = []
  for (const file of files) {
    if (file.bytes.length > MOST_BYTES) continue
    const column = valueColumn(file.bytes)
    const kind = column === null ? null : companionKind(column)
    if (column === null || kind === null) continue
    const companion = toCompanion(file.path, column, kind)
    if (kind === 'axis') axes.push(companion)
    else bandwidths.push(companion)
  }
  return { axes, bandwidths }
}

/** The one column of a file that has no more, or null. */
function valueColumn(original: Uint8Array): ValueColumn | null {
  const bytes = decodeText(original)?.bytes
  if (bytes === undefined) return null
  const head = readHead(bytes)
  if (head.tooLong !== null || head.numeric < 0) return null
  const format = numericFormat(bytes, head.lines.slice(head.numeric))
  return format.columns === 1 ? readValueColumn(bytes, head, format) : null
}

/** Reads one value a line from where the head's numbers begin. */
export function readValueColumn(bytes: Uint8Array, head: Head, format: CellFormat): ValueColumn {
  const first = head.lines[head.numeric]
  const title = head.lines
    .slice(0, head.numeric)
    .map((line) => textOf(bytes, line.start, line.end))
    .join(' ')
    .replace(/\s+/g, ' ')
  const body = readBody(bytes, first.start, first.number, format)
  return { title, body, values: body.columns[0] }
}

/**
 * Whether a column of values is an axis or channel widths rather than a record: an axis rises or
 * falls throughout and reaches beyond any reflectance; widths are told by their title.
 */
export function companionKind(column: ValueColumn): 'axis' | 'bandwidth' | null {
  const { body, title, values } = column
  if (body.rowFault !== null || body.cellFaults.size > 0 || values.length < FEWEST_CHANNELS)
    return null
  if (/band\s*-?pass|band\s*-?width|fwhm|channel width/iu.test(title))
    return values.every((value) => value > 0) ? 'bandwidth' : null
  if (axisFault(values, String) !== null) return null
  const high = Math.max(values[0], values[values.length - 1])
  const low = Math.min(values[0], values[values.length - 1])
  const named = /wave\s*-?lengths?|microns?|nanomet/iu.test(title)
  const plausible = high <= 100 ? low >= 0.1 : low >= 100 && high <= 100_000
  return plausible && (named || high > 1.6) ? 'axis' : null
}

function toCompanion(file: string, column: ValueColumn, kind: 'axis' | 'bandwidth'): Companion {
  const high = column.values.reduce((most, value) => Math.max(most, value), -Infinity)
  // Channel widths are at most some hundred nm, so below 1 they are micrometres.
  const unit = high <= (kind === 'axis' ? 100 : 1) ? 'µm' : 'nm'
  return {
    file,
    title: column.title,
    values: column.values.map((value) => toNanometres(value, unit)),
  }
}

/**
 * The companion for a record of `channels` values: in the record's folder, else in the nearest
 * folder above that has one of as many channels. Of several there, the one with the longest word
 * of its title that begins a word of the record's name (an instrument's code) is taken.
 *
 * @param record the record's path, and its title
 * @returns null where there is none, or where several differ and no word tells them apart
 */
export function companionFor(
  candidates: readonly Companion[],
  record: { readonly path: string; readonly title: string },
  channels: number,
): Companion | null {
  const name = `${record.path.slice(record.path.lastIndexOf('/') + 1)} ${record.title}`
  for (const folder of foldersUp(record.path)) {
    const here = candidates.filter(
      ({ file, values }) => values.length === channels && folderOf(file) === folder,
    )
    if (here.length > 0) return bestNamed(here, name)
  }
  return null
}

/** What a record wants: which file is missing, what there is instead, and what to do. */
export function missingAxis(
  candidates: readonly Companion[],
  record: { readonly path: string },
  channels: number,
): { readonly problem: string; readonly advice: string } {
  const folders = new Set(foldersUp(record.path))
  const near = candidates.filter(({ file }) => folders.has(folderOf(file)))
  const fitting = near.filter(({ values }) => values.length === channels)
  const wanted = `${channels} values and no wavelengths`
  if (fitting.length > 1) {
    const names = listed(fitting.map(({ file }) => file))
    return {
      problem: `${wanted}: ${names} differ, and no word of their titles or names tells which is meant`,
      advice: 'leave the one of this record’s instrument in its folder and take the others out',
    }
  }
  const others = near.map(({ file, values }) => `${file} (${values.length})`)
  const away = candidates.filter(({ values }) => values.length === channels)
  const instead =
    away.length > 0
      ? `; in another folder there is ${listed(away.map(({ file }) => file))}`
      : others.length > 0
        ? `; found were ${listed(others)}`
        : ''
  return {
    problem: `${wanted}: the library’s file of ${channels} wavelengths, one a line in nm or µm, stands neither beside it nor in a folder above${instead}`,
    advice:
      away.length > 0
        ? 'copy that file into this record’s folder, or a folder above, and choose the folder again'
        : `copy the file that came with the library (its title names wavelengths, and it has as many lines of numbers as the record) into this folder and choose it again; if there is none of ${channels}, the record is not whole`,
  }
}

/** Some names for a sentence, the first few of many. */
function listed(names: readonly string[]): string {
  const few = names.slice(0, 3).join(', ')
  return names.length > 3 ? `${few} and ${names.length - 3} more` : few
}

function bestNamed(candidates: readonly Companion[], record: string): Companion | null {
  const words = wordsOf(record)
  const inAll = candidates
    .map(companionWords)
    .reduce((common, each) => new Set([...common].filter((word) => each.has(word))))
  const scored = candidates.map((companion) => {
    const own = [...companionWords(companion)].filter((word) => !inAll.has(word))
    return { companion, score: longestBeginning(own, words) }
  })
  scored.sort((a, b) => b.score - a.score)
  const best = scored[0]
  const rival = scored.find(
    ({ companion, score }) =>
      score === best.score && !sameValues(companion.values, best.companion.values),
  )
  return rival === undefined ? best.companion : null
}

/** The length of the longest of a companion's words that begins one of the record's. */
function longestBeginning(own: readonly string[], recordWords: readonly string[]): number {
  let longest = 0
  for (const word of own)
    if (recordWords.some((other) => other.startsWith(word)))
      longest = Math.max(longest, word.length)
  return longest
}

function companionWords({ file, title }: Companion): Set<string> {
  return new Set(wordsOf(`${title} ${file.slice(file.lastIndexOf('/') + 1)}`))
}

function wordsOf(text: string): string[] {
  return text.toLowerCase().match(/[\p{L}\p{N}]{3,}/gu) ?? []
}

function sameValues(a: Float64Array, b: Float64Array): boolean {
  return a.every((value, channel) => value === b[channel])
}

/** The folder of a path, without `./`; empty for none. */
function folderOf(path: string): string {
  const slash = path.lastIndexOf('/')
  if (slash < 0) return ''
  const folder = path.slice(0, Math.max(slash, path.startsWith('/') ? 1 : 0))
  return folder.replace(/\/\.(?=\/|$)/g, '').replace(/^\.(\/|$)/, '')
}

/** A path's folder and those above it; above a relative root come `..`, `../..` and so on. */
function foldersUp(path: string): string[] {
  const folders = [folderOf(path)]
  for (let folder = folders[0]; folders.length < 40 && folder !== '/';) {
    const isOutside = folder === '' || /(^|\/)\.\.$/.test(folder)
    if (isOutside) folder = folder === '' ? '..' : `${folder}/..`
    else folder = folder.lastIndexOf('/') === 0 ? '/' : folderOf(folder)
    folders.push(folder)
  }
  return folders
}
