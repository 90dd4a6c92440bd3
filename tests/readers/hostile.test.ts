/**
 * Files made to harm: each ends in words or in what it holds, and none takes time that grows with
 * the square of its size. No clock is read: at these sizes such a step does not end within a test.
 */
import { deflateSync, zipSync } from 'fflate'
import { describe, expect, test } from 'vitest'
import { readFile } from '../../src/readers/read-file'
import { recognise } from '../../src/readers/recognise'
import { parseMoment } from '../../src/readers/time'
import { unpackFile, zipEntries } from '../../src/readers/zip'
import { fileOf, readTextOf } from './spectra'

const rows = Array.from({ length: 12 }, (_, i) => `${400 + 50 * i}\t0.${10 + i}\n`).join('')
const jcampBlock =
  '##TITLE=a\n##JCAMP-DX=4.24\n##XUNITS=NANOMETERS\n##YUNITS=REFLECTANCE\n##FIRSTX=400\n' +
  '##LASTX=420\n##NPOINTS=11\n##XYDATA=(X++(Y..Y))\n400 1 1 1 1 1 1 1 1 1 1 1\n##END=\n'

describe('more than is read is refused whole, with the line where it begins', () => {
  test('JCAMP-DX blocks', () => {
    const { scans, problems } = readTextOf(jcampBlock.repeat(10_001))
    expect(scans).toEqual([])
    expect(problems).toEqual([
      {
        file: 'day 1/scan.txt',
        line: 100_001,
        problem: 'JCAMP-DX of more than 10000 blocks',
        done: 'left out; split it into files of at most 10000 scans',
      },
    ])
    expect(readTextOf(jcampBlock.repeat(10_000)).scans).toHaveLength(10_000)
  })

  test('lines of one JCAMP-DX block', () => {
    const endless = jcampBlock.replace('##END=\n', '1\n'.repeat(520_000))
    const { scans, problems } = readTextOf(endless)
    expect(scans).toEqual([])
    expect(problems).toMatchObject([
      { line: 510_002, problem: 'a JCAMP-DX block of more than 510000 lines, which is no scan' },
    ])
  })

  test('stacked tables', () => {
    const stack = (count: number): string =>
      Array.from({ length: count }, (_, i) => `name: s${i}\n${rows}`).join('')
    const { scans, problems } = readTextOf(stack(20_001))
    expect(scans).toEqual([])
    expect(problems[0]).toMatchObject({
      line: 260_001,
      problem: 'more than 20000 tables one after another',
      done: 'left out; split it into files of at most 20000 scans',
    })
  })
})

describe('text on which a search could turn back again and again', () => {
  test('an ordinate line of blanks', () => {
    const text = jcampBlock.replace('400 1', `400 ${' '.repeat(900_000)}x 1`)
    expect(readTextOf(text).problems[0].problem).toMatch(/is no ordinate/)
  })

  test('headings of brackets or quotes that never close', () => {
    const table = (cell: string): string =>
      `Wavelength,A${cell},B\n${Array.from({ length: 40 }, (_, i) => `${350 + 50 * i},0.3,0.4`).join('\n')}\n`
    expect(readTextOf(table('('.repeat(900_000))).scans).toHaveLength(2)
    const quotes = `${'",'.repeat(450_000)}\n`
    expect(readTextOf(quotes + table('')).scans).toHaveLength(2)
  })

  test('a time of months without a year', () => {
    const time = `${'jan 1 '.repeat(100_000)}10:00`
    expect(parseMoment(time)).toBeNull()
    const { scans } = readTextOf(`time: ${time}\n${rows}`)
    expect(recognise(scans[0].metadata).time).toBeNull()
  })
})

describe('GPX', () => {
  const gpx = (inner: string): string =>
    `<?xml version="1.0"?>\n<gpx version="1.1">\n${inner}</gpx>`

  test('waypoints under a prefix have their lines too, however many they are', () => {
    const many = '<g:wpt lat="1" lon="2"/>\n'.repeat(40_000)
    const { tables } = readTextOf(`<?xml version="1.0"?>\n<g:gpx>\n${many}</g:gpx>`)
    expect(tables[0].lines.slice(0, 2)).toEqual([3, 4])
    expect(tables[0].lines[39_999]).toBe(40_002)
  })

  test('a track that breaks off is read to its last whole point, and that is told', () => {
    const point = (minute: number): string =>
      `<trkpt lat="-24.1" lon="-69.2"><time>2024-05-06T10:${minute}:00Z</time></trkpt>\n`
    const track = `<trk><trkseg>\n${Array.from({ length: 20 }, (_, i) => point(10 + i)).join('')}`
    const whole = gpx(`${track}</trkseg></trk>`)
    expect(readTextOf(whole).problems).toEqual([])
    const firstEnd = whole.indexOf('</trkpt>') + '</trkpt>'.length
    for (let length = firstEnd; length < whole.length; length += 13) {
      const cut = whole.slice(0, length)
      const { tracks, problems } = readTextOf(cut)
      expect(tracks[0].times, cut.slice(-40)).toHaveLength(cut.split('</trkpt>').length - 1)
      expect(problems.map(({ problem }) => problem)).toEqual([
        'GPX without its end: the file breaks off',
      ])
    }
  })
})

describe('zip', () => {
  /** Where the records of a file begin, and where in each the two sizes stand (APPNOTE 4.3). */
  const RECORDS = [
    { sign: 0x02014b50, packed: 20, size: 24 },
    { sign: 0x04034b50, packed: 18, size: 22 },
  ] as const

  /** The archive with another number in all records of what it holds. */
  function saying(what: 'packed' | 'size', value: number, archive: Uint8Array): Uint8Array {
    const view = new DataView(archive.buffer)
    for (let at = 0; at + 30 < archive.length; at++)
      for (const record of RECORDS)
        if (view.getUint32(at, true) === record.sign) view.setUint32(at + record[what], value, true)
    return archive
  }

  test('what unpacks to more than its directory says is stopped there', () => {
    const archive = saying('size', 900, zipSync({ 'a.txt': new Uint8Array(60_000_000) }))
    const { problems } = readFile({ path: 'bomb.zip', bytes: archive })
    expect(problems).toEqual([
      {
        file: 'bomb.zip/a.txt',
        line: null,
        problem: 'a file that unpacks to more than its zip archive says',
        done: 'left out; pack it again',
      },
    ])
  })

  test('a false size costs no more than the inflating of its first kilobyte', () => {
    const body = deflateSync(new Uint8Array(60_000_000), { level: 9 })
    // What stands behind that kilobyte is never looked at, so damage there goes unseen.
    body.fill(255, 2000)
    const packed = { body, method: 8, crc: 0, size: 900 }
    expect(unpackFile(packed)).toBe('a file that unpacks to more than its zip archive says')
  })

  test('files that share their bytes are refused: they take more than the archive', () => {
    const bytes = fileOf('x'.repeat(100_000)).bytes
    const archive = zipSync({ 'a.txt': bytes, 'b.txt': bytes, 'c.txt': bytes })
    expect(zipEntries(archive)).toHaveLength(3)
    const overlapping = saying('packed', Math.ceil(archive.length / 2), archive)
    expect(zipEntries(overlapping)).toBe('a zip archive whose files overlap')
  })
})
