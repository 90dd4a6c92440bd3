/** A pool that runs tasks inline and keeps count of them, and a small set to identify against. */
import { startInlinePool } from '../../src/jobs/inline-pool'
import type { Pool } from '../../src/jobs/pool'
import type { References } from '../../src/jobs/references'
import type { TaskInput } from '../../src/jobs/tasks'
import { modelReflectance } from '../../src/minerals/model'
import builtIn from '../../src/minerals/reference-set/built-in.json'
import { readReferenceSet } from '../../src/minerals/set-file'
import type { MadeScan } from './holdings'

const REFERENCES = readReferenceSet(builtIn).references
export const GROUPS = ['alunite', 'white mica', 'chlorite'] as const

/** The first reference of each of three groups. */
export const THREE: References = {
  sets: [
    {
      name: 'three',
      source: 'the built-in set',
      references: GROUPS.flatMap((group) => REFERENCES.find((r) => r.group === group) ?? []),
    },
  ],
  measured: [],
  off: [],
  ranges: {},
}

/** A pool with a record of what it was asked, and a hook that sees each task before it runs. */
export class CountingPool implements Pool {
  readonly #pool = startInlinePool()
  readonly size = 1
  readonly asked: { readonly task: string; readonly input: unknown }[] = []
  before: (task: string, count: number) => void = () => undefined

  run: Pool['run'] = (task, input, options) => {
    this.asked.push({ task, input })
    this.before(task, this.count(task))
    return this.#pool.run(task, input, options)
  }

  provide(key: string, value: unknown): void {
    this.#pool.provide(key, value)
  }

  withdraw(key: string): void {
    this.#pool.withdraw(key)
  }

  close(): void {
    this.#pool.close()
  }

  count(task: string): number {
    return this.asked.filter((entry) => entry.task === task).length
  }

  /** The inputs of every examination asked for. */
  get examinations(): readonly TaskInput<'examine'>[] {
    return this.asked
      .filter(({ task }) => task === 'examine')
      .map(({ input }) => input as TaskInput<'examine'>)
  }

  /** Forgets what was asked. */
  reset(): void {
    this.asked.length = 0
  }
}

const WAVELENGTHS = Float64Array.from({ length: 1051 }, (_, i) => 400 + 2 * i)

/** A scan of one of the three groups at a place of its own, 100 m apart, a little noisy. */
export function scanOf(i: number, group: string = GROUPS[i % GROUPS.length]): MadeScan {
  const reference = REFERENCES.find((entry) => entry.group === group)
  if (!reference) throw new Error(`no reference of ${group}`)
  const reflectance = Float32Array.from(
    modelReflectance(reference, WAVELENGTHS),
    (value, k) => value + 0.0005 * Math.sin(12.9898 * (i + 1) + 78.233 * k),
  )
  const metadata = {
    latitude: (-24.9 + 0.0009 * Math.floor(i / 8)).toFixed(6),
    longitude: (-69.25 + 0.001 * (i % 8)).toFixed(6),
  }
  return { name: `S${i}`, file: `S${i}.txt`, wavelengths: WAVELENGTHS, reflectance, metadata }
}
