/** The browser around the app: its Back button, its forced colours, and what stands before results. */
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { canBrowse, drawn, errorsOf, openApp, openBrowser, settled } from './app'

describe.skipIf(!canBrowse)('the window', () => {
  let browser: Browser
  let page: Page

  const drawer = () => page.getByRole('region', { name: /^Station / })
  const find = async (name: string) => {
    await page.getByPlaceholder('Find a station').fill(name)
    await page.getByRole('button', { name: 'Find', exact: true }).click()
    await drawer().waitFor()
  }

  beforeAll(async () => {
    browser = await openBrowser()
    page = await openApp(browser)
  })
  afterAll(() => browser?.close())

  test('says of a scan that nothing looked at yet that it was not looked at', async () => {
    await page.getByText('Checking and identifying scans: ').waitFor()
    await page.getByRole('button', { name: 'Stop' }).click()
    await find('F07')
    await drawer().getByText('Not checked or identified yet').waitFor()
    expect(await drawer().innerText()).not.toMatch(/set aside|sound|unclassified/)
    await page.getByRole('button', { name: 'Go on' }).click()
    await drawn(page)
    await settled(page)
    await drawer().getByText('Check: sound').waitFor()
    await page.keyboard.press('Escape')
  })

  test('Back closes the drawer, then the step, and leaves only then', async () => {
    const url = page.url()
    await page.goto('about:blank')
    await page.goto(url)
    await drawn(page)
    await settled(page)
    await page.locator('#step-check').click()
    await find('F07')
    await page.goBack()
    await drawer().waitFor({ state: 'detached' })
    expect(await page.locator('#panel').count()).toBe(1)
    await page.goBack()
    await page.locator('#panel').waitFor({ state: 'detached' })
    // Closed by hand, a step leaves no press behind that does nothing.
    await page.locator('#step-check').click()
    await page.locator('#step-check').click()
    await page.locator('#panel').waitFor({ state: 'detached' })
    await page.waitForFunction(() => history.state === null)
    await page.goBack()
    expect(page.url()).toBe('about:blank')
    await page.goForward()
    await drawn(page)
    await settled(page)
  })

  test('asks before it is left in the same moment as a change', async () => {
    await page.getByRole('button', { name: 'Order the layers' }).click()
    /** Whether leaving now would be asked about, with a press before it where one is named. */
    const asks = (press?: string) =>
      page.evaluate((label) => {
        if (label) document.querySelector<HTMLElement>(`[aria-label="${label}"]`)?.click()
        const leaving = new Event('beforeunload', { cancelable: true })
        window.dispatchEvent(leaving)
        return leaving.defaultPrevented
      }, press)
    expect(await asks()).toBe(false)
    expect(await asks('Stations down')).toBe(true)
    await page.waitForSelector('[data-saved="saved"]')
    expect(await asks()).toBe(false)
    await page.getByRole('button', { name: 'Undo' }).click()
  })

  test('where the system sets the colours, plots can be read, and the key keeps the map’s', async () => {
    await page.emulateMedia({ forcedColors: 'active', colorScheme: 'dark' })
    await find('F07')
    /** A colour as the page has it, of a style property of the first element that fits. */
    const colour = (selector: string, property: string) =>
      page
        .locator(selector)
        .first()
        .evaluate((element, name) => getComputedStyle(element).getPropertyValue(name), property)
    const text = await colour('h2', 'color')
    expect(await colour('figure.plot text', 'fill')).toBe(text)
    expect(await colour('figure.plot path.scan', 'stroke')).toBe(text)
    // A class drawn in the page’s own colour keeps an outline.
    expect(await colour('[aria-label="Legend"] path.halo', 'stroke')).toBe(text)
    const ramp = page.locator('.ramp span')
    const colours = await ramp.evaluateAll((all) =>
      all.map((box) => getComputedStyle(box).backgroundColor),
    )
    expect(new Set(colours).size).toBe(colours.length)
    // What is pressed is told by more than its colour.
    expect(await colour('button[aria-pressed="true"]', 'text-decoration-line')).toBe('underline')
    expect(errorsOf(page)).toEqual([])
  })
})
