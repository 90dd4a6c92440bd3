/** Reading into a project: files that cannot be had, files read again, scans cut short, stop. */
import { zipSync } from 'fflate'
import { describe, expect, test } from 'vitest'
import { isStopped } from '../../src/jobs/pool'
import { findCutShort } from '../../src/project/cut-short'
import { NO_HOLDINGS } from '../../src/project/project'
import { readSources, type InputSource } from '../../src/project/reading'
import { spectrumOf } from '../../src/spectra/scan-store'
import { withScans } from './holdings'
import { CountingPool } from './pools'

const bytesOf = (text: string) => new TextEncoder().encode(text)

function source(path: string, text: string): InputSource {
  const bytes = bytesOf(text)
  return { path, size: bytes.length, read: () => Promise.resolve(bytes) }
}

/** A scan of 60 channels from 400 nm, all of one value. */
function scan(value: number, channels = 60): string {
  return Array.from({ length: channels }, (_, i) => `${400 + i}\t${value}`).join('\n') + '\n'
}

/** A file whose bytes cannot be had. */
function lost(path: string, error: unknown): InputSource {
  const refuse = () => Promise.reject(error instanceof Error ? error : new Error(String(error)))
  return { path, size: 10, read: refuse, peek: refuse }
}

describe('a file that cannot be had', () => {
  test('is a problem of its own and stops no other', async () => {
    const gone = Object.assign(new Error('ENOENT: no such file, open /home/x'), { code: 'ENOENT' })
    const sources = [
      source('a.txt', scan(0.1)),
      lost('gone.txt', gone),
      lost('odd.txt', new Error('the drive was taken out')),
      source('b.txt', scan(0.2)),
    ]
    const holdings = await readSources(new CountingPool(), sources, NO_HOLDINGS)
    expect(holdings.heads.map(({ name }) => name)).toEqual(['a', 'b'])
    const problems = holdings.files.flatMap((file) => file.problems)
    expect(problems.map(({ file, problem }) => [file, problem])).toEqual([
      ['gone.txt', 'it cannot be read: ENOENT'],
      ['odd.txt', 'it cannot be read: the drive was taken out'],
    ])
    expect(spectrumOf(holdings.scans, 1).reflectance[0]).toBe(Math.fround(0.2))
  })
})

describe('wavelengths of other files', () => {
  const axis = Array.from({ length: 60 }, (_, i) => `${0.4 + i / 1000}`).join('\n')
  const record = `A record\n${Array.from({ length: 60 }, () => '0.25').join('\n')}\n`

  test('are sought once a record wants them, and then stand for all', async () => {
    const pool = new CountingPool()
    const names = Array.from({ length: 100 }, (_, i) => `${String(i).padStart(3, '0')}.txt`)
    const sources = names.map((name, i) =>
      i % 50 === 10 ? source(name, record) : source(name, scan(0.1)),
    )
    let asked = 0
    const beside = () => {
      asked++
      return Promise.resolve([source('wavelengths.txt', `Wavelengths in micrometres\n${axis}\n`)])
    }
    const { heads, scans, files } = await readSources(pool, sources, NO_HOLDINGS, { beside })
    expect(files.flatMap(({ problems }) => problems)).toEqual([])
    expect(heads.map(({ file }) => file)).toEqual(names)
    expect(spectrumOf(scans, 10).reflectance[0]).toBe(0.25)
    expect(spectrumOf(scans, 60).wavelengths[1]).toBe(401)
    expect(asked).toBe(1)
  })

  test('are not sought where no record wants any', async () => {
    const beside = () => Promise.reject(new Error('nobody asked'))
    const sources = [source('a.txt', scan(0.1))]
    const { heads } = await readSources(new CountingPool(), sources, NO_HOLDINGS, { beside })
    expect(heads).toHaveLength(1)
  })

  test('of a record in an archive stand beside the archive', async () => {
    const archive = zipSync({ 'day/record.txt': bytesOf(record) })
    const sources = [
      { path: 'a.zip', size: archive.length, read: () => Promise.resolve(archive) },
      source('wavelengths.txt', `Wavelengths in micrometres\n${axis}\n`),
    ]
    const { heads, scans } = await readSources(new CountingPool(), sources, NO_HOLDINGS)
    expect(heads.map(({ name }) => name)).toEqual(['record'])
    expect(spectrumOf(scans, 0).wavelengths[0]).toBe(400)
  })
})

describe('a file read again', () => {
  test('takes the place of the older content; numbers of other scans stay', async () => {
    const pool = new CountingPool()
    const first = await readSources(
      pool,
      [source('a.txt', scan(0.1)), source('b.txt', scan(0.2)), source('t.csv', 'name,x\nA,1\n')],
      NO_HOLDINGS,
    )
    const second = await readSources(
      pool,
      [source('a.txt', scan(0.3)), source('t.csv', 'name,x\nA,2\nB,3\n')],
      first,
    )
    expect(second.files.map(({ path, firstScan }) => [path, firstScan])).toEqual([
      ['b.txt', 1],
      ['a.txt', 2],
      ['t.csv', 3],
    ])
    expect(second.tables.map(({ rows }) => rows.length)).toEqual([2])
    expect(spectrumOf(second.scans, 2).reflectance[0]).toBe(Math.fround(0.3))
  })
})

describe('stop', () => {
  test('gives nothing, and the holdings before are untouched', async () => {
    const pool = new CountingPool()
    const controller = new AbortController()
    pool.before = (_, count) => {
      if (count === 2) controller.abort()
    }
    const sources = Array.from({ length: 100 }, (_, i) => source(`${i}.txt`, scan(0.1)))
    const error: unknown = await readSources(pool, sources, NO_HOLDINGS, {
      signal: controller.signal,
    }).catch((reason: unknown) => reason)
    expect(isStopped(error)).toBe(true)
    expect(pool.count('read')).toBeLessThan(4)
    expect(NO_HOLDINGS.heads).toEqual([])
  })

  test('progress comes to the number of files', async () => {
    const steps: number[] = []
    const sources = Array.from({ length: 70 }, (_, i) => source(`${i}.txt`, scan(0.1)))
    const progress = (done: number, total: number) => void steps.push(done, total)
    await readSources(new CountingPool(), sources, NO_HOLDINGS, { progress })
    expect(steps.slice(-2)).toEqual([70, 70])
  })
})

describe('a scan cut short', () => {
  const axis = Float64Array.from({ length: 100 }, (_, i) => 350 + i)
  const made = (file: string, wavelengths: Float64Array) => ({
    name: file,
    file,
    wavelengths,
    reflectance: new Float32Array(wavelengths.length).fill(0.3),
  })
  const whole = (folder: string, count: number) =>
    Array.from({ length: count }, (_, i) => made(`${folder}/${i}.txt`, axis))
  const found = (scans: ReturnType<typeof made>[]) => {
    const holdings = withScans(NO_HOLDINGS, scans)
    return findCutShort(holdings, holdings.heads.keys()).problems
  }

  test('is told by the others of its folder, from whichever end it was read', () => {
    const problems = found([
      ...whole('day', 20),
      made('day/head.txt', axis.slice(0, 40)),
      made('day/tail.txt', axis.slice(60)),
    ])
    expect(problems.map(({ file }) => file)).toEqual(['day/head.txt', 'day/tail.txt'])
    expect(problems[0].problem).toBe(
      'it breaks off: 40 channels from 350 to 389 nm, where the others of its folder have 100 from 350 to 449 nm',
    )
  })

  test('is not told in another folder, nor beside fewer than ten', () => {
    expect(found([...whole('day', 20), made('other/a.txt', axis.slice(0, 40))])).toEqual([])
    expect(found([...whole('day', 9), made('day/a.txt', axis.slice(0, 40))])).toEqual([])
  })

  test('is not another instrument’s range: other channels, a middle part, or many of them', () => {
    const shifted = axis.slice(0, 40).map((nm) => nm + 0.5)
    expect(found([...whole('day', 20), made('day/a.txt', shifted)])).toEqual([])
    expect(found([...whole('day', 20), made('day/a.txt', axis.slice(10, 40))])).toEqual([])
    const visible = Array.from({ length: 5 }, (_, i) => made(`day/v${i}.txt`, axis.slice(0, 40)))
    expect(found([...whole('day', 20), ...visible])).toEqual([])
  })
})
