/** What a worker reads out of files. */
import type { Correction } from '../readers/correction'
import type { Companions, InputFile, Layout, Look, Problem, Table, Track } from '../readers/input'
import { readFile } from '../readers/read-file'
import { recognise, type KnownFields } from '../readers/recognise'
import { unpackFile, type PackedFile } from '../readers/zip'
import { digestOf } from './digest'

/**
 * What a worker can open a file by: a path where it has a disk, a file where it has a page, and
 * everywhere a file out of an archive.
 */
export type FilePlace = string | Blob | PackedFile

/** A file for a worker: its bytes, or where it can open it itself. */
export type GivenFile =
  InputFile | { readonly path: string; readonly size: number; readonly at: FilePlace }

/** What a worker's platform does for it. */
export interface Platform {
  /**
   * A file's bytes, good until the next file is opened.
   *
   * @throws Error where it cannot be opened or read
   */
  open(at: string | Blob, size: number): Uint8Array
  /** SHA-256 as 64 lower-case hexadecimal digits. */
  digest(bytes: Uint8Array): string | Promise<string>
}

export interface ReadInput {
  readonly files: readonly GivenFile[]
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
  /** Files that are kept as they are: rasters and layers. */
  readonly ground: readonly InputFile[]
  /** Of files that could not be opened. */
  readonly unread: readonly Problem[]
  /** Whether a record wants wavelengths of other files, which had not been looked at. */
  readonly wantsCompanions: boolean
}

/** A platform that opens nothing. */
const NO_PLATFORM: Platform = {
  open: () => {
    throw new Error('this worker cannot open files')
  },
  digest: digestOf,
}

/** Reads files one after another; what is wrong with one never stops the others. */
export async function read(input: ReadInput, platform = NO_PLATFORM): Promise<ReadOutput> {
  const gathering = new Gathering()
  const ground: InputFile[] = []
  const unread: Problem[] = []
  let wantsCompanions = false
  for (const given of input.files) {
    const file = opened(given, platform)
    if ('problem' in file) {
      unread.push(file)
      continue
    }
    const digest = platform.digest(file.bytes)
    const result = readFile(file, input.companions, {}, input.corrections)
    if (result.wantsCompanions) wantsCompanions = true
    const { kind = 'unknown', layout, look, correction, tables, tracks, problems } = result
    if (kind === 'raster' || kind === 'geojson') {
      // What the platform opened it may overwrite.
      const bytes = file === given ? file.bytes : file.bytes.slice()
      ground.push({ path: file.path, bytes })
    }
    const scans = result.scans.map(({ name, metadata, wavelengths, reflectance }): ReadHead => {
      const axis = gathering.add(wavelengths, reflectance)
      return { name, metadata, known: recognise(metadata, correction?.date_order), axis }
    })
    const { path, bytes } = file
    gathering.files.push({
      path,
      kind,
      size: bytes.length,
      layout,
      look,
      correction,
      scans,
      tables,
      tracks,
      problems,
    })
    gathering.digests.push(digest)
  }
  return { ...(await gathering.joined()), ground, unread, wantsCompanions }
}

/** A file's bytes, or why they cannot be had: it may have gone, or be locked. */
function opened(given: GivenFile, platform: Platform): InputFile | Problem {
  if ('bytes' in given) return given
  try {
    const { path, size, at } = given
    return { path, bytes: isPacked(at) ? unpacked(at) : platform.open(at, size) }
  } catch (error) {
    return unreadProblem(given.path, error)
  }
}

function isPacked(at: FilePlace): at is PackedFile {
  return typeof at === 'object' && 'body' in at
}

function unpacked(packed: PackedFile): Uint8Array {
  const bytes = unpackFile(packed)
  if (typeof bytes === 'string') throw new Error(bytes)
  return bytes
}

/** What is told of a file whose bytes cannot be had. */
export function unreadProblem(file: string, error: unknown): Problem {
  const problem = `it cannot be read: ${whyUnread(error)}`
  return { file, line: null, problem, done: 'left out; check the file' }
}

/** The system's code where it gives one: its message would tell where on the disk the file stands. */
function whyUnread(error: unknown): string {
  if (!(error instanceof Error)) return String(error)
  return 'code' in error && typeof error.code === 'string' ? error.code : error.message
}

/** Files and spectra on their way into one message. */
class Gathering {
  readonly files: Omit<ReadFileOutput, 'sha256'>[] = []
  readonly digests: (string | Promise<string>)[] = []
  readonly #axes: Float64Array[] = []
  readonly #spectra: Float32Array[] = []
  /** Arrays that were met before, which readers share among scans and files. */
  readonly #met = new Map<Float64Array, number>()

  /** Takes a spectrum. @returns the index of its axis */
  add(wavelengths: Float64Array, reflectance: Float32Array): number {
    this.#spectra.push(reflectance)
    let axis = this.#met.get(wavelengths)
    if (axis === undefined) {
      axis = this.#axes.findIndex((known) => sameNumbers(known, wavelengths))
      // A copy: readers keep the array, and buffers are handed over.
      if (axis < 0) axis = this.#axes.push(wavelengths.slice()) - 1
      this.#met.set(wavelengths, axis)
    }
    return axis
  }

  async joined(): Promise<Pick<ReadOutput, 'files' | 'axes' | 'values'>> {
    const files: ReadFileOutput[] = []
    for (const [i, file] of this.files.entries())
      files.push({ ...file, sha256: await this.digests[i] })
    const values = new Float32Array(this.#spectra.reduce((sum, { length }) => sum + length, 0))
    let offset = 0
    for (const spectrum of this.#spectra) {
      values.set(spectrum, offset)
      offset += spectrum.length
    }
    return { files, axes: this.#axes, values }
  }
}

function sameNumbers(a: Float64Array, b: Float64Array): boolean {
  return a.length === b.length && a.every((value, i) => value === b[i])
}
