/** Reference sets as they leave with the layers: named, told apart by their bytes, and the own ones whole. */
import type { References } from '../jobs/references'
import { sha256 } from '../layers/sha256'
import type { ReportedSet } from '../layers/report'
import type { NamedSpectrum } from '../minerals/prepare'
import type { ReferenceSet } from '../minerals/reference'
import { writeReferenceSet } from '../minerals/set-file'

/** A set never changes: an edited one is another. */
const known = new WeakMap<ReferenceSet, ReportedSet>()

/** What the report says of each set, and of measured records together. */
export function reportedSets({ sets, measured }: References): ReportedSet[] {
  const reported = sets.map((set) => {
    const found = known.get(set) ?? reportedSet(set)
    known.set(set, found)
    return found
  })
  return measured.length === 0 ? reported : [...reported, reportedRecords(measured)]
}

/** Records that are used as they were measured; their files stand among the report's inputs. */
function reportedRecords(measured: readonly NamedSpectrum[]): ReportedSet {
  const digests = measured.map(({ name, wavelengths, reflectance }) => {
    const numbers = Float64Array.from([...wavelengths, ...reflectance])
    return `${name} ${sha256(new Uint8Array(numbers.buffer))}`
  })
  return {
    set: 'measured records',
    source: 'the folder of --references',
    references: measured.length,
    sha256: sha256(new TextEncoder().encode(digests.join('\n'))),
  }
}

function reportedSet(set: ReferenceSet): ReportedSet {
  return {
    set: set.name,
    source: set.source,
    references: set.references.length,
    sha256: sha256(new TextEncoder().encode(writeReferenceSet(set))),
  }
}

/** The project's own sets as files. */
export function setFiles(sets: readonly ReferenceSet[]): { name: string; text: () => string }[] {
  return sets.map((set) => ({ name: set.name, text: () => writeReferenceSet(set) }))
}
