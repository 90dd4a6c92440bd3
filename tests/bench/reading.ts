/**
 * How fast the reading stage of `npm run map` is: two-column files of 2,151 lines, their layout
 * found, their digests taken, beside numpy.loadtxt that is told the layout.
 *
 * `npx tsx tests/bench/reading.ts` reads 4,000 files; with `large` 10,000. Files of which each has a
 * head of its own are read beside them, by processor time and without a peer, which knows no heads.
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
const ROUNDS = 3
const REPEATS = 5

/** What stands above the numbers: the heading alone, or fifteen lines that differ from scan to scan. */
export type Heads = 'alike' | 'own'

function headOf(scan: number, heads: Heads): string {
  const heading = 'Wavelength\tReflectance\r\n'
  if (heads === 'alike') return heading
  const minutes = 2 * scan
  const clock = (since: number): string =>
    new Date(Date.UTC(2024, 4, 6, 9) + 60_000 * since).toISOString().slice(0, 19)
  const lines = [
    `Name: S${String(scan).padStart(5, '0')}`,
    `Sample: GR-${1000 + Math.floor(scan / 3)}`,
    `Time: ${clock(minutes)}-04:00`,
    `White reference: ${clock(minutes - (scan % 14))}-04:00`,
    `Latitude: ${(-24.1 - scan / 1e5).toFixed(6)}`,
    `Longitude: ${(-69.1 + scan / 2e5).toFixed(6)}`,
    `Elevation: ${2000 + (scan % 97)} m`,
    `GPS accuracy: ${(3 + (scan % 5)).toFixed(1)} m`,
    'Operator: nobody',
    'Instrument: invented',
    `Battery: ${(12.6 - (scan % 40) / 50).toFixed(2)} V`,
    `Temperature: ${(18 + (scan % 23) / 2).toFixed(1)} °C`,
    `Integration time: ${17 * (1 + (scan % 4))} ms`,
    `Averages: ${30 + (scan % 3)}`,
    `Comment: face ${scan % 11}, dry`,
  ]
  return `${lines.join('\r\n')}\r\n${heading}`
}

/**
 * Writes two-column text scans, no two alike, from a fixed seed.
 *
 * @returns their bytes in all
 */
export function writeTwoColumnScans(folder: string, count: number, heads: Heads = 'alike'): number {
  let bytes = 0
  const random = seeded(20_261_125)
  for (let scan = 0; scan < count; scan++) {
    const level = 0.2 + 0.4 * ((scan * 0.618034) % 1)
    const lines = Array.from({ length: CHANNELS }, (_, channel) => {
      const nm = 350 + channel
      const depth = 0.3 * Math.exp(-(((nm - 2200 - (scan % 20)) / 30) ** 2))
      return `${nm}\t${(level * (1 - depth) + 0.002 * random()).toFixed(6)}`
    })
    const text = `${headOf(scan, heads)}${lines.join('\r\n')}\r\n`
    const path = join(folder, `day-${scan % 10}`, `S${String(scan).padStart(5, '0')}.txt`)
    if (scan < 10) mkdirSync(join(folder, `day-${scan}`), { recursive: true })
    writeFileSync(path, text)
    bytes += Buffer.byteLength(text)
  }
  return bytes
}

interface Times {
  /** By the clock on the wall. */
  readonly seconds: number
  /** Processor time of all threads together. */
  readonly processor: number
}

/**
 * The stage as `npm run map` runs it, timed from a folder's name until every scan's values stand in
 * typed arrays: walking the folder, reading, telling the layout, digests, joining.
 */
async function stage(pool: Pool, folder: string, count: number): Promise<Times> {
  const before = process.cpuUsage()
  const start = performance.now()
  const { sources } = findFiles([folder])
  const beside = () => filesAbove([folder])
  const { heads, scans } = await readSources(pool, sources, NO_HOLDINGS, { beside })
  const seconds = (performance.now() - start) / 1000
  const { user, system } = process.cpuUsage(before)
  if (heads.length !== count || scans.axes.length !== 1)
    throw new Error(`${heads.length} of ${count} scans were read, on ${scans.axes.length} axes.`)
  return { seconds, processor: (user + system) / 1e6 }
}

/** numpy.loadtxt over the same files, told their paths, delimiter and heading, each to an array. */
function peer(folder: string): Times | null {
  const told = runPython('reading.py', [folder])
  const [seconds, processor] = [numberIn(told, 'seconds'), numberIn(told, 'processor')]
  return seconds === null || processor === null ? null : { seconds, processor }
}

interface Race {
  /** The first pass of fresh workers, whose code the engine has not made fast yet. */
  readonly first: Times
  readonly ours: Times
  readonly theirs: Times | null
}

/** Turns about, so that both meet the same machine: medians over the rounds. */
async function race(pool: Pool, folder: string, count: number): Promise<Race> {
  const ours: Times[] = []
  const theirs: Times[] = []
  const first = await stage(pool, folder, count)
  for (let round = 0; round < ROUNDS; round++) {
    for (let i = 0; i < REPEATS; i++) ours.push(await stage(pool, folder, count))
    const told = peer(folder)
    if (told) theirs.push(told)
  }
  return { first, ours: middle(ours), theirs: theirs.length > 0 ? middle(theirs) : null }
}

function middle(times: readonly Times[]): Times {
  return {
    seconds: median(times.map(({ seconds }) => seconds)),
    processor: median(times.map(({ processor }) => processor)),
  }
}

/** The room's figures; of 10,000 files where `large`, else of 4,000. */
export async function* benchReading(large = false): AsyncIterable<Figure> {
  const folder = mkdtempSync(join(tmpdir(), 'reading-bench-'))
  try {
    const count = large ? 10_000 : 4_000
    const input = join(folder, 'in', 'here', 'scans')
    mkdirSync(input, { recursive: true })
    const megabytes = writeTwoColumnScans(input, count) / 1e6
    const startNodePool = await buildPool(join(folder, 'built'))
    const files = `${count} two-column files of ${CHANNELS} lines`
    for (const threads of [1, 2]) {
      const pool = startNodePool(threads)
      try {
        const { first, ours, theirs } = await race(pool, input, count)
        const figure = (name: string, own: number, other: number | undefined): Figure =>
          speed(`reading ${files}, ${name}`, megabytes / own, 'MB/s', threads, {
            name: 'numpy.loadtxt',
            value: other === undefined ? null : megabytes / other,
          })
        yield figure('layout found', ours.seconds, theirs?.seconds)
        yield figure('by processor time of all threads', ours.processor, theirs?.processor)
        yield figure('the first pass of fresh workers', first.seconds, theirs?.seconds)
      } finally {
        pool.close()
      }
    }
    yield* ownHeads(join(folder, 'own'), count, startNodePool)
  } finally {
    rmSync(folder, { recursive: true })
  }
}

/** Files with fifteen lines of their own above the numbers: a folder is read once, by fresh workers. */
async function* ownHeads(
  folder: string,
  count: number,
  startNodePool: Awaited<ReturnType<typeof buildPool>>,
): AsyncIterable<Figure> {
  const input = join(folder, 'here', 'scans')
  mkdirSync(input, { recursive: true })
  const megabytes = writeTwoColumnScans(input, count, 'own') / 1e6
  for (const threads of [1, 2]) {
    const pool = startNodePool(threads)
    try {
      const first = await stage(pool, input, count)
      const later: Times[] = []
      for (let i = 0; i < REPEATS; i++) later.push(await stage(pool, input, count))
      const what = `reading ${count} two-column files of ${CHANNELS} lines, each with a head of its own`
      const figure = (name: string, { processor }: Times): Figure =>
        speed(`${what}, by processor time, ${name}`, megabytes / processor, 'MB/s', threads)
      yield figure('the first pass of fresh workers', first)
      yield figure('later passes', middle(later))
    } finally {
      pool.close()
    }
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href)
  for await (const found of benchReading(process.argv.includes('large')))
    console.log(JSON.stringify(found))
