/** Opens the built app in Chromium for a test, and what tests do on it. */
import { chromium, type Browser, type Page } from 'playwright-core'
import { inject } from 'vitest'
import { CHROMIUM_FLAGS } from './chromium'

/** Whether browser tests can run here; the setup says why where they cannot. */
export const canBrowse = inject('chromium') !== ''

/** Errors that the page itself reported, by page. */
const errors = new WeakMap<Page, string[]>()

export async function openBrowser(): Promise<Browser> {
  const asRoot = process.getuid?.() === 0 ? ['--no-sandbox'] : []
  return chromium.launch({
    executablePath: inject('chromium'),
    args: [...CHROMIUM_FLAGS, ...asRoot],
  })
}

/** Of a window, px. */
interface Size {
  readonly width: number
  readonly height: number
}

/** A fresh page with the app open and nothing kept from before. */
export async function openApp(
  browser: Browser,
  size: Size = { width: 1366, height: 768 },
): Promise<Page> {
  const context = await browser.newContext({ viewport: size, acceptDownloads: true })
  const page = await context.newPage()
  const seen: string[] = []
  errors.set(page, seen)
  page.on('pageerror', (error) => seen.push(error.message))
  page.on('console', (message) => {
    if (message.type() === 'error') seen.push(message.text())
  })
  await page.goto(inject('appUrl'))
  return page
}

/** A fresh page on which the sample area stands, drawn and with nothing left to compute. */
export async function openSampleArea(browser: Browser, size?: Size): Promise<Page> {
  const page = await openApp(browser, size)
  await drawn(page)
  await settled(page)
  return page
}

/** A fresh page on which an empty project stands. */
export async function openEmptyProject(browser: Browser, size?: Size): Promise<Page> {
  const page = await openApp(browser, size)
  await page.getByRole('button', { name: 'Start an empty project' }).click()
  await settled(page)
  return page
}

/** What went wrong on a page so far. */
export function errorsOf(page: Page): readonly string[] {
  return errors.get(page) ?? []
}

/** Waits until the map with its stations is drawn. */
export async function drawn(page: Page): Promise<void> {
  await page.waitForSelector('[data-drawn]', { timeout: 90_000 })
}

/** Waits until nothing is being computed. */
export async function settled(page: Page): Promise<void> {
  await page.waitForFunction(() => document.documentElement.dataset.busy === 'false', undefined, {
    timeout: 90_000,
  })
}

/** Drops a folder on the window through the DevTools protocol, as a person would. */
export async function dropFolder(page: Page, folder: string): Promise<void> {
  const session = await page.context().newCDPSession(page)
  const data = { items: [], files: [folder], dragOperationsMask: 1 }
  for (const type of ['dragEnter', 'dragOver', 'drop'] as const) {
    await session.send('Input.dispatchDragEvent', { type, x: 600, y: 400, data })
  }
}
