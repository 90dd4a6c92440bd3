/** The built app in Chromium, watched for long tasks and for what the map draws. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { chromium, type Browser, type Page } from 'playwright-core'
import { build, preview } from 'vite'
import { CHROMIUM_FLAGS, findChromium } from '../browser/chromium'

/** What the page notes of itself, in ms since navigation; see `watch`. */
interface Watch {
  /** Tasks of the main thread over 50 ms (Long Tasks API). */
  readonly longTasks: { start: number; duration: number }[]
  /** When looks of stations were last sent to the graphics card, and how many. */
  sent: number
  count: number
  /** When stations were last drawn. */
  drawn: number
}

declare global {
  interface Window {
    watch: Watch
  }
}

export interface BuiltApp {
  readonly browser: Browser
  readonly url: string
  /** Where the built files stand. */
  readonly folder: string
}

/** Builds and serves the app for as long as `use` runs. @throws where there is no Chromium */
export async function withBuiltApp<T>(use: (app: BuiltApp) => Promise<T>): Promise<T> {
  const found = findChromium()
  if ('missing' in found) throw new Error(found.missing)
  const folder = mkdtempSync(join(tmpdir(), 'aureole-bench-'))
  const shared = { logLevel: 'error' as const, build: { outDir: folder, emptyOutDir: true } }
  await build(shared)
  const server = await preview({ ...shared, preview: { port: 0, host: '127.0.0.1' } })
  const asRoot = process.getuid?.() === 0 ? ['--no-sandbox'] : []
  const browser = await chromium.launch({
    executablePath: found.path,
    args: [...CHROMIUM_FLAGS, ...asRoot],
  })
  try {
    return await use({ browser, url: server.resolvedUrls?.local[0] ?? '', folder })
  } finally {
    await browser.close()
    await server.close()
    rmSync(folder, { recursive: true })
  }
}

/** A fresh page that is watched, with the app open and nothing kept from before. */
export async function openWatched({ browser, url }: BuiltApp): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1366, height: 768 } })
  const page = await context.newPage()
  page.on('pageerror', (error) => console.error(`The page failed: ${error.message}`))
  // tsx names functions by a helper that the page does not have.
  await page.addInitScript('globalThis.__name = (value) => value')
  await page.addInitScript(watch)
  await page.goto(url)
  return page
}

/** Runs in the page before anything else: stations are the only points that the map draws. */
function watch(): void {
  const seen: Watch = { longTasks: [], sent: 0, count: 0, drawn: 0 }
  window.watch = seen
  new PerformanceObserver((list) => {
    for (const { startTime, duration } of list.getEntries())
      seen.longTasks.push({ start: startTime, duration })
  }).observe({ type: 'longtask', buffered: true })
  const gl = WebGL2RenderingContext.prototype
  const { bufferData, drawArrays } = gl
  gl.bufferData = function (this: WebGL2RenderingContext, ...given: unknown[]) {
    if (given[1] instanceof Uint8Array && given[2] === gl.DYNAMIC_DRAW) {
      seen.sent = performance.now()
      seen.count = given[1].length / 8
    }
    Reflect.apply(bufferData, this, given)
  } as typeof gl.bufferData
  gl.drawArrays = function (mode, first, count) {
    drawArrays.call(this, mode, first, count)
    if (mode === gl.POINTS) seen.drawn = performance.now()
  }
}

/**
 * Waits until no running activity's words hold a text; any activity where the text is empty. The
 * page's own policy forbids what playwright's waitForFunction does, so the page is asked to wait.
 */
export async function settled(page: Page, words = ''): Promise<void> {
  await page.evaluate(async (text) => {
    const busy = () =>
      [...document.querySelectorAll('progress')].some((bar) => bar.ariaLabel?.includes(text))
    while (busy()) await new Promise((resolve) => setTimeout(resolve, 50))
  }, words)
}

/** The longest task of the main thread since a time of the page's clock, ms; 0 where none was long. */
export async function longestTask(page: Page, since: number): Promise<number> {
  return page.evaluate((from) => {
    const tasks = window.watch.longTasks.filter(({ start }) => start >= from)
    return Math.max(0, ...tasks.map(({ duration }) => duration))
  }, since)
}

/** The page's clock, ms since navigation. */
export async function pageTime(page: Page): Promise<number> {
  return page.evaluate(() => performance.now())
}
