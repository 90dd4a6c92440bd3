/**
 * What a person waits for in the window: the first map, a moved class limit, a main thread that
 * answers while a surface is computed and files are read, Stop, and how much code comes first.
 * Chromium draws in software here.
 *
 * `npx tsx tests/bench/window.ts`; with `large` it reads 10,000 files rather than 2,000, with
 * `surface` only the figures of a surface are taken.
 */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { gzipSync } from 'node:zlib'
import type { Page } from 'playwright-core'
import { longestTask, openWatched, pageTime, settled, withBuiltApp, type BuiltApp } from './browser'
import { measured, median, type Figure } from './figure'
import { manyStations } from './many-stations'
import { writeTwoColumnScans } from './reading'
import { watchRendererMemory } from './renderer-memory'

const OPENINGS = 5
const STATIONS = 5000
const MOVES = 7
/** The surface has about this many nodes a side. */
const NODES = 1000

/** ms from navigation until the map stands with stations that are classified. */
async function opening(app: BuiltApp): Promise<number> {
  const page = await openWatched(app)
  const time = await page.evaluate(async () => {
    const classified = () =>
      [...document.querySelectorAll('[aria-label=Legend] li')]
        .filter((row) => !/unclassified|not measurable/.test(row.textContent ?? ''))
        .some((row) => Number(row.querySelector('.figures')?.textContent ?? 0) > 0)
    while (!document.querySelector('[data-drawn]') || !classified())
      await new Promise(requestAnimationFrame)
    return performance.now()
  })
  await page.context().close()
  return time
}

/** gzipped kB of scripts that the page asks for until the map stands: its own, and its workers'. */
async function scriptWeight(app: BuiltApp): Promise<{ page: number; workers: number }> {
  const context = await app.browser.newContext()
  const page = await context.newPage()
  const asked = new Set<string>()
  page.on('request', (request) =>
    asked.add(new URL(request.url()).pathname.split('/').at(-1) ?? ''),
  )
  await page.goto(app.url)
  await page.waitForSelector('[data-drawn]', { timeout: 120_000 })
  await context.close()
  let [own, workers] = [0, 0]
  const assets = join(app.folder, 'assets')
  for (const file of readdirSync(assets).filter(
    (name) => name.endsWith('.js') && asked.has(name),
  )) {
    const kilobytes = gzipSync(readFileSync(join(assets, file))).length / 1000
    if (file.includes('worker')) workers += kilobytes
    else own += kilobytes
  }
  return { page: own, workers }
}

/**
 * Opens an empty project and drops a file or folder on it through the DevTools protocol.
 *
 * @returns the page's time when it was dropped
 */
async function dropOnEmpty(page: Page, path: string): Promise<number> {
  await page.waitForSelector('[data-drawn]', { timeout: 120_000 })
  await settled(page)
  await page.getByRole('button', { name: 'Start an empty project' }).click()
  await page.getByRole('region', { name: 'How to begin' }).waitFor()
  const session = await page.context().newCDPSession(page)
  const data = { items: [], files: [path], dragOperationsMask: 1 }
  const given = await pageTime(page)
  for (const type of ['dragEnter', 'dragOver', 'drop'] as const)
    await session.send('Input.dispatchDragEvent', { type, x: 600, y: 400, data })
  await page.waitForSelector('progress')
  return given
}

/**
 * Moves the limit of an open class and waits until the legend has counted anew, the new looks
 * have been sent and drawn, and two frames have passed.
 *
 * @returns ms from the event to that frame
 */
async function moveLimit(page: Page, value: number): Promise<number> {
  return page.evaluate(async (limit) => {
    const slider = document.querySelector<HTMLInputElement>(
      '#panel details[open] input[type=range]',
    )
    const legend = document.querySelector<HTMLElement>('[aria-label=Legend]')
    if (!slider || !legend) throw new Error('No class with a limit stands open beside the legend.')
    const frame = () => new Promise<number>((resolve) => requestAnimationFrame(resolve))
    await frame()
    await frame()
    const before = legend.textContent
    const start = performance.now()
    slider.value = String(limit)
    slider.dispatchEvent(new Event('input', { bubbles: true }))
    const { watch } = window
    while (legend.textContent === before || watch.sent < start || watch.drawn < watch.sent) {
      if (performance.now() - start > 20_000) throw new Error('The map did not follow in 20 s.')
      await frame()
    }
    await frame()
    await frame()
    return performance.now() - start
  }, value)
}

/** A class limit moved over many stations. */
async function* limitFigures(page: Page): AsyncIterable<Figure> {
  await page.getByRole('button', { name: /^Classes/ }).click()
  await page.locator('#panel summary', { hasText: /^\s*kaolin/ }).click()
  await page.locator('#panel details[open] input[type=range]').first().waitFor()
  await moveLimit(page, 0.9)
  const drawn = await page.evaluate(() => window.watch.count)
  if (drawn !== STATIONS) throw new Error(`${drawn} of ${STATIONS} stations are on the map.`)
  const times: number[] = []
  for (let i = 0; i < MOVES; i++) times.push(await moveLimit(page, i % 2 === 0 ? 0.2 : 0.6))
  yield measured(`a moved class limit recolours ${STATIONS} stations`, median(times), 'ms', 1)
}

/** A surface of a million nodes: how long the window is held up, and how soon Stop stops. */
async function* surfaceFigures(page: Page): AsyncIterable<Figure> {
  await page.getByRole('button', { name: /^Surfaces/ }).click()
  await page.getByLabel('What the new surface is of').selectOption('v white mica position')
  await page.getByRole('button', { name: 'Add', exact: true }).click()
  await page.locator('#panel details', { hasText: 'ready' }).waitFor({ timeout: 300_000 })
  await settled(page)
  await page.locator('#panel').getByLabel(/^Cell/).first().waitFor()
  const side = Math.sqrt(STATIONS) * 50
  const cell = (metres: number) => setCell(page, metres)
  const since = await pageTime(page)
  await cell(side / NODES)
  await page.waitForSelector('progress')
  await settled(page)
  const name = 'longest task of the main thread while a million nodes are computed'
  yield measured(name, await longestTask(page, since), 'ms', 1)
  yield measured(
    'a million nodes with their map and tests',
    (await pageTime(page)) - since,
    'ms',
    2,
  )
  await cell(side / NODES / 1.1)
  await page.waitForSelector('progress')
  const stop = await page.evaluate(async () => {
    const button = document.querySelector<HTMLButtonElement>('button[aria-label^="Stop"]')
    if (!button) throw new Error('There is nothing to stop.')
    const start = performance.now()
    button.click()
    while (document.querySelector('progress')) await new Promise(requestAnimationFrame)
    return performance.now() - start
  })
  yield measured('Stop while a surface is computed', stop, 'ms', 1)
}

async function setCell(page: Page, metres: number): Promise<void> {
  const field = page.locator('#panel').getByLabel(/^Cell/).first()
  await field.fill(metres.toFixed(2))
  await field.blur()
}

/** Two-column files given to an empty project. */
async function* readingFigures(
  app: BuiltApp,
  folder: string,
  count: number,
): AsyncIterable<Figure> {
  const input = join(folder, 'scans')
  mkdirSync(input)
  const megabytes = writeTwoColumnScans(input, count) / 1e6
  const page = await openWatched(app)
  const peak = await watchRendererMemory(app.browser)
  const given = await dropOnEmpty(page, input)
  await settled(page, 'Reading')
  const read = await pageTime(page)
  await settled(page)
  yield measured(
    `reading ${count} files in the window`,
    megabytes / ((read - given) / 1000),
    'MB/s',
    2,
  )
  const name = `longest task of the main thread while ${count} files are read and examined`
  yield measured(name, await longestTask(page, given), 'ms', 1)
  yield measured(`peak memory of the renderer with ${count} files, PSS`, peak(), 'MB', 1)
  await page.context().close()
}

/** The window's figures. */
export async function* benchWindow(large = false): AsyncIterable<Figure> {
  const figures = await withBuiltApp(async (app) => {
    const list: Figure[] = []
    const folder = mkdtempSync(join(tmpdir(), 'window-bench-'))
    try {
      for await (const figure of windowFigures(app, folder, large)) {
        list.push(figure)
        console.error(`${figure.name}: ${figure.value} ${figure.unit}`)
      }
    } finally {
      rmSync(folder, { recursive: true })
    }
    return list
  })
  yield* figures
}

async function* surfaceOnly(): AsyncIterable<Figure> {
  const figures = await withBuiltApp(async (app) => {
    const folder = mkdtempSync(join(tmpdir(), 'window-bench-'))
    const list: Figure[] = []
    try {
      const page = await openWithStations(app, folder)
      for await (const figure of surfaceFigures(page)) list.push(figure)
    } finally {
      rmSync(folder, { recursive: true })
    }
    return list
  })
  yield* figures
}

/** A page whose project holds many stations and nothing else. */
async function openWithStations(app: BuiltApp, folder: string): Promise<Page> {
  const table = join(folder, 'stations.csv')
  writeFileSync(table, await manyStations(STATIONS))
  const page = await openWatched(app)
  await dropOnEmpty(page, table)
  await settled(page)
  return page
}

async function* windowFigures(
  app: BuiltApp,
  folder: string,
  large: boolean,
): AsyncIterable<Figure> {
  const weight = await scriptWeight(app)
  yield measured('scripts of the page, gzipped', weight.page, 'kB', 1)
  yield measured('scripts of its workers, gzipped', weight.workers, 'kB', 1)
  const openings: number[] = []
  for (let i = 0; i < OPENINGS; i++) openings.push(await opening(app))
  yield measured('the sample area stands with classified stations', median(openings), 'ms', 2)
  const page = await openWithStations(app, folder)
  yield* limitFigures(page)
  yield* surfaceFigures(page)
  await page.context().close()
  yield* readingFigures(app, folder, large ? 10_000 : 2_000)
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href)
  for await (const found of process.argv.includes('surface')
    ? surfaceOnly()
    : benchWindow(process.argv.includes('large')))
    console.log(JSON.stringify(found))
