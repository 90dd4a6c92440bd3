/** What the command line finds in folders, and how its workers open it. */
import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { appendFileSync, mkdirSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { findFiles } from '../../src/batch/files'
import { nodePlatform } from '../../src/batch/node-platform'
import { readReferences } from '../../src/batch/references'
import { startInlinePool } from '../../src/jobs/inline-pool'
import { read } from '../../src/jobs/read'
import { COMPANIONS_UNKNOWN } from '../../src/readers/read-file'
import { Layers, runMap, Scratch } from './command'

const scanOf60 = Array.from({ length: 60 }, (_, i) => `${400 + i}\t0.${400 + i}`).join('\n')

let scratch: Scratch
beforeEach(() => {
  scratch = new Scratch()
})
afterEach(() => scratch.remove())

function found(): { paths: string[]; problems: string[] } {
  const { sources, problems } = findFiles([scratch.path('in')])
  return {
    paths: sources.map(({ path }) => path),
    problems: problems.map(({ file, problem }) => `${file}: ${problem}`),
  }
}

describe('links', () => {
  test('to files and folders elsewhere are followed', () => {
    scratch.put('in/a.txt', 'a')
    scratch.put('far/b.txt', 'b')
    scratch.put('far/deep/c.txt', 'c')
    symlinkSync(scratch.path('far'), scratch.path('in', 'day'))
    symlinkSync(scratch.path('far/b.txt'), scratch.path('in', 'z.txt'))
    const { paths, problems } = found()
    expect(paths).toEqual(['a.txt', 'day/b.txt', 'day/deep/c.txt'])
    expect(problems).toEqual(['z.txt: a link to what is read already'])
  })

  test('in a ring end, and what is read once is not read twice', () => {
    scratch.put('in/day/a.txt', 'a')
    symlinkSync(scratch.path('in'), scratch.path('in/day', 'up'))
    symlinkSync('a.txt', scratch.path('in/day', 'again.txt'))
    const { paths, problems } = found()
    expect(paths).toEqual(['day/a.txt'])
    expect(problems).toEqual([
      'day/again.txt: a link to what is read already',
      'day/up: a link to what is read already',
    ])
  })

  test('to a folder above and to one that holds a linked file read nothing twice', () => {
    scratch.put('top/in/a.txt', 'a')
    scratch.put('top/b.txt', 'b')
    symlinkSync(scratch.path('top/b.txt'), scratch.path('top/in', 'b.txt'))
    symlinkSync(scratch.path('top'), scratch.path('top/in', 'up'))
    const { sources } = findFiles([scratch.path('top/in')])
    expect(sources.map(({ path }) => path)).toEqual(['a.txt', 'b.txt'])
  })

  test('that lead nowhere or to themselves are problems', () => {
    scratch.put('in/a.txt', 'a')
    symlinkSync('gone.txt', scratch.path('in', 'gone'))
    symlinkSync('self', scratch.path('in', 'self'))
    const { paths, problems } = found()
    expect(paths).toEqual(['a.txt'])
    expect(problems).toEqual([
      'gone: a link that leads nowhere',
      'self: it cannot be opened: its links lead round in a ring (ELOOP)',
    ])
  })
})

test('a file or folder that is named twice is read once', () => {
  scratch.put('in/a.txt', 'a')
  scratch.put('in/deep/b.txt', 'b')
  const folder = scratch.path('in')
  for (const again of [folder, `${folder}/`, scratch.path('in/deep/b.txt')]) {
    const { sources, problems } = findFiles([folder, again])
    expect(sources.map(({ path }) => path)).toEqual(['a.txt', 'deep/b.txt'])
    expect(problems).toEqual([])
  }
})

test('what is neither a file nor a folder is told, and never waited for', () => {
  scratch.put('in/a.txt', 'a')
  execFileSync('mkfifo', [scratch.path('in', 'pipe')])
  expect(found()).toEqual({
    paths: ['a.txt'],
    problems: ['pipe: it is neither a file nor a folder'],
  })
})

test('a folder nested beyond reason is left out by name; the rest is read', () => {
  scratch.put('in/a.txt', 'a')
  const deep = Array.from({ length: 34 }, () => 'd').join('/')
  mkdirSync(scratch.path('in', deep), { recursive: true })
  writeFileSync(scratch.path('in', deep, 'b.txt'), 'b')
  const { paths, problems } = found()
  expect(paths).toEqual(['a.txt'])
  expect(problems).toHaveLength(1)
  expect(problems[0]).toMatch(/^d\/.*nested more than 32 deep/)
})

test('an empty folder, and a name in another encoding, are problems of their own', () => {
  mkdirSync(scratch.path('in'), { recursive: true })
  expect(found().problems).toEqual([`${scratch.path('in')}: the folder is empty`])
  writeFileSync(Buffer.concat([Buffer.from(scratch.path('in', 'S')), Buffer.from([0xff])]), 'a')
  expect(found().problems).toEqual(['S\uFFFD: its name is written in another encoding than UTF-8'])
})

describe('the command line', () => {
  test('says why nothing was read, and ends with 2', () => {
    mkdirSync(scratch.path('in'), { recursive: true })
    const ran = runMap('--scans', scratch.path('in'), '--out', scratch.path('out/deep/er'))
    expect(ran.code).toBe(2)
    expect(ran.complained).toMatch(/Nothing could be read.*the folder is empty/)
  })

  test.each(['/proc/none/out', 'in/a.txt/out'])('says that %s cannot be made, at once', (out) => {
    scratch.put('in/a.txt', 'a')
    const folder = out.startsWith('/') ? out : scratch.path(out)
    const ran = runMap('--scans', scratch.path('in'), '--out', folder)
    expect(ran.code).toBe(64)
    expect(ran.complained).toMatch(/cannot be made or written to: [a-z ]+ \(E[A-Z]+\)\./)
  })

  test('reads nothing that an earlier run wrote among the scans', () => {
    scratch.put('in/a.txt', scanOf60)
    const out = scratch.path('in/layers')
    const layers = new Layers(out)
    const written = () => {
      expect(runMap('--scans', scratch.path('in'), '--out', out).code).toBe(0)
      return layers.names.map((name) => [name, layers.text(name)])
    }
    const first = written()
    expect(written()).toEqual(first)
  })

  test('writes layers into the folder of the scans, and does not read them the next time', () => {
    scratch.put('in/a.txt', scanOf60)
    const layers = new Layers(scratch.path('in'))
    const written = () => {
      expect(runMap('--scans', layers.folder, '--out', layers.folder).code).toBe(0)
      return layers.names.map((name) => [name, layers.text(name)])
    }
    const first = written()
    expect(written()).toEqual(first)
    expect(layers.report.inputs.map(({ file }) => file)).toEqual(['a.txt'])
  })

  describe('--references', () => {
    const run = () => {
      scratch.put('in/a.txt', scanOf60)
      scratch.put('lib/deep/Alunite_B.txt', 'no spectrum')
      const words = ['--scans', scratch.path('in'), '--references', scratch.path('lib')]
      return runMap(...words, '--out', scratch.path('out'))
    }

    test('a record that cannot be read stops no other and is told, its folder’s name first', () => {
      scratch.put('lib/Kaolinite_A.txt', scanOf60)
      expect(run().code).toBe(0)
      const out = new Layers(scratch.path('out'))
      const { problem } = out.row('problems.csv', 'file', 'lib/deep/Alunite_B.txt')
      expect(problem).toMatch(/no table of wavelengths/)
      const references = out.report.inputs.filter(({ kind }) => kind === 'reference')
      expect(references.map(({ file }) => file)).toEqual(['Kaolinite_A.txt', 'deep/Alunite_B.txt'])
    })

    test('none that can be read: refused with the first reason, and nothing is written', () => {
      const ran = run()
      expect(ran.code).toBe(64)
      expect(ran.complained).toMatch(
        /lib hold no spectra that can be read\. deep\/Alunite_B\.txt: no table of .*; left out/,
      )
      expect(new Layers(scratch.path('out')).names).toEqual([])
    })
  })

  test('says in which recipe the working system is none', () => {
    scratch.put('in/a.txt', scanOf60)
    const recipe = scratch.json('recipe.json', { recipe: 1, crs: 'EPSG:999999' })
    const words = ['--scans', scratch.path('in'), '--recipe', recipe, '--out', scratch.path('out')]
    const { code, complained } = runMap(...words)
    expect(code).toBe(64)
    expect(complained).toContain(`The recipe ${recipe} is wrong at crs: “EPSG:999999”`)
  })

  test('a reader of its words that leaves early stops no layer', () => {
    scratch.put('in/a.txt', scanOf60)
    const words = ['src/batch/launch.mjs', 'map', '--scans', scratch.path('in')]
    const out = scratch.path('out')
    const command = ['node', ...words, '--out', out].map((word) => `'${word}'`).join(' ')
    const told = execFileSync('bash', ['-c', `${command} | head -c 0`])
    expect(told.toString()).toBe('')
    expect(new Layers(out).rows('scans.csv')).toHaveLength(1)
  })
})

describe('a worker opens files itself', () => {
  const given = (name: string, size: number) => ({ path: name, size, at: scratch.path(name) })
  const readAll = (files: ReturnType<typeof given>[]) =>
    read({ files, companions: COMPANIONS_UNKNOWN, corrections: [] }, nodePlatform())
  const scan = scanOf60

  test('one after another, each whole though it has grown; one that has gone is a problem', async () => {
    const path = scratch.put('a.txt', scan)
    appendFileSync(path, '\n460\t0.5')
    scratch.put('b.txt', scan)
    const output = await readAll([given('a.txt', 10), given('gone.txt', 10), given('b.txt', 10)])
    expect(output.files.map(({ path: file, size }) => [file, size])).toEqual([
      ['a.txt', scan.length + 8],
      ['b.txt', scan.length],
    ])
    expect(output.axes.map(({ length }) => length)).toEqual([61, 60])
    expect(output.values[60]).toBe(0.5)
    expect(output.files[1].sha256).toBe(createHash('sha256').update(scan).digest('hex'))
    expect(output.unread.map(({ file, problem }) => [file, problem])).toEqual([
      ['gone.txt', 'it cannot be read: ENOENT'],
    ])
  })

  test('a layer’s bytes are its own after the next file was opened', async () => {
    const layer = '{"type":"FeatureCollection","features":[]}'
    scratch.put('units.geojson', layer)
    scratch.put('b.txt', scan)
    const { ground } = await readAll([given('units.geojson', 42), given('b.txt', 10)])
    expect(ground.map(({ bytes }) => new TextDecoder().decode(bytes))).toEqual([layer])
  })

  test('a file larger than its shared memory is read whole', async () => {
    const large = `${'x'.repeat(900)}\n`.repeat(2500)
    scratch.put('large.txt', large)
    const { files } = await readAll([given('large.txt', 100)])
    expect(files[0].size).toBe(large.length)
    expect(files[0].sha256).toBe(createHash('sha256').update(large).digest('hex'))
  })
})

test('a set file too large to be one is refused in words, unread', async () => {
  scratch.put('sets/large.json', '{}')
  truncateSync(scratch.path('sets/large.json'), 3_000_000_000)
  const reading = readReferences(scratch.path('sets'), startInlinePool())
  await expect(reading).rejects.toThrow(
    'large.json has 3000 MB; a reference set of at most 50 MB is read. Split it into several sets.',
  )
})
