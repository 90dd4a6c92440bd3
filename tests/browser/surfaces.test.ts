/** A surface's model on its plot, and what the map says while a large one is computed. */
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { canBrowse, errorsOf, openBrowser, openSampleArea, settled } from './app'

describe.skipIf(!canBrowse)('surfaces', () => {
  let browser: Browser
  let page: Page

  beforeAll(async () => {
    browser = await openBrowser()
    page = await openSampleArea(browser)
    await page.getByRole('button', { name: /^Surfaces/ }).click()
    await page.locator('#panel summary', { hasText: /^\s*mica\s/ }).click()
  })
  afterAll(() => browser?.close())

  const slider = (name: string) => page.getByRole('slider', { name, exact: true })
  const now = async (name: string) => Number(await slider(name).getAttribute('aria-valuenow'))
  const back = () => page.getByRole('button', { name: 'Return to the fitted model' })

  test('the range is dragged, the figures follow, and undo takes it back', async () => {
    const fitted = await now('range')
    await slider('range').scrollIntoViewIfNeeded()
    const box = await slider('range').locator('.knob').boundingBox()
    if (!box) throw new Error('The handle has no place.')
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
    await page.mouse.move(x, y)
    await page.mouse.down()
    await page.mouse.move(x - 60, y, { steps: 4 })
    const told = page.locator('#panel [role=status]', { hasText: 'With this model' })
    await told.waitFor()
    expect(await told.innerText()).toMatch(/off by [\d.]+ nm in blocks, [\d.]+ nm one by one/)
    expect(await now('range')).toBeLessThan(0.95 * fitted)
    await page.mouse.up()
    const dragged = await now('range')
    await back().waitFor()
    await settled(page)
    expect(await now('range')).toBe(dragged)
    await page.getByRole('button', { name: 'Undo' }).click()
    await expect.poll(() => now('range')).toBe(fitted)
    expect(await back().count()).toBe(0)
  })

  test('the arrow keys move the sill; a press returns to the fit', async () => {
    const fitted = await now('total sill')
    await slider('total sill').focus()
    await page.keyboard.press('ArrowDown')
    await expect.poll(() => now('total sill')).toBeLessThan(fitted)
    await back().waitFor()
    await back().click()
    await expect.poll(() => now('total sill')).toBe(fitted)
    await settled(page)
  })

  test('forms, a second structure and a direction are written, and undone one by one', async () => {
    const panel = page.locator('#panel')
    const model = () => panel.locator('figcaption', { hasText: 'nugget' }).innerText()
    await panel.locator('summary', { hasText: 'Write the model by hand' }).click()
    const fitted = await model()
    await panel.getByLabel('Form').selectOption('matern')
    await panel.getByLabel('Smoothness').fill('0.5')
    await panel.getByLabel('Smoothness').press('Enter')
    await expect.poll(model).toMatch(/; Matérn of smoothness 0\.5, partial sill/)
    await panel.getByRole('button', { name: 'Add a shorter structure' }).click()
    await expect.poll(model).toMatch(/; spherical, partial sill .*; Matérn of smoothness 0\.5/s)
    await panel.getByLabel('Ratio, across over along').fill('0.5')
    await panel.getByLabel('Ratio, across over along').press('Enter')
    await panel.getByLabel('Longest toward').fill('30')
    await panel.getByLabel('Longest toward').press('Enter')
    await expect.poll(model).toMatch(/; 0\.5000 as far across 30°/)
    await panel.getByLabel('Longest toward').fill('1000')
    await panel.getByLabel('Longest toward').press('Enter')
    await panel.getByRole('alert').waitFor()
    expect(await panel.getByLabel('Longest toward').inputValue()).toBe('30')
    await settled(page)
    for (let change = 0; change < 5; change++)
      await page.getByRole('button', { name: 'Undo' }).click()
    await expect.poll(model).toBe(fitted)
    expect(await back().count()).toBe(0)
    await settled(page)
  })

  test('pairs are counted by direction, and a direction that few pairs support is told of', async () => {
    await page.locator('#panel summary', { hasText: 'Directions and the variogram map' }).click()
    await page.getByRole('img', { name: 'Variogram in four directions' }).waitFor()
    await page.getByRole('img', { name: /^Variogram map/ }).waitFor()
    const worry = page.locator('#panel .worry', { hasText: 'Directions are not supported' })
    expect(await worry.innerText()).toMatch(/30 pairs in each of four directions, and one has \d+/)
  })

  test('a large surface is drawn coarse first, in words too', async () => {
    // Words that come and go in less than a second are noted as they come.
    await page.evaluate(() => {
      const seen: string[] = []
      Object.assign(window, { seen })
      new MutationObserver(() => {
        for (const status of document.querySelectorAll('[role=status]'))
          if (status.textContent?.includes('Coarse')) seen.push(status.textContent.trim())
      }).observe(document.body, { childList: true, subtree: true, characterData: true })
    })
    const cell = page.locator('#panel details[open]').getByLabel(/^Cell/)
    await cell.fill('3')
    await cell.blur()
    const grid = page.locator('#panel', { hasText: 'cells of 3' })
    await grid.waitFor({ timeout: 60_000 })
    const seen = await page.evaluate(() => (window as unknown as { seen: string[] }).seen)
    expect(seen.join('; ')).toMatch(/Coarse for now: every \d+th node of mica/)
    await page.getByRole('button', { name: 'Undo' }).click()
    await settled(page)
  })

  test('stopped while it is coarse, card and map say so, and Go on makes it whole', async () => {
    const card = page.locator('#panel details[open]', { hasText: 'mica' }).first()
    const cell = card.getByLabel(/^Cell/)
    await cell.fill('1.5')
    await cell.blur()
    const foot = page.locator('.foot')
    await expect.poll(() => foot.innerText(), { interval: 20 }).toMatch(/Coarse for now/)
    await page.getByRole('button', { name: /^Stop: Surface/ }).click()
    await expect.poll(() => foot.innerText()).toMatch(/Stopped while coarse.*press Go on/)
    await expect.poll(() => card.locator('summary').first().innerText()).toMatch(/stopped/)
    await page.getByRole('button', { name: 'Go on' }).click()
    await expect
      .poll(() => card.locator('summary').first().innerText(), { timeout: 90_000 })
      .toMatch(/ready/)
    expect(await foot.innerText()).not.toMatch(/coarse/i)
    await page.getByRole('button', { name: 'Undo' }).click()
    await settled(page)
  })

  test('two surfaces are swiped by arrow keys and by dragging, with both values told', async () => {
    await page.getByLabel('Swipe with').selectOption('copper')
    const divider = page.getByRole('slider', { name: 'Divider between mica and copper' })
    await divider.focus()
    await page.keyboard.press('PageDown')
    await expect.poll(() => divider.getAttribute('aria-valuenow')).toBe('40')
    const box = await divider.boundingBox()
    if (!box) throw new Error('The divider has no place.')
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
    await page.mouse.move(x, y)
    await page.mouse.down()
    await page.mouse.move(x + 60, y, { steps: 3 })
    await page.mouse.up()
    expect(Number(await divider.getAttribute('aria-valuenow'))).toBeGreaterThan(44)
    await page.mouse.move(x - 60, y)
    const foot = page.locator('.foot')
    await expect.poll(() => foot.innerText()).toMatch(/mica: .*copper: /s)
    expect(await page.locator('[aria-label=Legend] figure').count()).toBe(2)
    await page.getByLabel('Swipe with').selectOption({ label: 'none' })
    await divider.waitFor({ state: 'detached' })
  })

  test('residuals are put on the map and taken off it', async () => {
    await page.locator('#panel summary', { hasText: 'misses most' }).click()
    await page.getByRole('button', { name: 'Show all residuals on the map' }).click()
    await page.getByText(/A disc’s area is the residual’s size/).waitFor()
    await page.getByRole('button', { name: 'Take the residuals off the map' }).click()
  })

  test('a new surface’s card opens', async () => {
    await page.getByLabel('What the new surface is of').selectOption('v chlorite position')
    await page.getByRole('button', { name: 'Add', exact: true }).click()
    await page.getByRole('button', { name: 'Take out ‘chlorite position’' }).waitFor()
    await settled(page)
  })

  test('stations are explored, plain and declustered', async () => {
    await page.locator('#panel summary', { hasText: 'Explore the stations' }).click()
    const table = page.locator('#panel table', { hasText: 'declustered' }).first()
    await table.waitFor()
    expect(await table.innerText()).toMatch(/median\s+[\d.]+\s+[\d.]+/)
    await page.getByText(/A plane rises toward \d+°|Too few stations/).waitFor()
  })

  test('nothing went wrong on the way', () => {
    expect(errorsOf(page)).toEqual([])
  })
})
