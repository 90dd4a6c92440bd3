/** Wavelengths that stand in files of their own, among files that are read or beside them. */
import { collectCompanions } from '../readers/companions'
import type { Companions, InputFile } from '../readers/input'
import type { InputSource } from './reading'

/** A companion is a column of numbers: no larger than this, and told by its first bytes. */
const MAX_COMPANION_BYTES = 1_000_000
const PEEK_BYTES = 512
/** Files looked into at once: each look is mostly waiting. */
const PEEKS_AT_ONCE = 16

/**
 * All companions among files.
 *
 * @param beside gives further files that may be some
 */
export async function findCompanions(
  sources: readonly InputSource[],
  beside: () => Promise<readonly InputSource[]> = () => Promise.resolve([]),
): Promise<Companions> {
  const all = [...sources, ...(await beside())]
  const small = all.filter(({ size }) => size <= MAX_COMPANION_BYTES)
  const found: (InputFile | null)[] = []
  let next = 0
  const lane = async () => {
    while (next < small.length) {
      const index = next++
      found[index] = await columnIn(small[index])
    }
  }
  await Promise.all(Array.from({ length: PEEKS_AT_ONCE }, lane))
  return collectCompanions(found.filter((candidate) => candidate !== null))
}

/** The file if it begins as a column of numbers; none where it cannot be read, which is told later. */
async function columnIn(source: InputSource): Promise<InputFile | null> {
  try {
    const start = source.peek ? await source.peek(PEEK_BYTES) : await source.read()
    if (!looksLikeColumn(start.subarray(0, PEEK_BYTES))) return null
    return { path: source.path, bytes: await source.read() }
  } catch {
    return null
  }
}

/** Whether the second and third lines hold one number each. */
function looksLikeColumn(start: Uint8Array): boolean {
  const lines = new TextDecoder('latin1').decode(start).split(/\r\n|\r|\n/)
  const number = /^\s*[-+]?[\d.]+(e[-+]?\d+)?\s*$/i
  return lines.length > 3 && number.test(lines[1]) && number.test(lines[2])
}
