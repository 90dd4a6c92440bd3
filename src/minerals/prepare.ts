/** References made ready for comparing: each on the working grid, with what is said about it. */
import type { Spectrum } from '../spectra/spectrum'
import { factsOf, mineralOfRecord, sampleOfRecord } from './catalogue'
import { modelReflectance } from './model'
import type { Reference, ReferenceSet } from './reference'
import { shapeOf } from './shape'
import { toGrid } from './work-grid'

/** One reference, ready. */
export interface PreparedReference {
  readonly mineral: string
  readonly variety: string | null
  readonly group: string
  readonly record: string
  /** Records of one sample share this name. */
  readonly sample: string
  readonly silent: boolean
  readonly fibrous: boolean
  readonly diagnostic: Reference['diagnostic']
  readonly confusedWith: readonly string[]
  readonly shape: Float64Array
  /** Euclidean length of `shape`. */
  readonly length: number
}

/** References ready to identify against. */
export interface PreparedSet {
  readonly references: readonly PreparedReference[]
}

/** A measured spectrum with its record's name. */
export interface NamedSpectrum extends Spectrum {
  readonly name: string
}

/** A set of band tables made ready. References that do not cover half the range are left out. */
export function prepareSet(set: ReferenceSet): PreparedSet {
  const references = set.references.map((reference) => {
    const wavelengths = Float64Array.from(
      { length: reference.range[1] - reference.range[0] + 1 },
      (_, i) => reference.range[0] + i,
    )
    const spectrum = { wavelengths, reflectance: modelReflectance(reference, wavelengths) }
    return prepared(
      spectrum,
      { ...reference, silent: reference.silent ?? false },
      sampleOfRecord(reference.record),
    )
  })
  return { references: references.filter((reference) => reference !== null) }
}

/**
 * Measured spectra made ready as references; their names say which mineral each is
 * (`Alunite_HS295.1B…` is alunite). A name the catalogue does not know is a group of its own.
 */
export function referencesFromScans(scans: Iterable<NamedSpectrum>): PreparedSet {
  const references: PreparedReference[] = []
  for (const scan of scans) {
    const entry = mineralOfRecord(scan.name)
    const facts = factsOf(entry)
    const about = {
      mineral: entry.mineral,
      variety: null,
      group: entry.group,
      record: scan.name,
      silent: facts.silent,
      fibrous: entry.fibrous,
      diagnostic: facts.diagnostic,
      confusedWith: facts.confusedWith,
    }
    const reference = prepared(scan, about, sampleOfRecord(scan.name))
    if (reference) references.push(reference)
  }
  return { references }
}

/** Several sets as one, less the records that are switched off. */
export function joinSets(
  sets: readonly PreparedSet[],
  off: ReadonlySet<string> = new Set(),
): PreparedSet {
  return {
    references: sets
      .flatMap((set) => set.references)
      .filter((reference) => !off.has(reference.record)),
  }
}

function prepared(
  spectrum: Spectrum,
  about: Omit<PreparedReference, 'shape' | 'length' | 'sample'>,
  sample: string,
): PreparedReference | null {
  const onGrid = toGrid(spectrum)
  if (!onGrid) return null
  const shape = shapeOf(onGrid.log)
  return {
    mineral: about.mineral,
    variety: about.variety,
    group: about.group,
    record: about.record,
    silent: about.silent,
    fibrous: about.fibrous,
    diagnostic: about.diagnostic,
    confusedWith: about.confusedWith,
    sample,
    shape,
    length: Math.sqrt(shape.reduce((sum, value) => sum + value * value, 0)),
  }
}
