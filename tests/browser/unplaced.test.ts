/** Scans that nothing places: they can be looked at, and put on the map by hand. */
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

/** As long as a record's name in a spectral library, and nowhere to break it. */
const LONG = 'lib07_Chlorite_HS179_3B_Clinochlore_ASDNGb_AREF'

/** Invented scans with one absorption, the last one with the depth of chlorophyll's at 675 nm. */
function writeScans(folder: string): void {
  mkdirSync(folder, { recursive: true })
  for (const [i, name] of ['K7_1', 'K7_2', 'K8_1', LONG].entries()) {
    const rows = Array.from({ length: 431 }, (_, c) => {
      const nm = 350 + 5 * c
      const leaf = name === LONG ? 0.3 * Math.exp(-(((nm - 675) / 20) ** 2)) : 0
      const dip = 0.2 * Math.exp(-(((nm - 2200) / 30) ** 2)) + leaf
      return `${nm}\t${(0.6 - dip + 0.0004 * Math.sin(c * (i + 7))).toFixed(5)}`
    })
    writeFileSync(join(folder, `${name}.txt`), rows.join('\n') + '\n')
  }
}

describe.skipIf(!canBrowse)('scans without a place', () => {
  let browser: Browser
  let page: Page
  const root = mkdtempSync(join(tmpdir(), 'aureole-unplaced-'))

  const step = async (id: string) => {
    const button = page.locator(`#step-${id}`)
    if ((await button.getAttribute('aria-expanded')) !== 'true') await button.click()
    await page.locator('#panel h2').waitFor()
  }

  beforeAll(async () => {
    writeScans(join(root, 'scans'))
    mkdirSync(join(root, 'wrong'))
    writeFileSync(join(root, 'wrong', 'letter.pdf'), '%PDF-1.5\n')
    browser = await openBrowser()
    page = await openEmptyProject(browser)
  })
  afterAll(async () => {
    await browser?.close()
    rmSync(root, { recursive: true, force: true })
  })

  test('files without a scan lead to the step that says why', async () => {
    await dropFolder(page, join(root, 'wrong'))
    await page.getByText('No scan was found in these files.').waitFor()
    await page.getByRole('button', { name: 'Scans', exact: true }).click()
    await page.getByText('a document, not text').waitFor()
    expect(await page.getByLabel('Legend').count()).toBe(0)
  })

  test('their spectra are drawn, one after another', async () => {
    await dropFolder(page, join(root, 'scans'))
    await page.getByRole('button', { name: 'Look at the first' }).click()
    await page.getByRole('region', { name: 'Scan without a place K7_1' }).waitFor()
    await page.getByText('Reflectance / continuum').waitFor()
    await page.getByRole('button', { name: 'Next' }).click()
    await page.getByRole('region', { name: 'Scan without a place K7_2' }).waitFor()
  })

  test('a long name pushes nothing out of the panel or the drawer', async () => {
    await step('check')
    await page.locator('#panel').getByRole('button', { name: LONG }).first().click()
    await page.getByRole('region', { name: `Scan without a place ${LONG}` }).waitFor()
    for (const look of ['desk', 'daylight', 'projector']) {
      await page.getByLabel('Look').selectOption(look)
      for (const id of ['check', 'places', 'scans']) {
        await step(id)
        const wide = await page.evaluate(() =>
          [...document.querySelectorAll('#panel, .facts, .column')]
            .filter((part) => part.scrollWidth > part.clientWidth)
            .map((part) => part.className),
        )
        expect({ look, id, wide }).toEqual({ look, id, wide: [] })
      }
    }
    await page.getByLabel('Look').selectOption('desk')
    await page.getByRole('button', { name: 'Close' }).last().click()
  })

  test('one sample’s scans are put on a typed place, kept over a reload, and taken back', async () => {
    await step('places')
    await page.getByRole('button', { name: 'Place by hand' }).click()
    await page.getByLabel('Which').selectOption({ label: 'K7: 2 scans' })
    await page.getByLabel('Where').fill('north of the camp 2')
    await page.getByText('No station is called ‘north of the camp 2’').waitFor()
    await page.getByLabel('Where').fill('24.931 S 69.214 W')
    await page.getByLabel('Why').fill('field book, page 3')
    await page.getByRole('button', { name: 'Put 2 scans there' }).click()
    await drawn(page)
    await settled(page)
    expect(await page.locator('#step-places').innerText()).toMatch(/1 station\s/)
    await page.waitForFunction(() => document.documentElement.dataset.saved === 'saved')
    await page.reload()
    await drawn(page)
    await settled(page)
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByText('No scan has a place yet').waitFor()
    expect(errorsOf(page)).toEqual([])
  })
})
