/** The Minerals step explains a scan's name and its doubt. */
import { readFileSync } from 'node:fs'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { readReferenceSet } from '../../src/minerals/set-file'
import { canBrowse, errorsOf, openBrowser, openSampleArea } from './app'

describe.skipIf(!canBrowse)('the Minerals step', () => {
  let browser: Browser
  let page: Page

  beforeAll(async () => {
    browser = await openBrowser()
    page = await openSampleArea(browser)
    await page.getByRole('button', { name: /^Minerals/ }).click()
  })
  afterAll(() => browser?.close())

  test('shows candidates side by side, with their fits, and another where asked', async () => {
    const panel = page.locator('#panel')
    await panel.getByRole('button', { name: 'kaolinite', exact: true }).click()
    await panel.getByRole('heading', { name: 'Candidates side by side' }).waitFor()
    const plots = panel.locator('svg[aria-label^="Scan over kaolinite"]')
    expect(await plots.count()).toBeGreaterThanOrEqual(2)
    expect(await plots.first().getAttribute('aria-label')).toMatch(/fit 0\.\d\d|fit 1\.00/)
    const others = panel.locator('svg[aria-label^="Scan over topaz"]')
    expect(await others.count()).toBe(0)
    await panel.getByLabel('Beside them').selectOption('topaz')
    await expect.poll(() => others.count()).toBeGreaterThanOrEqual(2)
  })

  test('tells a mineral’s variety beside it, with its error, in the step and in the drawer', async () => {
    const panel = page.locator('#panel')
    await panel.getByRole('heading', { name: /^Varieties in / }).waitFor()
    expect(await panel.locator('dt').first().innerText()).toMatch(/kaolin order 0\.9\d+ ± 0\.\d+/)
    expect(await panel.innerText()).toContain('An index, not an assay.')
    const drawer = page.getByRole('region', { name: /^Station / })
    expect(await drawer.innerText()).toMatch(/kaolin order\s+0\.9\d+ ± 0\.\d+/)
    expect(await panel.locator('table').innerText()).toMatch(
      /white mica position 22\d\d\.\d \(2\d+\.\d–2\d+\.\d\)\u202fnm, \d+ scans/,
    )
  })

  test('explains a scan that has no place, without a drawer', async () => {
    const panel = page.locator('#panel')
    await page.keyboard.press('Escape')
    const unplaced = panel.locator('tr.below', { hasText: 'Without a place' })
    const minerals = await panel.locator('td > button.word').allInnerTexts()
    for (const mineral of minerals) {
      await panel.getByRole('button', { name: mineral, exact: true }).first().click()
      if ((await unplaced.count()) > 0) break
    }
    const scan = unplaced.locator('button').first()
    const name = await scan.innerText()
    await scan.click()
    await panel.getByRole('heading', { name: `How ${name} is explained` }).waitFor()
    await panel.getByRole('heading', { name: 'Candidates side by side' }).waitFor()
    expect(await page.getByRole('region', { name: /^Station / }).count()).toBe(0)
    await page.getByRole('button', { name: 'kaolinite', exact: true }).click()
  })

  test('makes a scan a reference with who and why, lets it be changed, and saves both', async () => {
    const panel = page.locator('#panel')
    await panel.locator('summary', { hasText: /^References$/ }).click()
    await panel.locator('summary', { hasText: 'a reference' }).click()
    const form = panel.locator('form', { has: page.getByRole('button', { name: 'Fit it' }) })
    await form.getByLabel('Mineral', { exact: true }).fill('kaolinite')
    await form.getByLabel('Who').fill('A. Mapper')
    await form.getByLabel('Why').fill('diffraction')
    const other = panel.locator('details', {
      has: page.locator(':scope > summary', { hasText: /^Overrule scan/ }),
    })
    expect(await other.getByLabel('Who').inputValue()).toBe('A. Mapper')
    await form.getByRole('button', { name: 'Fit it' }).click()
    const marked = panel.locator('details', {
      has: page.locator(':scope > summary', { hasText: 'Marked scans' }),
    })
    await marked.last().locator('summary').first().click()
    await marked.last().locator('summary', { hasText: 'Ranges and record' }).click()
    await marked
      .last()
      .getByText(/Said by A\. Mapper, \d{4}-\d\d-\d\d: diffraction/)
      .waitFor()
    await marked.last().getByRole('button', { name: 'Change what is said of it' }).click()
    await marked.last().getByLabel('Note').fill('from the north wall')
    await marked.last().getByLabel('Why').fill('a note was missing')
    await marked.last().getByRole('button', { name: 'Change it' }).click()
    await marked.last().getByText('a note was missing').waitFor()
    const download = page.waitForEvent('download')
    await marked.last().getByRole('button', { name: 'Save it as a file' }).click()
    const saved = readReferenceSet(JSON.parse(readFileSync(await (await download).path(), 'utf8')))
    expect(saved.references.map(({ provenance }) => provenance)).toMatchObject([
      {
        note: 'from the north wall',
        said: [
          { who: 'A. Mapper', why: 'diffraction' },
          { who: 'A. Mapper', why: 'a note was missing' },
        ],
      },
    ])
  })

  test('nothing went wrong on the way', () => {
    expect(errorsOf(page)).toEqual([])
  })
})
