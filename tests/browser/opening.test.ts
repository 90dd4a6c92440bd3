/** Opening the app: what stands on the screen meanwhile, and in a window at 200 %. */
import type { Browser, Page } from 'playwright-core'
import { inject } from 'vitest'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { canBrowse, drawn, openBrowser, settled } from './app'

describe.skipIf(!canBrowse)('opening', () => {
  let browser: Browser
  let page: Page

  beforeAll(async () => {
    browser = await openBrowser()
    // To the page a window of 1366 × 768 at 200 % is one of half the size.
    const context = await browser.newContext({ viewport: { width: 683, height: 384 } })
    page = await context.newPage()
    // Notes down each text that stands where the map will, frame by frame.
    await page.addInitScript(() => {
      const seen = new Set<string>()
      Object.assign(globalThis, { seen })
      const look = () => {
        seen.add(document.querySelector<HTMLElement>('.map')?.innerText.trim() ?? '')
        requestAnimationFrame(look)
      }
      requestAnimationFrame(look)
    })
    await page.goto(inject('appUrl'))
    await drawn(page)
    await settled(page)
  })
  afterAll(() => browser?.close())

  const seen = () =>
    page.evaluate(() => [...(globalThis as unknown as { seen: Set<string> }).seen].join('\n'))

  test('says so, and never shows an empty project on the way to one with scans', async () => {
    expect(await seen()).toContain('Opening…')
    expect(await seen()).not.toMatch(/empty project|No scan/)
    await page.waitForFunction(() => document.documentElement.dataset.saved === 'saved')
    await page.reload()
    await drawn(page)
    await settled(page)
    expect(await seen()).not.toMatch(/empty project|No scan/)
  })

  test('at 200 % a step and a station can be read, by scrolling the page', async () => {
    /** Px of a part in the window once it is scrolled to. */
    const readable = (part: string) =>
      page.locator(part).evaluate((element) => {
        element.scrollIntoView()
        const { top, bottom } = element.getBoundingClientRect()
        return Math.min(bottom, innerHeight) - Math.max(top, 0)
      })
    for (const step of ['check', 'surfaces']) {
      await page.locator(`#step-${step}`).click()
      expect(await readable('#panel')).toBeGreaterThan(250)
    }
    await page.locator('#step-surfaces').click()
    const find = page.getByLabel('Find a station by its name')
    const unfold = page.getByRole('button', { name: 'Unfold' })
    await find.or(unfold).first().waitFor()
    if (!(await find.isVisible())) await unfold.click()
    await find.fill('C10')
    await find.press('Enter')
    await page.locator('.drawer').waitFor()
    expect(await readable('.drawer')).toBeGreaterThan(250)
    const wide = () => document.documentElement.scrollWidth - document.documentElement.clientWidth
    expect(await page.evaluate(wide)).toBe(0)
  })
})
