/** Programs that did not write the files and read them back; tests skip where one is absent. */
import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** Debian's own Python carries the GDAL module; a newer one on the PATH need not. */
const PYTHON = existsSync('/usr/bin/python3') ? '/usr/bin/python3' : 'python3'

export const hasPython = answers(PYTHON, '--version')
export const hasGdal = answers('gdalinfo', '--version') && answers('ogrinfo', '--version')

function answers(program: string, argument: string): boolean {
  return spawnSync(program, [argument]).status === 0
}

/** What a program prints; throws with its complaint when it fails. */
export function output(program: string, args: readonly string[]): string {
  const run = spawnSync(program, args, { encoding: 'utf8', maxBuffer: 256e6 })
  if (run.status !== 0) throw new Error(`${program} ${args.join(' ')}: ${run.stderr}`)
  if (/warning|error/i.test(run.stderr)) throw new Error(`${program}: ${run.stderr}`)
  return run.stdout
}

/** Runs a Python program with arguments; it prints JSON. */
export function python(program: string, ...args: string[]): unknown {
  return JSON.parse(output(PYTHON, ['-c', program, ...args]))
}

/** Gives a folder to work in and takes it away afterwards. */
export function inFolder<T>(work: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'layers-'))
  try {
    return work(folder)
  } finally {
    rmSync(folder, { recursive: true })
  }
}

/** Writes bytes to a file of a folder and gives its path. */
export function put(folder: string, name: string, bytes: Uint8Array): string {
  const path = join(folder, name)
  writeFileSync(path, bytes)
  return path
}

/** What GDAL reads of a band, as Float32 in row-major order. */
export function bandByGdal(folder: string, tif: string, band: number): Float32Array {
  const raw = join(folder, `band-${band}.raw`)
  output('gdal_translate', ['-q', '-of', 'ENVI', '-b', String(band), tif, raw])
  const bytes = readFileSync(raw)
  return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length))
}
