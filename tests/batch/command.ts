/** Runs the command line as a user does, in folders that go away afterwards. */
import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { rowsOf, type Row } from '../sample-area/truth'

/** What a run of the command said and gave. */
export interface Ran {
  readonly code: number | null
  readonly said: string
  readonly complained: string
}

/** `npm run map -- …`, without npm. */
export function runMap(...words: readonly string[]): Ran {
  const run = spawnSync('node', ['src/batch/launch.mjs', 'map', ...words], { encoding: 'utf8' })
  return { code: run.status, said: run.stdout, complained: run.stderr }
}

/** A folder of its own two levels deep, so that nothing beside it is taken for wavelengths. */
export class Scratch {
  readonly root = mkdtempSync(join(tmpdir(), 'aureole-batch-'))

  path(...parts: readonly string[]): string {
    return join(this.root, 'work', 'here', ...parts)
  }

  /** Writes a file, its folders with it, and gives its path. */
  put(name: string, content: string | Uint8Array): string {
    const path = this.path(name)
    mkdirSync(dirname(path), { recursive: true })
    writeFileSync(path, content)
    return path
  }

  json(name: string, value: unknown): string {
    return this.put(name, JSON.stringify(value))
  }

  remove(): void {
    rmSync(this.root, { recursive: true, force: true })
  }
}

/** What stands in a folder of layers. */
export class Layers {
  constructor(readonly folder: string) {}

  get names(): string[] {
    return readdirSync(this.folder).sort()
  }

  path(name: string): string {
    return join(this.folder, name)
  }

  text(name: string): string {
    return readFileSync(this.path(name), 'utf8')
  }

  rows(name: string): Row[] {
    return rowsOf(this.text(name))
  }

  /** The row whose column has a value. */
  row(name: string, column: string, value: string): Row {
    const found = this.rows(name).filter((row) => row[column] === value)
    if (found.length !== 1) throw new Error(`${found.length} rows of ${name} are ‘${value}’`)
    return found[0]
  }

  get report(): Report {
    return JSON.parse(this.text('report.json')) as Report
  }
}

/** The members of report.json that tests look at. */
export interface Report {
  readonly crs: { readonly code: string; readonly geojson: boolean; readonly note: string }
  readonly inputs: readonly {
    readonly file: string
    readonly kind: string
    readonly sha256: string
  }[]
  readonly notes: readonly string[]
  readonly read: Readonly<Record<string, number>>
  readonly versions: readonly { readonly name: string; readonly version: string }[]
  readonly units: Readonly<Record<string, string>>
  readonly surfaces: readonly ReportedSurface[]
  readonly files: readonly { readonly file: string; readonly name: string }[]
  readonly left_out: Readonly<Record<string, readonly Row[]>>
}

export interface ReportedSurface {
  readonly name: string
  readonly files: readonly string[]
  readonly failure: string | null
  readonly stations: number
  readonly model: unknown
  readonly grid: {
    readonly west: number
    readonly north: number
    readonly cell: number
    readonly columns: number
    readonly rows: number
    readonly crs: string
  } | null
  readonly leave_one_out: { readonly stations: number; readonly rmse: number } | null
}
