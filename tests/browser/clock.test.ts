/** A walk recorded in two pieces by a receiver whose clock is not the spectrometer's. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { canBrowse, dropFolder, errorsOf, openBrowser, openEmptyProject, settled } from './app'

const START = Date.UTC(2026, 4, 12, 7)
/** Minutes that the spectrometer's clock shows more than the receiver's. */
const AHEAD = 103
const stops = Array.from({ length: 10 }, (_, i) => ({
  name: `HX-${20 + i}`,
  longitude: 21.5 + 0.003 * i,
  latitude: -33.2 + 0.001 * (i % 3),
  arrives: START + 9 * 60_000 * i,
}))

/** Two scans a stop, a table that names all but the last three, and the track. */
function writeField(folder: string): void {
  mkdirSync(folder, { recursive: true })
  stops.forEach(({ name, arrives }, i) => {
    for (const k of [1, 2]) {
      const time = new Date(arrives + (60 * k + AHEAD * 60) * 1000).toISOString().slice(0, 19)
      const rows = Array.from({ length: 431 }, (_, c) => {
        const nm = 350 + 5 * c
        const dip = 0.2 * Math.exp(-(((nm - 2200) / 30) ** 2))
        return `${nm}\t${(0.6 - dip + 0.0004 * Math.sin(c * (3 * i + k))).toFixed(5)}`
      })
      writeFileSync(join(folder, `${name}_${k}.txt`), `Time: ${time}\n\n${rows.join('\n')}\n`)
    }
  })
  const rows = stops.slice(0, -3).map((s) => `${s.name},${s.longitude},${s.latitude}`)
  writeFileSync(join(folder, 'samples.csv'), `sample,longitude,latitude\n${rows.join('\n')}\n`)
  const point = (longitude: number, latitude: number, time: number) =>
    `<trkpt lat="${latitude}" lon="${longitude}"><time>${new Date(time).toISOString()}</time></trkpt>`
  const legs = stops.map((stop, i) => {
    const next = stops[i + 1] ?? stop
    return Array.from({ length: 18 }, (_, k) => {
      const part = Math.max(0, (k - 9) / 9)
      return point(
        stop.longitude + part * (next.longitude - stop.longitude),
        stop.latitude + part * (next.latitude - stop.latitude),
        stop.arrives + 30_000 * k,
      )
    }).join('')
  })
  const piece = (part: string[]) => `<trkseg>${part.join('')}</trkseg>`
  writeFileSync(
    join(folder, 'walk.gpx'),
    `<?xml version="1.0"?><gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1"><trk>${piece(legs.slice(0, 5))}${piece(legs.slice(5))}</trk></gpx>`,
  )
}

describe.skipIf(!canBrowse)('a track whose clock is not the scans’', () => {
  let browser: Browser
  let page: Page
  const folder = mkdtempSync(join(tmpdir(), 'aureole-clock-'))

  beforeAll(async () => {
    writeField(folder)
    browser = await openBrowser()
    page = await openEmptyProject(browser)
    await dropFolder(page, folder)
    await page.getByText('20 scans').waitFor()
    await settled(page)
  })
  afterAll(async () => {
    await browser?.close()
    rmSync(folder, { recursive: true, force: true })
  })

  test('the step says so, and one press sets what fits', async () => {
    const step = page.locator('#step-places')
    await expect.poll(() => step.innerText()).toContain('clock\u00a0off')
    await step.click()
    const panel = page.locator('#panel')
    await panel.getByText('The clock does not fit').waitFor()
    await panel.getByRole('button', { name: /^Use −10\d(\.5)? min$/ }).click()
    await settled(page)
    await panel.getByText('14 of 14 scans that something else places lie on it').waitFor()
    expect(await step.innerText()).not.toContain('clock')
    const byTrack = panel.getByRole('row', { name: /by a GPS track/ })
    expect(await byTrack.innerText()).toMatch(/\b3$/)
    expect(errorsOf(page)).toEqual([])
  })

  test('a step begins at its top, however far down the one before was read', async () => {
    await page.locator('#step-classes').click()
    const panel = page.locator('#panel')
    await panel.evaluate((box) => box.scrollTo(0, box.scrollHeight))
    await page.locator('#step-layers').click()
    await panel.getByRole('heading', { name: 'Layers' }).waitFor()
    expect(await panel.evaluate((box) => box.scrollTop)).toBe(0)
  })

  test('a step that cannot be drawn says so in its place, and can be drawn again', async () => {
    // Broken from outside, where paths are compared: nothing that a file holds does so.
    await page.evaluate(() => {
      const normalize = String.prototype.normalize
      String.prototype.normalize = () => {
        throw new RangeError('broken for this test')
      }
      Object.assign(globalThis, { mend: () => (String.prototype.normalize = normalize) })
    })
    await page.locator('#step-places').click()
    const said = page.getByRole('alert').filter({ hasText: 'This step could not be drawn' })
    await said.waitFor()
    expect(await said.innerText()).toContain('broken for this test')
    await page.evaluate(() => (globalThis as unknown as { mend: () => void }).mend())
    await said.getByRole('button', { name: 'Draw it again' }).click()
    await page.locator('#panel').getByRole('heading', { name: 'GPS tracks' }).waitFor()
  })
})
