/** Reference sets of the user's own: from a set file, a folder of library files, or a scan. */
import type { ReferenceNotes } from '../jobs/fit'
import type { Pool } from '../jobs/pool'
import { recordOfScan } from '../minerals/catalogue'
import type { NamedSpectrum } from '../minerals/prepare'
import type { Reference, ReferenceSet } from '../minerals/reference'
import { spectrumOf } from '../spectra/scan-store'
import { NO_HOLDINGS } from './project'
import { readSources, type InputSource, type ReadingOptions } from './reading'
import { isSetFile, readSetFile } from './set-files'

/** Spectra fitted in one task: each takes a second or so. */
const AT_ONCE = 1

/**
 * A set out of what was chosen: one set file, else every spectrum in the files, each fitted in a
 * worker and named by the first word of its record.
 *
 * @throws Error that says what is wrong; an AbortError when stopped
 */
export async function referencesFrom(
  pool: Pool,
  sources: readonly InputSource[],
  name: string,
  options: ReadingOptions,
): Promise<ReferenceSet> {
  if (sources.length === 1 && isSetFile(sources[0])) return (await readSetFile(sources[0])).set
  const { heads, scans } = await readSources(pool, sources, NO_HOLDINGS, { signal: options.signal })
  if (heads.length === 0) throw new Error('None of these files holds a spectrum that can be read.')
  const names = recordsOf(heads)
  let done = 0
  const fitted = await Promise.all(
    portions(heads.length).map(async (numbers) => {
      const spectra = numbers.map((scan) => ({
        spectrum: named(spectrumOf(scans, scan), names[scan]),
      }))
      const references = await pool.run('fit references', { spectra }, { signal: options.signal })
      done += numbers.length
      options.progress?.(done, heads.length)
      return references
    }),
  )
  const references = fitted.flat()
  if (references.length === 0) throw new Error('No spectrum here is long enough to be fitted.')
  return { name, source: `Fitted here to ${heads.length} measurements of ${name}`, references }
}

/** What each scan of a library is called as a reference, in the same order. */
export function recordsOf(heads: readonly { file: string; name: string }[]): string[] {
  const counts = new Map<string, number>()
  for (const { file } of heads) counts.set(file, (counts.get(file) ?? 0) + 1)
  return heads.map(({ file, name }) => recordOfScan(file, name, counts.get(file) === 1))
}

/** A scan fitted as a reference, with what the geologist says of it. */
export async function referenceFromScan(
  pool: Pool,
  spectrum: NamedSpectrum,
  notes: ReferenceNotes,
  signal?: AbortSignal,
): Promise<Reference> {
  const [reference] = await pool.run(
    'fit references',
    { spectra: [{ spectrum, notes }] },
    { signal },
  )
  if (!reference) throw new Error('This scan is too short, or has too many gaps, to be fitted.')
  return reference
}

function named(
  {
    wavelengths,
    reflectance,
  }: { wavelengths: Float64Array; reflectance: Float32Array | Float64Array },
  name: string,
): NamedSpectrum {
  return { name, wavelengths, reflectance: reflectance.slice() }
}

function portions(count: number): number[][] {
  const list: number[][] = []
  for (let start = 0; start < count; start += AT_ONCE) {
    list.push(Array.from({ length: Math.min(AT_ONCE, count - start) }, (_, i) => start + i))
  }
  return list
}
