/** Gathers what workers read, portion by portion, into new holdings. */
import type { ReadFileOutput, ReadOutput } from '../jobs/read'
import type { InputFile, Problem, Table, Track } from '../readers/input'
import { appendScans, BLOCK_SCANS, type ScanStore } from '../spectra/scan-store'
import type { Spectrum } from '../spectra/spectrum'
import type { Holdings, ScanHead, SourceFile, SourceKind } from './project'

/**
 * Takes portions in any order and joins them in theirs, each as soon as those before it are there,
 * so that spectra stand in memory once and the window is never held up by all of them together.
 */
export class Intake {
  #waiting = new Map<number, ReadOutput>()
  #next = 0
  #scans: ScanStore
  #spectra: Spectrum[] = []
  #heads: ScanHead[] = []
  #files: SourceFile[] = []
  #tables: Table[] = []
  #tracks: Track[] = []

  constructor(private readonly before: Holdings) {
    this.#scans = before.scans
  }

  /** @param index the portion's number; every number from 0 on comes once */
  take(index: number, output: ReadOutput): void {
    this.#waiting.set(index, output)
    for (;;) {
      const portion = this.#waiting.get(this.#next)
      if (!portion) return
      this.#waiting.delete(this.#next++)
      this.#join(portion)
    }
  }

  /**
   * The earlier holdings and all that was taken; older content of the same paths is left out.
   *
   * @param ground files whose bytes are kept as they are
   * @param unread of files whose bytes could not be had
   */
  holdings(ground: readonly InputFile[], unread: readonly Problem[]): Holdings {
    this.#store()
    const { before } = this
    const files = [...this.#files, ...unread.map(unreadFile)]
    const again = new Set(files.map(({ path }) => path))
    const kept = <T extends { readonly file: string }>(list: readonly T[]) =>
      list.filter(({ file }) => !again.has(file))
    return {
      files: [...before.files.filter(({ path }) => !again.has(path)), ...files],
      heads: [...before.heads, ...this.#heads],
      scans: this.#scans,
      tables: [...kept(before.tables), ...this.#tables],
      tracks: [...kept(before.tracks), ...this.#tracks],
      ground: [...before.ground.filter(({ path }) => !again.has(path)), ...ground],
    }
  }

  #join({ files, axes, values }: ReadOutput): void {
    let offset = 0
    for (const file of files) {
      this.#files.push(sourceFile(file, this.before.heads.length + this.#heads.length))
      this.#tables.push(...file.tables)
      this.#tracks.push(...file.tracks)
      for (const { name, metadata, known, axis } of file.scans) {
        const wavelengths = axes[axis]
        const reflectance = values.subarray(offset, offset + wavelengths.length)
        this.#spectra.push({ wavelengths, reflectance })
        offset += wavelengths.length
        this.#heads.push({ name, file: file.path, metadata, known })
      }
    }
    // By whole blocks: the store copies the block that it goes on filling.
    if (this.#spectra.length >= BLOCK_SCANS) this.#store()
  }

  #store(): void {
    this.#scans = appendScans(this.#scans, this.#spectra)
    this.#spectra = []
  }
}

function sourceFile(file: ReadFileOutput, firstScan: number): SourceFile {
  const { path, size, sha256, layout, look, correction, problems } = file
  const kind = file.kind as SourceKind
  const scanCount = file.scans.length
  return { path, kind, size, sha256, layout, look, correction, firstScan, scanCount, problems }
}

/** What is kept of a file whose bytes could not be had: nothing but the problem. */
function unreadFile(problem: Problem): SourceFile {
  return {
    path: problem.file,
    kind: 'unknown',
    size: 0,
    sha256: '',
    layout: null,
    firstScan: 0,
    scanCount: 0,
    problems: [problem],
  }
}
