/** Peers written in Python: run with Debian's interpreter, whose numpy the figures speak of. */
import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { join } from 'node:path'

const DEBIAN = '/usr/bin/python3'

/**
 * Runs a script of this folder and reads the JSON object on its last line.
 *
 * @returns null where Python or a package it needs is not installed, or the script fails
 */
export function runPython(script: string, args: readonly string[]): unknown {
  const python = existsSync(DEBIAN) ? DEBIAN : 'python3'
  const run = spawnSync(python, [join(import.meta.dirname, script), ...args], {
    encoding: 'utf8',
    // One thread in the linear algebra, as in one of our workers.
    env: { ...process.env, OPENBLAS_NUM_THREADS: '1', OMP_NUM_THREADS: '1' },
  })
  if (run.error || run.status !== 0) {
    console.error(`${script} gave no figure: ${(run.error?.message ?? run.stderr).slice(-500)}`)
    return null
  }
  return JSON.parse(run.stdout.trim().split('\n').at(-1) ?? 'null')
}

/** One number of what a script gave; null where there is none. */
export function numberIn(answer: unknown, key: string): number | null {
  if (typeof answer !== 'object' || answer === null) return null
  const value: unknown = (answer as Record<string, unknown>)[key]
  return typeof value === 'number' && Number.isFinite(value) ? value : null
}
