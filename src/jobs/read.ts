/** What a worker reads out of files. */
import type { Correction } from '../readers/correction'
import type { Companions, InputFile, Layout, Look, Problem, Table, Track } from '../readers/input'
import { readFile } from '../readers/read-file'
import { recognise, type KnownFields } from '../readers/recognise'
import { digestOf } from './digest'

export interface ReadInput {
  readonly files: readonly InputFile[]
  readonly companions: Companions
  /** How numbers are to be understood in files alike, where the user has said so. */
  readonly corrections: readonly Correction[]
}

/** A scan, its values standing in `values` of its axis. */
export interface ReadHead {
  readonly name: string
  readonly metadata: Readonly<Record<string, string>>
  readonly known: KnownFields
  /** Index into `axes`. */
  readonly axis: number
}

export interface ReadFileOutput {
  readonly path: string
  readonly kind: string
  readonly size: number
  readonly sha256: string
  readonly layout: Layout | null
  readonly look?: Look
  readonly correction?: Correction
  readonly scans: readonly ReadHead[]
  readonly tables: readonly Table[]
  readonly tracks: readonly Track[]
  readonly problems: readonly Problem[]
}

export interface ReadOutput {
  readonly files: readonly ReadFileOutput[]
  /** nm; no two alike. */
  readonly axes: readonly Float64Array[]
  /** All scans' values one after another, in the order of the files and of the scans in them. */
  readonly values: Float32Array
}

/** Reads files one after another; what is wrong with one never stops the others. */
export async function read(input: ReadInput): Promise<ReadOutput> {
  // Begun first: the platform computes digests in threads of its own while this one parses.
  const digests = Promise.all(input.files.map(({ bytes }) => digestOf(bytes)))
  const axes: Float64Array[] = []
  const spectra: Float32Array[] = []
  const files = input.files.map((file): Omit<ReadFileOutput, 'sha256'> => {
    const result = readFile(file, input.companions, {}, input.corrections)
    const scans = result.scans.map(({ name, metadata, wavelengths, reflectance }): ReadHead => {
      spectra.push(reflectance)
      return { name, metadata, known: recognise(metadata), axis: axisIndex(axes, wavelengths) }
    })
    return {
      path: file.path,
      kind: result.kind ?? 'unknown',
      size: file.bytes.length,
      layout: result.layout,
      look: result.look,
      correction: result.correction,
      scans,
      tables: result.tables,
      tracks: result.tracks,
      problems: result.problems,
    }
  })
  const sha256s = await digests
  return {
    files: files.map((file, i) => ({ ...file, sha256: sha256s[i] })),
    axes,
    values: joined(spectra),
  }
}

function axisIndex(axes: Float64Array[], wavelengths: Float64Array): number {
  const known = axes.findIndex(
    (axis) =>
      axis === wavelengths ||
      (axis.length === wavelengths.length && axis.every((nm, i) => nm === wavelengths[i])),
  )
  // A copy: the reader may share one axis among scans, and buffers are handed over.
  return known >= 0 ? known : axes.push(wavelengths.slice()) - 1
}

function joined(spectra: readonly Float32Array[]): Float32Array {
  const all = new Float32Array(spectra.reduce((sum, { length }) => sum + length, 0))
  let offset = 0
  for (const values of spectra) {
    all.set(values, offset)
    offset += values.length
  }
  return all
}
