/** Making a reader's answer. */
import type { FileKind, Problem, ReadResult } from './input'

/** A result that holds nothing but its kind. */
export function nothingIn(kind: FileKind, problems: readonly Problem[] = []): ReadResult {
  return { kind, scans: [], tables: [], tracks: [], layout: null, problems }
}

/** A file that was left out whole, with the reason and what to do about it. */
export function leftOut(
  file: string,
  line: number | null,
  problem: string,
  advice: string,
): ReadResult {
  return nothingIn('unknown', [{ file, line, problem, done: `left out; ${advice}` }])
}

/** A file's name without its folders and ending. */
export function stemOf(path: string): string {
  const name = path.slice(path.lastIndexOf('/') + 1)
  const dot = name.lastIndexOf('.')
  return (dot > 0 ? name.slice(0, dot) : name).normalize('NFC')
}

/** A cell as it may stand in a message: printable, at most 40 characters. */
export function quoted(text: string): string {
  const plain = text.replace(/[\p{C}\uFFFD]/gu, '·')
  return `“${plain.length > 40 ? `${plain.slice(0, 40)}…` : plain}”`
}
