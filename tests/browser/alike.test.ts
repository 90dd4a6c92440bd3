/** Scans that their files name as samples of their own, on one spot: asked about, and grouped. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { canBrowse, dropFolder, errorsOf, openBrowser, openEmptyProject, settled } from './app'

/** Two spots with two and three scans, each with a sample's name of its own. Invented. */
function writeFiles(folder: string): void {
  for (const [spot, count] of [
    [1, 2],
    [2, 3],
  ]) {
    for (let i = 1; i <= count; i++) {
      const header = [`Sample: KR${spot}_${i}`, `Latitude: -24.${spot}`, 'Longitude: -69.2']
      const rows = Array.from({ length: 431 }, (_, c) => {
        const nm = 350 + 5 * c
        return `${nm}\t${(0.4 + 1e-5 * nm + 0.0004 * Math.sin(c * (i + 3 * spot))).toFixed(5)}`
      })
      writeFileSync(join(folder, `KR${spot}_${i}.txt`), [...header, ...rows].join('\n'))
    }
  }
}

describe.skipIf(!canBrowse)('stations of like names on one spot', () => {
  let browser: Browser
  let page: Page
  const folder = mkdtempSync(join(tmpdir(), 'aureole-alike-'))

  beforeAll(async () => {
    writeFiles(folder)
    browser = await openBrowser()
    page = await openEmptyProject(browser)
    await dropFolder(page, folder)
    await page.getByText('5 scans').first().waitFor()
    await settled(page)
  })
  afterAll(async () => {
    await browser?.close()
    rmSync(folder, { recursive: true, force: true })
  })

  test('are asked about, grouped when a person says so, and taken apart by one Undo', async () => {
    const stations = page.locator('#step-places .count')
    expect(await stations.innerText()).toBe('5 stations')
    if (!(await page.locator('#panel').isVisible())) await page.locator('#step-places').click()
    await page.getByText('2 spots with several stations of like names').waitFor()
    await page.getByRole('button', { name: 'Group as KR1' }).click()
    await settled(page)
    expect(await stations.innerText()).toBe('4 stations')
    await page.getByRole('button', { name: 'Group as KR2' }).click()
    await settled(page)
    expect(await stations.innerText()).toBe('2 stations')
    expect(await page.getByText('several stations of like names').count()).toBe(0)
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByRole('status').filter({ hasText: 'Undone: station of 3 scans' }).waitFor()
    await settled(page)
    expect(await stations.innerText()).toBe('4 stations')
    expect(errorsOf(page)).toEqual([])
  })
})
