/** Reference sets out of files, bounded before they are opened. */
import type { ReferenceSet } from '../minerals/reference'
import { readReferenceSet } from '../minerals/set-file'
import type { InputSource } from './reading'

/** More than the largest set that is read, of 2000 references, takes as text; bytes. */
const MOST_BYTES = 50_000_000

/** Whether a file is taken for a set file, which is told by its ending. */
export function isSetFile({ path }: Pick<InputSource, 'path'>): boolean {
  return /\.json$/i.test(path)
}

/**
 * The set that a file holds, and the bytes that it was read from.
 *
 * @throws Error that names the file, what is wrong and what to do
 */
export async function readSetFile({
  path,
  size,
  read,
}: InputSource): Promise<{ readonly set: ReferenceSet; readonly bytes: Uint8Array }> {
  if (size > MOST_BYTES)
    throw new Error(
      `${path} has ${Math.round(size / 1e6)} MB; a reference set of at most ` +
        `${MOST_BYTES / 1e6} MB is read. Split it into several sets.`,
    )
  const bytes = await read()
  try {
    return { set: readReferenceSet(JSON.parse(new TextDecoder().decode(bytes))), bytes }
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error)
    throw new Error(`${path} is not a reference set: ${why}`, { cause: error })
  }
}
