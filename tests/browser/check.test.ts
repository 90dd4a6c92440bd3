/** The Check step by mouse and by keyboard: the day, the table, what is ticked, and the way back. */
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { canBrowse, errorsOf, openBrowser, openSampleArea, settled } from './app'

describe.skipIf(!canBrowse)('the Check step', () => {
  let browser: Browser
  let page: Page
  const panel = () => page.locator('#panel')
  const show = () => panel().getByRole('combobox', { name: 'Show' })
  const day = () => panel().getByRole('slider', { name: /^Scans of / })
  const rows = () => panel().locator('table > tbody:has(input[type=checkbox])')
  /** The accessible name of what the keyboard stands on. */
  const focused = () =>
    page.evaluate(() => {
      const element = document.activeElement
      return element?.getAttribute('aria-label') ?? element?.textContent?.trim() ?? ''
    })
  /** Chooses what to show by the words that its option begins with. */
  const choose = async (words: string) => {
    const label = await show().locator('option', { hasText: words }).first().innerText()
    await show().selectOption({ label })
  }

  beforeAll(async () => {
    browser = await openBrowser()
    page = await openSampleArea(browser)
    await page.locator('#step-check').click()
    await rows().first().waitFor()
  })
  afterAll(() => browser?.close())

  test('each reason tells its measure and its limit', async () => {
    await choose('detector step')
    expect(await rows().first().innerText()).toMatch(/measured −?[\d.]+\s%, limit 1\.5\s%/)
  })

  test('a reason brings up a day that holds it, and its marks stand tall', async () => {
    for (const words of ['detector step', 'wet sample', 'white panel']) {
      await choose(words)
      const tall = panel().locator('svg rect.listed')
      expect(await tall.count()).toBeGreaterThan(0)
    }
  })

  test('the keys walk along the day, and Enter shows the scan', async () => {
    await day().focus()
    await page.keyboard.press('Home')
    const first = await day().getAttribute('aria-valuetext')
    await page.keyboard.press('ArrowRight')
    const second = (await day().getAttribute('aria-valuetext')) ?? ''
    expect(second).not.toBe(first)
    expect(second).toMatch(/^\d\d:\d\d .+, (sound|doubtful|set aside)/)
    await page.keyboard.press('Enter')
    const scan = /^\d\d:\d\d ([^,]+),/.exec(second)?.[1] ?? ''
    await page.getByRole('button', { name: scan, pressed: true }).waitFor()
    await page.keyboard.press('Escape')
  })

  test('a part of the day that is dragged out is listed alone, until all are asked for', async () => {
    await choose('all scans')
    const box = await day().boundingBox()
    if (!box) throw new Error('The day is not drawn.')
    const all = await panel()
      .getByText(/Tick all \d+ shown/)
      .innerText()
    await page.mouse.move(box.x + box.width * 0.4, box.y + 40)
    await page.mouse.down()
    await page.mouse.move(box.x + box.width * 0.6, box.y + 40, { steps: 4 })
    await page.mouse.up()
    await panel()
      .getByText(/From \d\d:\d\d to \d\d:\d\d alone/)
      .waitFor()
    expect(
      await panel()
        .getByText(/Tick all \d+ shown/)
        .innerText(),
    ).not.toBe(all)
    await panel().getByRole('button', { name: 'All days' }).click()
    expect(
      await panel()
        .getByText(/Tick all \d+ shown/)
        .innerText(),
    ).toBe(all)
  })

  test('what is ticked is drawn, overruled and edited together, and one Undo takes it back', async () => {
    await choose('detector step')
    const ticks = panel().getByRole('checkbox', { name: /^Tick (?!all)/ })
    await ticks.nth(0).check()
    await ticks.nth(1).check()
    await panel().getByText('Spectra of the 2 scans ticked').waitFor()
    const sound = await page.locator('#step-check .count').innerText()
    await panel().getByRole('button', { name: 'Overrule the 2 ticked' }).press('Enter')
    const form = panel().getByRole('group', { name: 'Overrule 2 scans' })
    expect(await form.getByLabel('Who').evaluate((e) => e === document.activeElement)).toBe(true)
    await form.getByLabel('Why').fill('the probe was lifted')
    await form.getByRole('button', { name: 'set aside' }).press('Enter')
    await panel().getByText('2 scans now set aside. Undo takes it back.').waitFor()
    await settled(page)
    expect(await focused()).toBe('Overrule the 2 ticked')
    await page.keyboard.press('Control+z')
    await page.getByRole('status').filter({ hasText: 'Undone: verdict of 2 scans' }).waitFor()
    await settled(page)
    expect(await page.locator('#step-check .count').innerText()).toBe(sound)
    await panel()
      .getByRole('button', { name: /Set fields of many scans/ })
      .click()
    await panel().getByText('Set fields of many scans').click()
    await panel().getByRole('button', { name: 'Take 2 ticked in Check' }).click()
    const list = panel().getByRole('region', { name: 'Scans to set' })
    await expect.poll(() => list.getByRole('checkbox', { checked: true }).count()).toBe(2)
    await page.locator('#step-check').click()
  })

  test('one scan is overruled by keyboard, which stays with it wherever its row then stands', async () => {
    await choose('detector step')
    const opener = panel()
      .getByRole('button', { name: /^Overrule (?!the|all)/ })
      .first()
    const name = (await opener.getAttribute('aria-label')) ?? ''
    await opener.press('Enter')
    await page.keyboard.press('Tab')
    const form = panel().getByRole('group', { name })
    await form.getByLabel('Why').fill('compared with the core next to it')
    await form.getByRole('button', { name: 'sound' }).press('Enter')
    await settled(page)
    await expect.poll(focused).toBe(name)
    await page.keyboard.press('Control+z')
    await settled(page)
  })

  test('a drawer that is closed by a key gives the keyboard back to what opened it', async () => {
    const name = rows().first().locator('button').first()
    const scan = await name.innerText()
    await name.press('Enter')
    const drawer = page.getByRole('region', { name: /^(Station|Scan without)/ })
    await drawer.getByRole('button', { name: 'Taller' }).click()
    await drawer.getByRole('button', { name: 'Lower' }).click()
    await drawer.getByRole('button', { name: 'Close' }).press('Enter')
    await drawer.waitFor({ state: 'detached' })
    expect(await focused()).toBe(scan)
    expect(errorsOf(page)).toEqual([])
  })

  test('a class that is moved keeps the keyboard', async () => {
    await page.locator('#step-classes').click()
    await panel().locator('li').nth(2).locator('summary').click()
    await panel().getByRole('button', { name: 'Earlier' }).press('Enter')
    expect(await focused()).toBe('Earlier')
    await panel().getByRole('button', { name: 'First', exact: true }).press('Enter')
    // At the top that button rests, and the next one that can be pressed has the keyboard.
    expect(await focused()).toBe('Later')
    expect(errorsOf(page)).toEqual([])
  })
})
