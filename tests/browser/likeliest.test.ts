/** The likeliest class on the map, in its legend, at its foot, and in its card. */
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { canBrowse, errorsOf, openBrowser, openSampleArea, settled } from './app'

describe.skipIf(!canBrowse)('the likeliest class', () => {
  let browser: Browser
  let page: Page

  beforeAll(async () => {
    browser = await openBrowser()
    page = await openSampleArea(browser)
    await page.getByRole('button', { name: /^Surfaces/ }).click()
    await page
      .getByLabel('What the new surface is of')
      .selectOption({ label: 'the likeliest class and its doubt' })
    await page.getByRole('button', { name: 'Add', exact: true }).click()
    await page.getByText('Paler where another class is nearly as likely.').waitFor({
      timeout: 90_000,
    })
    await settled(page)
  })
  afterAll(() => browser?.close())

  test('its card says at how many stations it is right, and what each class has', async () => {
    const panel = page.locator('#panel')
    expect(await panel.innerText()).toMatch(
      /the likeliest class is right at \d+ % of them.*always saying ‘.+’ would be right at \d+ %/,
    )
    const rows = await panel.locator('tr', { hasText: 'alunite' }).allInnerTexts()
    expect(rows.some((row) => /^alunite\s+\d+\s+\d+\s%$/.test(row))).toBe(true)
  })

  test('the pointer names a class and its chance', async () => {
    const box = await page.getByRole('application', { name: 'Map' }).boundingBox()
    if (!box) throw new Error('The map has no place.')
    await page.mouse.move(box.x + 0.3 * box.width, box.y + box.height / 2)
    await expect
      .poll(() => page.locator('.foot').innerText())
      .toMatch(/likeliest class: [a-z ]+ \d+\s%(, else [a-z ]+)?/)
  })

  test('its doubt is shown in its place, and a class can be left out of it', async () => {
    await page.getByLabel('Show its doubt').check()
    await page.getByText('doubt of likeliest class').waitFor()
    await page.getByLabel('Show its doubt').uncheck()
    const told = page.getByRole('group', { name: 'Classes told apart' })
    await told.getByLabel('featureless').uncheck()
    await settled(page)
    await expect.poll(() => page.locator('#panel tr', { hasText: 'featureless' }).count()).toBe(0)
    await page.getByRole('button', { name: 'Undo' }).click()
    await expect.poll(() => told.getByLabel('featureless').isChecked()).toBe(true)
    expect(errorsOf(page)).toEqual([])
  })

  test('mineral groups are told apart in the same way, from the list of new surfaces', async () => {
    await page
      .getByLabel('What the new surface is of')
      .selectOption({ label: 'the likeliest mineral group and its doubt' })
    await page.getByRole('button', { name: 'Add', exact: true }).click()
    const head = page.locator('summary', { hasText: /^\s*likeliest group/ })
    const card = page.locator('#panel details').filter({ has: head })
    await card.getByText('Groups told apart').waitFor({ timeout: 90_000 })
    await settled(page)
    const rows = await card.locator('tbody tr').allInnerTexts()
    expect(rows.some((row) => /^white mica\s+\d+\s+\d+\s%$/.test(row))).toBe(true)
  })
})
