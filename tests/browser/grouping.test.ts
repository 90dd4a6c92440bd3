/** Replicates become stations by time, and what is unsure is joined by hand; two tables, one answer. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { canBrowse, dropFolder, errorsOf, openBrowser, openEmptyProject, settled } from './app'

/** Spots as the minute of their burst and metres north; the last is the first one again. */
const SPOTS = [
  { minute: 0, north: 0 },
  { minute: 6, north: 40 },
  { minute: 13, north: 80 },
  { minute: 95, north: 3 },
]

/** Three scans a spot, 12 s apart, named by a counter alone. */
function writeBursts(folder: string): void {
  mkdirSync(folder, { recursive: true })
  SPOTS.forEach(({ minute, north }, spot) => {
    for (const k of [0, 1, 2]) {
      const time = new Date(Date.UTC(2026, 4, 12, 7) + (60 * minute + 12 * k) * 1000)
      const rows = Array.from({ length: 431 }, (_, c) => {
        const nm = 350 + 5 * c
        const dip = 0.2 * Math.exp(-(((nm - 2200) / 30) ** 2))
        return `${nm}\t${(0.6 - dip + 0.0004 * Math.sin(c * (3 * spot + k + 1))).toFixed(5)}`
      })
      const name = `AB${String(3 * spot + k + 1).padStart(3, '0')}`
      const head = [
        `Time: ${time.toISOString().slice(0, 19)}Z`,
        `Latitude: ${(-33.2 + north / 111195).toFixed(7)}`,
        'Longitude: 21.5',
      ]
      writeFileSync(join(folder, `${name}.txt`), `${head.join('\n')}\n\n${rows.join('\n')}\n`)
    }
  })
}

describe.skipIf(!canBrowse)('scans become stations', () => {
  let browser: Browser
  let page: Page
  const folder = mkdtempSync(join(tmpdir(), 'aureole-grouping-'))
  const panel = () => page.locator('#panel')
  const count = (words: string) =>
    panel().getByRole('row', { name: words }).locator('td').last().innerText()

  beforeAll(async () => {
    writeBursts(join(folder, 'day'))
    mkdirSync(join(folder, 'tables'))
    const [a, b] = ['a', 'b'].map((name) => join(folder, 'tables', `${name}.csv`))
    writeFileSync(a, 'Sample,East,North\nS1,546600,6326200\nS2,546700,6326300\n')
    writeFileSync(b, 'Sample,East,North\nT1,546800,6326400\n')
    browser = await openBrowser()
    page = await openEmptyProject(browser)
  })
  afterAll(async () => {
    await browser?.close()
    rmSync(folder, { recursive: true, force: true })
  })

  test('by time and distance; a visit is pointed out, and one press groups it', async () => {
    await dropFolder(page, join(folder, 'day'))
    await page.getByText('12 scans').waitFor()
    await settled(page)
    const step = page.locator('#step-places')
    await expect.poll(() => step.innerText()).toMatch(/4 stations\s+1\u00a0unsure/)
    await step.click()
    expect(await count('by time and distance')).toBe('4')
    await panel().getByText('3.0 m from a station that was left 1 h 35 min before').waitFor()
    await panel().getByRole('button', { name: 'Group with AB001' }).click()
    await panel().getByRole('button', { name: 'Make both one station' }).click()
    await settled(page)
    expect([await count('by time and distance'), await count('by hand')]).toEqual(['2', '1'])
    expect(await step.innerText()).toMatch(/3 stations$/)
    await page.getByRole('button', { name: 'Undo', exact: true }).click()
    await settled(page)
    expect(await count('by time and distance')).toBe('4')
  })

  test('times can be left out of it, and limits that cannot be are told', async () => {
    await panel().getByText('Seconds and metres').click()
    await panel().getByLabel('Times count').click()
    await settled(page)
    expect(await count('of one scan')).toBe('12')
    await panel().getByLabel('Times count').click()
    await settled(page)
    const near = panel().getByLabel('Like names are one spot within, m')
    await near.fill('30')
    await near.press('Enter')
    await panel().getByText('One spot reaches 30 m, and no station may be wider').waitFor()
    await near.fill('2')
    await near.press('Enter')
    await settled(page)
    // The visit lies 3 m off, which is no more one spot.
    expect(await panel().getByText('unsure group').count()).toBe(0)
    await panel().getByRole('button', { name: 'Back to the usual limits' }).click()
    await settled(page)
    await panel().getByText('1 unsure group').waitFor()
  })

  test('two tables ask for their system, and one answer serves both where the user says so', async () => {
    await dropFolder(page, join(folder, 'tables'))
    const first = panel().locator('form').filter({ hasText: 'Which coordinate system is' }).first()
    await first.waitFor()
    await settled(page)
    await first.getByLabel('CRS', { exact: true }).fill('EPSG:32734')
    await first.getByRole('checkbox').click()
    await first.getByRole('button', { name: 'Confirm for both' }).click()
    await settled(page)
    expect(await panel().getByText('Which coordinate system is').count()).toBe(0)
    await expect.poll(() => page.locator('#step-places').innerText()).toContain('7 stations')
    await page.getByRole('button', { name: 'Undo', exact: true }).click()
    await settled(page)
    expect(await panel().getByText('Which coordinate system is').count()).toBe(2)
    expect(errorsOf(page)).toEqual([])
  })
})
