/** Reference sets as they leave with the layers: named, told apart by their bytes, and the own ones whole. */
import { knownMinerals, type References } from '../jobs/references'
import { sha256 } from '../layers/sha256'
import type { ReportedSet } from '../layers/report'
import type { NamedSpectrum } from '../minerals/prepare'
import type { ReferenceSet } from '../minerals/reference'
import { writeReferenceSet } from '../minerals/set-file'

/** A set never changes: an edited one is another. */
const digests = new WeakMap<ReferenceSet, string>()

/** What the report says of each set, and of measured records together. */
export function reportedSets({ sets, measured, off }: References): ReportedSet[] {
  const isOff = new Set(off)
  const reported = sets.map((set): ReportedSet => {
    const found = digests.get(set) ?? sha256(new TextEncoder().encode(writeReferenceSet(set)))
    digests.set(set, found)
    return {
      set: set.name,
      source: set.source,
      references: set.references.length,
      off: set.references.filter(({ record }) => isOff.has(record)).length,
      sha256: found,
    }
  })
  return measured.length === 0 ? reported : [...reported, reportedRecords(measured, isOff)]
}

/** Records that are used as they were measured; their files stand among the report's inputs. */
function reportedRecords(
  measured: readonly NamedSpectrum[],
  isOff: ReadonlySet<string>,
): ReportedSet {
  const each = measured.map(({ name, wavelengths, reflectance }) => {
    const numbers = Float64Array.from([...wavelengths, ...reflectance])
    return `${name} ${sha256(new Uint8Array(numbers.buffer))}`
  })
  return {
    set: 'measured records',
    source: 'the folder of --references',
    references: measured.length,
    off: measured.filter(({ name }) => isOff.has(name)).length,
    sha256: sha256(new TextEncoder().encode(each.join('\n'))),
  }
}

/** What a project's choice of references says that none of them answers to, as sentences. */
export function unmetChoices(references: References): string[] {
  const { sets, measured, off, ranges } = references
  const records = new Set([
    ...sets.flatMap((set) => set.references.map(({ record }) => record)),
    ...measured.map(({ name }) => name),
  ])
  const minerals = new Set(knownMinerals(references).map(({ mineral }) => mineral))
  return [
    ...off
      .filter((record) => !records.has(record))
      .map((record) => `The recipe switches off ‘${record}’, which no reference set has.`),
    ...Object.keys(ranges)
      .filter((mineral) => !minerals.has(mineral))
      .map((mineral) => `The recipe has ranges for ‘${mineral}’, which no reference is of.`),
  ]
}

/** The project's own sets as files. */
export function setFiles(sets: readonly ReferenceSet[]): { name: string; text: () => string }[] {
  return sets.map((set) => ({ name: set.name, text: () => writeReferenceSet(set) }))
}
