/**
 * How fast scans are identified against the built-in set, by the command line's own workers,
 * beside the published comparison written in numpy and scipy (identification.py says what it does).
 *
 * `npx tsx tests/bench/identification-speed.ts`; with `answers` it prints a digest of what a
 * thousand scans are taken for and the processor time of one, on one thread: what makes it faster
 * must leave the answers alone.
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { ExamineInput } from '../../src/jobs/examine'
import { unpackRecords } from '../../src/jobs/packed-records'
import type { Pool } from '../../src/jobs/pool'
import type { References } from '../../src/jobs/references'
import { REFERENCES } from '../../src/jobs/tasks'
import { sha256 } from '../../src/layers/sha256'
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { identify } from '../../src/minerals/identify'
import { modelReflectance } from '../../src/minerals/model'
import { prepareSet } from '../../src/minerals/prepare'
import type { Identification, ReferenceSet } from '../../src/minerals/reference'
import type { ReadScan } from '../../src/readers/input'
import { readFile } from '../../src/readers/read-file'
import { seeded } from '../surfaces/scatter'
import { buildPool } from './built-pool'
import { median, speed, type Figure } from './figure'
import { numberIn, runPython } from './python'

const SCANS = 2000
/** What numpy is given: enough to be timed. */
const PEER_SCANS = 200
/** Scans in one task, as the project hands them out. */
const TILE = 24
const REPEATS = 3
/** nm. */
const AXIS = Float64Array.from({ length: 2151 }, (_, channel) => 350 + channel)

/** The sample area's scans of 2,151 channels, again and again, each time with other noise. */
function noisyScans(count: number): Float32Array {
  const folder = resolve(import.meta.dirname, '../../sample-area/scans')
  const measured: ReadScan[] = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .flatMap((path) => readFile({ path, bytes: readFileSync(path) }).scans)
    .filter(({ wavelengths }) => wavelengths.length === AXIS.length && wavelengths[0] === AXIS[0])
  const random = seeded(20_261_125)
  const values = new Float32Array(count * AXIS.length)
  for (let scan = 0; scan < count; scan++) {
    const { reflectance } = measured[scan % measured.length]
    for (let channel = 0; channel < AXIS.length; channel++) {
      const noise = 0.001 * (random() + random() - 1)
      values[scan * AXIS.length + channel] = reflectance[channel] + noise
    }
  }
  return values
}

/** Seconds that the pool takes for all scans; every scan must be answered. */
async function seconds(pool: Pool, scans: Float32Array): Promise<number> {
  const count = scans.length / AXIS.length
  const tiles: ExamineInput[] = []
  for (let from = 0; from < count; from += TILE) {
    const to = Math.min(from + TILE, count)
    const values = scans.slice(from * AXIS.length, to * AXIS.length)
    const input = { wavelengths: AXIS, values, count: to - from, leaves: [] }
    tiles.push({ ...input, check: false, identify: true })
  }
  const start = performance.now()
  const found = await Promise.all(tiles.map((tile) => pool.run('examine', tile)))
  const took = (performance.now() - start) / 1000
  const answers = found.flatMap(({ identifications }) => unpackRecords(identifications))
  const named = answers.filter(({ minerals }) => minerals.length > 0).length
  if (answers.length !== count || named < count / 2)
    throw new Error(`Of ${count} scans ${answers.length} were answered and ${named} named.`)
  return took
}

/** References and scans as numpy reads them: doubles and floats, and what they are as JSON. */
function writeForPeer(folder: string, set: ReferenceSet, scans: Float32Array): void {
  const spectra = set.references.map((reference) => modelReflectance(reference, AXIS))
  const about = {
    channels: AXIS.length,
    first: AXIS[0],
    minerals: set.references.map(({ mineral }) => mineral),
    diagnostic: set.references.map(({ diagnostic }) => diagnostic),
  }
  writeFileSync(join(folder, 'about.json'), JSON.stringify(about))
  writeFileSync(join(folder, 'references.f64'), Buffer.concat(spectra.map(bytesOf)))
  writeFileSync(join(folder, 'scans.f32'), bytesOf(scans.slice(0, PEER_SCANS * AXIS.length)))
}

function bytesOf(values: Float32Array | Float64Array): Buffer {
  return Buffer.from(values.buffer, values.byteOffset, values.byteLength)
}

/** The room's figures of speed. */
export async function* benchIdentification(): AsyncIterable<Figure> {
  const folder = mkdtempSync(join(tmpdir(), 'identification-bench-'))
  try {
    const set = await loadBuiltInSet()
    const references: References = { sets: [set], measured: [], off: [], ranges: {} }
    const scans = noisyScans(SCANS)
    writeForPeer(folder, set, scans)
    const startNodePool = await buildPool(join(folder, 'built'))
    for (const threads of [1, 2]) {
      const pool = startNodePool(threads)
      try {
        pool.provide(REFERENCES, references)
        await seconds(pool, scans)
        const times: number[] = []
        for (let i = 0; i < REPEATS; i++) times.push(await seconds(pool, scans))
        const value = numberIn(runPython('identification.py', [folder]), 'scans_per_second')
        const peer = { name: 'numpy and scipy', value }
        const name = `identification against ${set.references.length} references`
        yield speed(name, SCANS / median(times), 'scans/s', threads, peer)
      } finally {
        pool.close()
      }
    }
  } finally {
    rmSync(folder, { recursive: true })
  }
}

/** SHA-256 of what scans are taken for, every digit of it, and ms of processor time for one. */
async function answers(count: number): Promise<{ digest: string; milliseconds: number }> {
  const set = prepareSet(await loadBuiltInSet())
  const values = noisyScans(count)
  const found: Identification[] = []
  const all = () => {
    for (let scan = 0; scan < count; scan++) {
      const reflectance = values.subarray(scan * AXIS.length, (scan + 1) * AXIS.length)
      found[scan] = identify({ wavelengths: AXIS, reflectance }, set)
    }
  }
  all()
  const before = process.cpuUsage()
  all()
  const { user, system } = process.cpuUsage(before)
  const digest = sha256(new TextEncoder().encode(JSON.stringify(found)))
  return { digest, milliseconds: (user + system) / 1000 / count }
}

const isAsked = import.meta.url === pathToFileURL(process.argv[1] ?? '').href
if (isAsked && process.argv.includes('answers')) console.log(JSON.stringify(await answers(1000)))
else if (isAsked)
  for await (const found of benchIdentification()) console.log(JSON.stringify(found))
