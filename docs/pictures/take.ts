/**
 * Takes the guide's pictures: the built app in Chromium, walked to each place that the guide speaks
 * of, and what it shows then kept as WebP beside this file. `npx tsx docs/pictures/take.ts`, with
 * names for some of them only: `npx tsx docs/pictures/take.ts map check`.
 */
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { withBuiltApp, type BuiltApp } from '../../tests/bench/browser'

const SIZE = { width: 1280, height: 720 }
/** Of WebP, 0 to 1: letters stay crisp, and a picture stays under some 150 kB. */
const QUALITY = 0.86
const PATIENCE = { timeout: 120_000 }

/** What has to be done on a page of the sample area before its picture is taken. */
const PLACES: Readonly<Record<string, (page: Page) => Promise<void>>> = {
  map: async () => {},
  question: askedForCrs,
  check: async (page) => {
    await showSurface(page, 'none')
    await openStep(page, 'Check')
  },
  station: async (page) => {
    await showSurface(page, 'none')
    await page.getByPlaceholder('Find a station').fill('C10')
    await page.getByRole('button', { name: 'Find', exact: true }).click()
  },
  classes: async (page) => {
    await showSurface(page, 'none')
    await openStep(page, 'Classes')
    await page.locator('summary').filter({ hasText: 'long white mica' }).click()
  },
  surface: async (page) => {
    await showSurface(page, 'white mica chance')
    await openStep(page, 'Surfaces')
    await page.locator('summary').filter({ hasText: 'white mica chance' }).click()
  },
  traverse: async (page) => {
    await openStep(page, 'Traverse')
    // A bend of the vehicle track.
    await page.getByLabel('The start: a station’s name').fill('-24.9109868 -69.2770776')
    await page.getByRole('button', { name: 'Set', exact: true }).click()
    await page.getByRole('button', { name: 'Plan a walk' }).click()
    await idle(page)
    await page.getByRole('list', { name: 'Stops in order' }).getByRole('button').nth(3).click()
  },
  layers: async (page) => openStep(page, 'Layers'),
}

async function openStep(page: Page, name: string): Promise<void> {
  await page
    .getByRole('navigation')
    .getByRole('button', { name: new RegExp(`^${name}`) })
    .click()
}

async function showSurface(page: Page, name: string): Promise<void> {
  await page.getByLabel('Legend').getByLabel('Surface').first().selectOption({ label: name })
}

/** An empty project given three days' scans and a table that does not say its coordinate system. */
async function askedForCrs(page: Page): Promise<void> {
  const folder = join(mkdtempSync(join(tmpdir(), 'aureole-pictures-')), 'monday')
  for (const day of ['day-2', 'day-3', 'day-6'])
    cpSync(join('sample-area/scans', day), join(folder, day), { recursive: true })
  cpSync('sample-area/places/samples.csv', join(folder, 'samples.csv'))
  cpSync('sample-area/ground', join(folder, 'ground'), { recursive: true })
  await page.getByRole('button', { name: 'Start an empty project' }).click()
  await page.locator('input[webkitdirectory]').first().setInputFiles(folder)
  // The question opens its step by itself.
  await page.getByText('Which coordinate system is').waitFor(PATIENCE)
  await idle(page)
  rmSync(join(folder, '..'), { recursive: true })
}

/** Waits until nothing is computed, the type has come and the map is drawn. */
async function idle(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const busy = () => document.documentElement.dataset.busy !== 'false'
    const frame = () => new Promise(requestAnimationFrame)
    let still = 0
    while (still < 30) {
      await frame()
      still = busy() ? 0 : still + 1
    }
    await document.fonts.ready
  })
}

/** A PNG as WebP, which the browser itself knows how to write. */
async function asWebp(page: Page, png: Buffer): Promise<Buffer> {
  const base64 = await page.evaluate(
    async ([data, quality]) => {
      const bytes = Uint8Array.from(atob(data), (letter) => letter.charCodeAt(0))
      const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }))
      const canvas = document.createElement('canvas')
      canvas.width = bitmap.width
      canvas.height = bitmap.height
      canvas.getContext('2d')?.drawImage(bitmap, 0, 0)
      return canvas.toDataURL('image/webp', quality).split(',')[1]
    },
    [png.toString('base64'), QUALITY] as const,
  )
  return Buffer.from(base64, 'base64')
}

async function take({ browser, url }: BuiltApp, name: string): Promise<void> {
  const context = await browser.newContext({ viewport: SIZE })
  const page = await context.newPage()
  // tsx names functions by a helper that the page does not have.
  await page.addInitScript('globalThis.__name = (value) => value')
  await page.goto(url)
  await page.waitForSelector('[data-drawn]', PATIENCE)
  await idle(page)
  await PLACES[name](page)
  await idle(page)
  const picture = await asWebp(page, await page.screenshot())
  writeFileSync(join(import.meta.dirname, `${name}.webp`), picture)
  console.log(`${name}.webp ${Math.round(picture.length / 1000)} kB`)
  await context.close()
}

const asked = process.argv.slice(2)
const unknown = asked.filter((name) => !(name in PLACES))
if (unknown.length > 0) {
  console.error(
    `There is no picture ${unknown.join(', ')}; there are ${Object.keys(PLACES).join(', ')}.`,
  )
  process.exit(64)
}
await withBuiltApp(async (app) => {
  for (const name of asked.length > 0 ? asked : Object.keys(PLACES)) await take(app, name)
})
