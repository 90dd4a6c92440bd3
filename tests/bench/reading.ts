/**
 * How fast the reading stage of `npm run map` is: two-column files of 2,151 lines, their layout
 * found, their digests taken, beside numpy.loadtxt that is told the layout.
 *
 * `npx tsx tests/bench/reading.ts` reads 1,000 files; with `large` 10,000.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { filesAbove, findFiles } from '../../src/batch/files'
import type { Pool } from '../../src/jobs/pool'
import { NO_HOLDINGS } from '../../src/project/project'
import { readSources } from '../../src/project/reading'
import { seeded } from '../surfaces/scatter'
import { buildPool } from './built-pool'
import { median, speed, type Figure } from './figure'
import { numberIn, runPython } from './python'

const CHANNELS = 2151
const REPEATS = 3

/**
 * Writes two-column text scans, no two alike, from a fixed seed.
 *
 * @returns their bytes in all
 */
export function writeTwoColumnScans(folder: string, count: number): number {
  let bytes = 0
  const random = seeded(20_261_125)
  for (let scan = 0; scan < count; scan++) {
    const level = 0.2 + 0.4 * ((scan * 0.618034) % 1)
    const lines = Array.from({ length: CHANNELS }, (_, channel) => {
      const nm = 350 + channel
      const depth = 0.3 * Math.exp(-(((nm - 2200 - (scan % 20)) / 30) ** 2))
      return `${nm}\t${(level * (1 - depth) + 0.002 * random()).toFixed(6)}`
    })
    const text = `Wavelength\tReflectance\r\n${lines.join('\r\n')}\r\n`
    const path = join(folder, `day-${scan % 10}`, `S${String(scan).padStart(5, '0')}.txt`)
    if (scan < 10) mkdirSync(join(folder, `day-${scan}`), { recursive: true })
    writeFileSync(path, text)
    bytes += text.length
  }
  return bytes
}

/** Seconds that the stage takes: walking the folder, finding companions, reading. */
async function stage(pool: Pool, folder: string, count: number): Promise<number> {
  const start = performance.now()
  const { sources } = findFiles([folder])
  const beside = () => filesAbove([folder])
  const { heads, scans } = await readSources(pool, sources, NO_HOLDINGS, { beside })
  const seconds = (performance.now() - start) / 1000
  if (heads.length !== count || scans.axes.length !== 1)
    throw new Error(`${heads.length} of ${count} scans were read, on ${scans.axes.length} axes.`)
  return seconds
}

/** The room's figures; of 10,000 files where `large`, else of 1,000. */
export async function* benchReading(large = false): AsyncIterable<Figure> {
  const folder = mkdtempSync(join(tmpdir(), 'reading-bench-'))
  try {
    const count = large ? 10_000 : 1_000
    const input = join(folder, 'in', 'here', 'scans')
    mkdirSync(input, { recursive: true })
    const megabytes = writeTwoColumnScans(input, count) / 1e6
    const startNodePool = await buildPool(join(folder, 'built'))
    for (const threads of [1, 2]) {
      const pool = startNodePool(threads)
      try {
        await stage(pool, input, count)
        const seconds: number[] = []
        for (let i = 0; i < REPEATS; i++) seconds.push(await stage(pool, input, count))
        const told = numberIn(runPython('reading.py', [input]), 'seconds')
        const peer = { name: 'numpy.loadtxt', value: told === null ? null : megabytes / told }
        const name = `reading ${count} two-column files of ${CHANNELS} lines, layout found`
        yield speed(name, megabytes / median(seconds), 'MB/s', threads, peer)
      } finally {
        pool.close()
      }
    }
  } finally {
    rmSync(folder, { recursive: true })
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href)
  for await (const found of benchReading(process.argv.includes('large')))
    console.log(JSON.stringify(found))
