/** A text on its way through the readers. */
import { BLANK, SEMICOLON, TAB } from './lines'
import { COMMA } from './numbers'
import type { Companions, Encoding, Layout } from './input'

export interface TextFile {
  readonly file: string
  /** UTF-8. */
  readonly bytes: Uint8Array
  readonly encoding: Encoding
  readonly companions: Companions
  readonly overrides: Partial<Layout>
}

/** A delimiter's byte in words, for the layout. */
export function delimiterName(delimiter: number): Layout['delimiter'] {
  if (delimiter === TAB) return 'tab'
  if (delimiter === SEMICOLON) return 'semicolon'
  if (delimiter === COMMA) return 'comma'
  return delimiter === BLANK ? 'blanks' : undefined
}

/** What delimits pairs in header lines above such a table, where it is not a sign of its own. */
export function pairDelimiter(delimiter: number): ',' | ';' | undefined {
  if (delimiter === COMMA) return ','
  return delimiter === SEMICOLON ? ';' : undefined
}
