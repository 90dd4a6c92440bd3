/** What a person corrects and writes: how files are read, fields of scans, a station's record. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
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
  openSampleArea,
  settled,
  openEmptyProject,
} from './app'

/** Deque's axe-core: WCAG 2.2 A and AA. */
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

/** Four scans of dark rock, in percent and throughout below 2: they pass for fractions. Invented. */
function writeFiles(folder: string): void {
  mkdirSync(folder, { recursive: true })
  for (let i = 0; i < 4; i++) {
    const header = [
      `Sample: RC-${i}`,
      `Latitude: ${(-24.9 - 0.001 * i).toFixed(4)}`,
      'Longitude: -69.2',
      `Comment: ${i === 3 ? 'wet patch' : 'dry'}`,
    ]
    const rows = Array.from({ length: 431 }, (_, c) => {
      const nm = 350 + 5 * c
      const dip = 0.2 * Math.exp(-(((nm - 2200) / 30) ** 2))
      return `${nm}\t${(1.4 + 0.0001 * nm - dip + 0.0004 * Math.sin(c * (i + 7))).toFixed(5)}`
    })
    writeFileSync(join(folder, `rc${i}.txt`), [...header, ...rows].join('\n') + '\n')
  }
}

describe.skipIf(!canBrowse)('what a person corrects and writes', () => {
  let browser: Browser
  let page: Page
  const root = mkdtempSync(join(tmpdir(), 'aureole-records-'))
  const folder = join(root, 'day 1')

  beforeAll(async () => {
    writeFiles(folder)
    browser = await openBrowser()
    page = await openEmptyProject(browser)
    await dropFolder(page, folder)
    await drawn(page)
    await page.getByText('4 scans').first().waitFor()
    await settled(page)
    await page.getByLabel('Look').selectOption('daylight')
    if (!(await page.locator('#panel').isVisible())) await page.locator('#step-scans').click()
  })
  afterAll(async () => {
    await browser?.close()
    rmSync(root, { recursive: true, force: true })
  })

  /** Whether everything shown that can be pressed is as high as a glove wants. */
  const tooSmall = (inside: string) =>
    page.evaluate((selector) => {
      const pressed = `${selector} :is(button, select, summary, input:not([type=checkbox]))`
      return [...document.querySelectorAll(pressed)]
        .filter((element) => element.checkVisibility())
        .map((element) => [element.textContent?.trim(), element.getBoundingClientRect().height])
        .filter(([, height]) => Number(height) < 44)
    }, inside)

  const axeFinds = async () => {
    const session = await page.context().newCDPSession(page)
    await session.send('Runtime.evaluate', { expression: AXE })
    return page.evaluate(async () => {
      const { axe } = globalThis as unknown as {
        axe: { run(): Promise<{ violations: { id: string; nodes: { target: string[] }[] }[] }> }
      }
      const { violations } = await axe.run()
      const serious = violations.filter(({ id }) => !['region', 'heading-order'].includes(id))
      return serious.flatMap(({ id, nodes }) =>
        nodes.map(({ target }) => `${id}: ${target.join()}`),
      )
    })
  }

  test('a scale that was misread is corrected for all files alike, and undone', async () => {
    await page.locator('summary', { hasText: 'two columns, nm, fraction' }).click()
    const scale = page.getByLabel('Reflectance as')
    await scale.selectOption('percent')
    await page.getByText('two columns, nm, percent, corrected').waitFor()
    await settled(page)
    expect(await page.getByText('two columns, nm, percent', { exact: true }).count()).toBe(4)
    await page.getByRole('button', { name: 'Undo' }).click()
    await page
      .getByText(/^two columns, nm, fraction/)
      .first()
      .waitFor()
    await page.getByRole('button', { name: 'Redo' }).click()
    await page.getByText('two columns, nm, percent, corrected').waitFor()
    await settled(page)
    await page.getByText('What the file says').click()
    expect(await tooSmall('#panel')).toEqual([])
    expect(await axeFinds()).toEqual([])
  })

  test('a field of one’s own is set for the scans that a search finds', async () => {
    await page.getByText('Set fields of many scans').click()
    const form = page.locator('form', { hasText: 'Find scans' })
    await form.getByLabel('Field').selectOption({ label: 'a new field…' })
    await form.getByLabel('Its name').fill('Bench')
    await form.getByLabel('Value').fill('1240')
    await form.getByLabel('Find scans').fill('wet patch')
    await form.getByRole('button', { name: 'Take those 1' }).click()
    await form.getByLabel('Why').fill('read off the plan')
    await form.getByRole('button', { name: 'Set it for 1 scan' }).click()
    await form.getByRole('cell', { name: '1240' }).waitFor()
    await settled(page)
    expect(await tooSmall('#panel')).toEqual([])
    expect(await axeFinds()).toEqual([])
  })

  test('a record is kept as it is answered, with gloves, and taken back', async () => {
    const unfold = page.getByRole('button', { name: 'Unfold' })
    if (await unfold.isVisible()) await unfold.click()
    await page.getByPlaceholder('Find a station').fill('RC-3')
    await page.getByPlaceholder('Find a station').press('Enter')
    const record = page.locator('.record')
    await record.locator('summary').click()
    await record.getByLabel('Veins').selectOption('looked, none seen')
    await record.getByLabel('Lithology').selectOption({ label: 'another word…' })
    await record.getByLabel('Lithology: another word').fill('lamprophyre')
    await record.getByRole('button', { name: 'Add', exact: true }).click()
    await record.getByRole('button', { name: 'pyrite: looked, none seen' }).click()
    await record.getByRole('button', { name: 'Add a measurement' }).click()
    await record.getByLabel(/^Of/).selectOption('vein')
    await record.getByLabel('dip, °').fill('95')
    await record.getByText('The dip is 0 to 90 degrees.').waitFor()
    await record.getByLabel('dip, °').fill('60')
    await record.getByLabel('dip direction, °').fill('350')
    await record.getByText(/State the declination/).waitFor()
    await record.getByLabel('Declination').fill('15')
    await record.getByRole('button', { name: 'Add it' }).click()
    await record.getByText('vein 60° to 5°').waitFor()
    await settled(page)
    await page.waitForSelector('[data-structures="1"]')
    // The legend has folded itself where the drawer took its room.
    if (await unfold.isVisible()) await unfold.click()
    await page.getByRole('checkbox', { name: 'Structures' }).uncheck()
    await page.waitForSelector('[data-structures="0"]')
    await page.getByRole('checkbox', { name: 'Structures' }).check()
    await page.waitForSelector('[data-structures="1"]')
    expect(await record.locator('summary').innerText()).toMatch(
      /lamprophyre, veins: looked, none seen, no pyrite, 1 structure/,
    )
    expect(await tooSmall('.record')).toEqual([])
    expect(await axeFinds()).toEqual([])
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.waitForFunction(() => !document.body.innerText.includes('vein 60° to 5°'))
    expect(errorsOf(page)).toEqual([])
  })
})

describe.skipIf(!canBrowse)('the record of many stations', () => {
  let browser: Browser
  let page: Page
  beforeAll(async () => {
    browser = await openBrowser()
    page = await openSampleArea(browser)
  })
  afterAll(() => browser?.close())

  test('counts for all that are selected where that is asked for, and is one change', async () => {
    await page.locator('#step-classes').click()
    await page.locator('#panel summary', { hasText: 'dickite' }).click()
    await page
      .locator('#panel')
      .getByRole('button', { name: /^Select/ })
      .click()
    const record = page.locator('.record')
    const unfold = async () => {
      if (!(await record.getByLabel('Cover').isVisible())) await record.locator('summary').click()
    }
    await unfold()
    await record.getByLabel('Record for all 4 selected stations').check()
    await record.getByLabel('Cover').selectOption('scree')
    await settled(page)
    await record.getByRole('button', { name: 'quartz seen' }).click()
    await settled(page)
    const covers: string[] = []
    for (let i = 0; i < 4; i++) {
      covers.push(await record.getByLabel('Cover').inputValue())
      const quartz = record.getByRole('button', { name: 'quartz seen' })
      expect(await quartz.getAttribute('aria-pressed')).toBe('true')
      // Asked anew for each station, so that nobody sets many without meaning it.
      expect(await record.getByLabel(/Record for all/).isChecked()).toBe(i === 0)
      await page.getByRole('button', { name: 'Next', exact: true }).click()
      await unfold()
    }
    expect(covers).toEqual(['scree', 'scree', 'scree', 'scree'])
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByRole('button', { name: 'Undo' }).click()
    await settled(page)
    expect(await record.getByLabel('Cover').inputValue()).toBe('')
    expect(errorsOf(page)).toEqual([])
  })
})
