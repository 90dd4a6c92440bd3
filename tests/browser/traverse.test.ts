/** A walk is planned by pressing the map, told stop by stop, changed, undone, kept and taken out. */
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { canBrowse, drawn, errorsOf, openBrowser, openSampleArea, settled } from './app'

/** The middle of what has changed on the map since a picture of the window was taken; null for nothing. */
async function changed(page: Page, before: Buffer): Promise<{ x: number; y: number } | null> {
  const map = await page.locator('.map canvas').first().boundingBox()
  if (!map) return null
  const after = await page.screenshot()
  const pictures = [before, after].map((png) => png.toString('base64'))
  return page.evaluate(
    async ([left, ...both]) => {
      const [old, now] = await Promise.all(
        both.map(async (data) => {
          const bytes = Uint8Array.from(atob(String(data)), (letter) => letter.charCodeAt(0))
          const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }))
          const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')
          context?.drawImage(bitmap, 0, 0)
          return context?.getImageData(0, 0, bitmap.width, bitmap.height)
        }),
      )
      if (!old || !now) return null
      let [count, x, y] = [0, 0, 0]
      for (let i = 0; i < old.data.length; i += 4) {
        const column = (i / 4) % old.width
        if (column < Number(left) || Math.abs(old.data[i + 1] - now.data[i + 1]) < 60) continue
        count++
        x += column
        y += Math.floor(i / 4 / old.width)
      }
      return count > 50 ? { x: x / count, y: y / count } : null
    },
    [map.x, ...pictures] as const,
  )
}

describe.skipIf(!canBrowse)('the traverse', () => {
  let browser: Browser
  let page: Page

  beforeAll(async () => {
    browser = await openBrowser()
    page = await openSampleArea(browser)
    await openTraverse()
  })
  afterAll(() => browser?.close())

  const panel = () => page.locator('#panel')
  const step = () => page.getByRole('navigation').getByRole('button', { name: /^Traverse/ })
  const stops = () => panel().getByRole('list', { name: 'Stops in order' }).getByRole('button')
  const times = async () =>
    (await stops().allInnerTexts()).map((text) => /(\d\d:\d\d)–(\d\d:\d\d)/.exec(text)?.slice(1, 3))
  const onMap = () => page.locator('.map .map, .map[role=application]').getAttribute('data-walk')
  const press = (name: string | RegExp) => page.getByRole('button', { name }).click()

  async function openTraverse(): Promise<void> {
    await step().click()
    await panel().getByRole('heading', { name: 'Traverse' }).waitFor()
  }

  /** The list counts as many stops as the step, the sentence and the map say. */
  async function agreed(): Promise<number> {
    const count = await stops().count()
    expect(await step().innerText()).toContain(`${count} stops`)
    expect(await panel().innerText()).toMatch(
      new RegExp(`${count} stops in .* back at \\d\\d:\\d\\d`),
    )
    await expect.poll(onMap).toBe(`${count} stops`)
    return count
  }

  test('a start is pressed on the map and a walk planned for the proposed day', async () => {
    const plan = page.getByRole('button', { name: 'Plan a walk' })
    expect(await plan.isDisabled()).toBe(true)
    await panel().getByRole('button', { name: 'Press on the map' }).click()
    await page.getByText('Press the start of the walk on the map.').waitFor()
    const canvas = await page.locator('.map canvas').first().boundingBox()
    if (!canvas) throw new Error('The map has no place.')
    await page.mouse.click(canvas.x + 0.3 * canvas.width, canvas.y + 0.5 * canvas.height)
    await panel()
      .getByText(/^−24\.\d{5}, −69\.\d{5}$/)
      .waitFor()
    await plan.click()
    await settled(page)
    expect(await agreed()).toBeGreaterThan(3)
    const told = await times()
    expect(told.every((each) => each !== undefined)).toBe(true)
    const inOrder = told.flatMap((each) => each ?? [])
    expect(inOrder).toEqual([...inOrder].sort())
    expect(inOrder[0] > '07:30').toBe(true)
    expect(
      /back at (\d\d:\d\d)/.exec(await panel().innerText())?.[1].localeCompare('16:30', 'en'),
    ).toBeLessThan(1)
    expect(await panel().innerText()).toMatch(
      /standard error of mica falls from .* to .*\snm \(variance −/,
    )
    await panel()
      .getByText(/It knows no cliffs/)
      .waitFor()
  })

  test('a stop is chosen in the list', async () => {
    await stops().nth(1).click()
    expect(await stops().nth(1).getAttribute('aria-pressed')).toBe('true')
    await stops().nth(1).click()
    expect(await stops().nth(1).getAttribute('aria-pressed')).toBe('false')
  })

  test('a stop that is touched on the map is chosen in the list', async () => {
    const isChosen = () => stops().nth(1).getAttribute('aria-pressed')
    const before = await page.screenshot()
    await stops().nth(1).click()
    await expect.poll(() => changed(page, before), { timeout: 20_000 }).not.toBeNull()
    const disc = await changed(page, before)
    if (!disc) throw new Error('The disc of the stop did not change.')
    await stops().nth(1).click()
    expect(await isChosen()).toBe('false')
    await page.mouse.click(disc.x, disc.y)
    await expect.poll(isChosen).toBe('true')
    await stops().nth(1).click()
  })

  test('a shorter day has fewer stops; undo and redo bring each back', async () => {
    const before = await agreed()
    await panel().locator('summary', { hasText: 'Change the walk' }).click()
    await panel().getByLabel('Back', { exact: true }).fill('1100')
    await panel().getByLabel('Back', { exact: true }).press('Enter')
    await expect.poll(() => panel().innerText()).toMatch(/as it was; a new one/)
    await settled(page)
    const after = await agreed()
    expect(after).toBeLessThan(before)
    await press('Undo')
    await settled(page)
    expect(await agreed()).toBe(before)
    await press('Redo')
    await settled(page)
    expect(await agreed()).toBe(after)
  })

  test('what cannot stand is refused in words, and nothing changes', async () => {
    const before = await agreed()
    await panel().getByLabel('Leave', { exact: true }).fill('12:00')
    await panel().getByLabel('Leave', { exact: true }).press('Enter')
    const alert = panel().getByRole('alert')
    expect(await alert.innerText()).toMatch(/Back: 11:00 is not after leaving at 12:00/)
    expect(await panel().getByLabel('Leave', { exact: true }).inputValue()).toBe('07:30')
    expect(await agreed()).toBe(before)
  })

  test('a station that is visited again stands in the list by its name', async () => {
    await page.getByPlaceholder('Find a station').fill('C10')
    await page.getByRole('button', { name: 'Find', exact: true }).click()
    await panel().getByRole('button', { name: 'Visit the 1 selected station' }).click()
    await settled(page)
    await expect.poll(async () => (await stops().allInnerTexts()).join()).toMatch(/C10 again/)
    await panel().getByRole('button', { name: 'Do not visit C10' }).click()
    await settled(page)
    await page.keyboard.press('Escape')
  })

  test('the legend hides the walk and orders it', async () => {
    const legend = page.getByLabel('Legend')
    await legend.getByLabel('Walk', { exact: true }).uncheck()
    await panel().getByText('The walk is hidden on the map.').waitFor()
    expect(await onMap()).toBe('')
    await panel().getByRole('button', { name: 'Show it' }).click()
    await agreed()
    await legend.getByRole('button', { name: 'Order the layers' }).click()
    await legend.getByRole('button', { name: 'Walk up' }).click()
    await expect
      .poll(() => page.locator('[data-order]').getAttribute('data-order'))
      .toMatch(/^walk stations/)
    await press('Undo')
    await legend.getByRole('button', { name: 'Order done' }).click()
  })

  test('a reload keeps the walk', async () => {
    const before = await agreed()
    await expect
      .poll(() => page.evaluate(() => document.documentElement.dataset.saved))
      .toBe('saved')
    await page.reload()
    await drawn(page)
    await settled(page)
    await openTraverse()
    expect(await agreed()).toBe(before)
  })

  test('where no walk fits the step and the panel say so and what to do', async () => {
    await panel().locator('summary', { hasText: 'Change the walk' }).click()
    await panel().getByLabel('Back', { exact: true }).fill('07:31')
    await panel().getByLabel('Back', { exact: true }).press('Enter')
    const alert = panel().getByRole('alert')
    await alert.waitFor()
    expect(await alert.innerText()).toMatch(/No walk fits.*: .*leave earlier/s)
    expect(await step().innerText()).toContain('no walk fits')
    await press('Undo')
    await settled(page)
    await agreed()
  })

  test('taken out, it is gone from the map; planned again, it is the same', async () => {
    const before = await agreed()
    await panel().getByRole('button', { name: 'Take the walk out' }).click()
    await settled(page)
    expect(await step().innerText()).toContain('no walk yet')
    await press('Plan a walk')
    await settled(page)
    expect(await agreed()).toBe(before)
  })

  test('nothing went wrong on the way', () => {
    expect(errorsOf(page)).toEqual([])
  })
})
