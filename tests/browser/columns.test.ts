/** A table whose headings nobody foresaw: the Places step asks which column is which. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import {
  canBrowse,
  drawn,
  dropFolder,
  errorsOf,
  openBrowser,
  settled,
  openEmptyProject,
} from './app'

/** Six invented samples, two scans each, with one absorption near 2200 nm. */
function writeScans(folder: string): void {
  mkdirSync(folder, { recursive: true })
  for (let i = 0; i < 12; i++) {
    const rows = Array.from({ length: 431 }, (_, c) => {
      const nm = 350 + 5 * c
      const dip = 0.2 * Math.exp(-(((nm - 2200) / 30) ** 2))
      return `${nm}\t${(0.6 - dip + 0.0004 * Math.sin(c * (i + 7))).toFixed(5)}`
    })
    writeFileSync(join(folder, `Q${i >> 1}_${(i % 2) + 1}.txt`), rows.join('\n') + '\n')
  }
}

describe.skipIf(!canBrowse)('columns of a table', () => {
  let browser: Browser
  let page: Page
  const root = mkdtempSync(join(tmpdir(), 'aureole-columns-'))
  const places = () => page.locator('#step-places').innerText()

  beforeAll(async () => {
    writeScans(join(root, 'day', 'scans'))
    const rows = Array.from(
      { length: 7 },
      (_, i) => `Q${i};${470000 + 50 * i};${7240000 + 40 * i};${i}`,
    )
    writeFileSync(
      join(root, 'day', 'tabla.csv'),
      ['Ref_muestreo;Coord_1;Coord_2;Cu', ...rows].join('\n') + '\n',
    )
    mkdirSync(join(root, 'wide'))
    const wide = (cell: (column: number) => string) =>
      Array.from({ length: 10_000 }, (_, column) => cell(column)).join(';')
    const lines = [wide((i) => `v${i}`), wide((i) => `${i}`), wide((i) => `${2 * i}`)]
    writeFileSync(join(root, 'wide', 'wide.csv'), lines.join('\n') + '\n')
    browser = await openBrowser()
    page = await openEmptyProject(browser, { width: 800, height: 1280 })
    await dropFolder(page, join(root, 'day'))
    await page.getByText('No scan has a place yet').waitFor()
    await settled(page)
  })
  afterAll(async () => {
    await browser?.close()
    rmSync(root, { recursive: true, force: true })
  })

  test('an unknown table is a worry of the step, and its form proposes what the cells say', async () => {
    expect(await places()).toMatch(/1\sunclear\stable/)
    await page.locator('#step-places').click()
    await page.getByText('No column of sample names and no pair of columns').waitFor()
    const form = page.getByRole('form', { name: /Columns of .*tabla\.csv/ }).first()
    expect(await form.getByLabel('Sample’s name').inputValue()).toBe('Ref_muestreo')
    expect(await form.getByLabel('East or longitude (x)').inputValue()).toBe('Coord_1')
    expect(await form.getByLabel('North or latitude (y)').inputValue()).toBe('Coord_2')
    await form.getByText('12 of 12 scans named in it').waitFor()
  })

  test('one column for two things is refused', async () => {
    const form = page.getByRole('form', { name: /Columns of .*tabla\.csv/ }).first()
    await form.getByLabel('North or latitude (y)').selectOption('Coord_1')
    await form.getByText('“Coord_1” is chosen for both').waitFor()
    expect(await form.getByRole('button', { name: 'Use these columns' }).isDisabled()).toBe(true)
    await form.getByLabel('North or latitude (y)').selectOption('Coord_2')
  })

  test('by keyboard: kept, the coordinate system asked for, the scans placed and counted', async () => {
    await page.getByRole('button', { name: 'Use these columns' }).first().focus()
    await page.keyboard.press('Enter')
    await page.getByText('waits for its coordinate system: that is asked').waitFor()
    expect(await page.evaluate(() => document.activeElement?.getAttribute('role'))).toBe('status')
    await page.getByLabel('CRS').fill('EPSG:32719')
    await page.keyboard.press('Enter')
    await page.getByText('12 of 12 scans placed, 1 station without a scan').first().waitFor()
    await drawn(page)
    await settled(page)
    expect(await places()).not.toMatch(/unclear|unplaced|question/)
  })

  test('Undo takes the system back, and once more the columns', async () => {
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByText('Which coordinate system is').waitFor()
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByText('No column of sample names and no pair of columns').waitFor()
    await page.getByRole('button', { name: 'Redo' }).click()
    await page.getByRole('button', { name: 'Redo' }).click()
    await page.getByText('12 of 12 scans placed').first().waitFor()
    await settled(page)
  })

  test('of ten thousand columns a heading is typed', async () => {
    await dropFolder(page, join(root, 'wide'))
    const form = page.getByRole('form', { name: /Columns of .*wide\.csv/ }).first()
    await form.getByLabel('Sample’s name').fill('v99')
    expect(await form.locator('datalist option').count()).toBeLessThan(2000)
    await form.getByLabel('Sample’s name').fill('v99999')
    await form.getByText('No column is headed “v99999”').waitFor()
    await form.getByRole('button', { name: 'Leave the table out' }).click()
    await form.waitFor({ state: 'detached' })
    expect(errorsOf(page)).toEqual([])
  })
})
