/** The app opens on the sample area and answers to what a person does first. */
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { canBrowse, drawn, errorsOf, openBrowser, openSampleArea, settled } from './app'

describe.skipIf(!canBrowse)('the sample area', () => {
  let browser: Browser
  let page: Page

  beforeAll(async () => {
    browser = await openBrowser()
    page = await openSampleArea(browser)
  })
  afterAll(() => browser?.close())

  test('says that it is invented', async () => {
    expect(await page.locator('header').innerText()).toMatch(/invented/i)
  })

  test('shows classified stations and counts them in the legend', async () => {
    const legend = page.getByLabel('Legend')
    const counts = await legend.locator('li .figures').allInnerTexts()
    expect(counts.map(Number).reduce((sum, count) => sum + count, 0)).toBeGreaterThan(100)
  })

  test('raises a station’s spectra when it is touched', async () => {
    const canvas = page.locator('canvas.maplibregl-canvas')
    const box = await canvas.boundingBox()
    if (!box) throw new Error('The map has no size.')
    await touchAStation(page, box)
    const drawer = page.getByRole('region', { name: /^Station / })
    await drawer.waitFor()
    expect(await drawer.locator('svg[role=img]').count()).toBeGreaterThanOrEqual(2)
    expect(await drawer.innerText()).toMatch(/wavelength, nm/)
    await page.getByRole('button', { name: 'Close' }).last().click()
  })

  test('moving a class limit moves stations, and undo moves them back', async () => {
    const legend = page.getByLabel('Legend')
    const before = await legend.innerText()
    await page.getByRole('button', { name: /^Classes/ }).click()
    await page.locator('#panel summary', { hasText: 'long white mica' }).click()
    const when = openRule(page)
    await when.fill('[white mica position] >= 2000')
    await when.blur()
    await expect.poll(() => legend.innerText()).not.toBe(before)
    await page.getByRole('button', { name: 'Undo' }).click()
    await expect.poll(() => legend.innerText()).toBe(before)
  })

  test('a formula that is wrong says where', async () => {
    const when = openRule(page)
    const original = await when.inputValue()
    await when.fill('group("white mica") >= ')
    await when.blur()
    const alert = page.locator('#panel [role=alert]').first()
    await alert.waitFor()
    expect(await page.locator('#panel mark').count()).toBe(1)
    await page.getByRole('button', { name: 'Undo' }).click()
    await expect.poll(() => when.inputValue()).toBe(original)
  })

  test('it is all there after a reload', async () => {
    await page.getByRole('button', { name: /^Scans/ }).click()
    const name = page.getByRole('textbox', { name: 'Project' })
    await name.fill('kept name')
    await name.blur()
    await page.waitForFunction(() => document.documentElement.dataset.saved === 'saved')
    await page.reload()
    await drawn(page)
    await settled(page)
    expect(await page.locator('header').innerText()).toContain('kept name')
  })

  test('nothing went wrong on the way', () => {
    expect(errorsOf(page)).toEqual([])
  })
})

/** The rule of the class that stands open. */
function openRule(page: Page) {
  return page.locator('#panel details[open]').getByLabel('When')
}

/** Touches the map at points of a grid until a station answers. */
async function touchAStation(
  page: Page,
  box: { x: number; y: number; width: number; height: number },
): Promise<void> {
  for (let row = 2; row < 18; row++) {
    for (let column = 2; column < 24; column++) {
      const x = box.x + (box.width * column) / 30
      const y = box.y + (box.height * row) / 20
      await page.mouse.move(x, y)
      const cursor = await page
        .locator('canvas.maplibregl-canvas')
        .evaluate((canvas: HTMLElement) => canvas.style.cursor)
      if (cursor !== 'pointer') continue
      await page.mouse.click(x, y)
      return
    }
  }
  throw new Error('No station was found under the pointer.')
}
