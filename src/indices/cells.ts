/** Cells of a station as a formula asks for them. */
import type { Cell } from '../places/station'

/** No heading of a table begins so: it holds a character that readers never keep. */
const ORIGIN = '\u0000origin '

/** The name under which a mineral's origin stands among a station's cells. */
export function originCell(mineral: string): string {
  return ORIGIN + mineral
}

/**
 * A station's cell by its name; undefined where there is none. An origin that nobody has stated is
 * `unknown`, which is an answer and not a missing value.
 */
export function cellNamed(cells: Readonly<Record<string, Cell>>, name: string): Cell | undefined {
  if (Object.hasOwn(cells, name)) return cells[name]
  return name.startsWith(ORIGIN) ? 'unknown' : undefined
}
