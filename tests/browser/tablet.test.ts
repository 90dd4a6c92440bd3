/** The map under a finger: several stations selected, values read; and without a hand that can draw. */
import type { Browser, CDPSession, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { canBrowse, errorsOf, openBrowser, openSampleArea } from './app'

type Point = readonly [x: number, y: number]

describe.skipIf(!canBrowse)('on a tablet', () => {
  let browser: Browser
  let page: Page
  let touch: CDPSession

  const bar = () => page.getByRole('group', { name: 'Select several stations' })
  const count = async () => Number(/(\d+) selected/.exec(await bar().innerText())?.[1])
  const drawer = () => page.getByRole('region', { name: /^Station / })

  /** Moves fingers from their first points to their last; each entry is where all are at once. */
  async function fingers(...steps: readonly (readonly Point[])[]): Promise<void> {
    const at = (points: readonly Point[]) => points.map(([x, y], id) => ({ x, y, id }))
    await touch.send('Input.dispatchTouchEvent', {
      type: 'touchStart',
      touchPoints: at(steps[0]),
    })
    for (const points of steps.slice(1)) {
      await touch.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: at(points) })
    }
    await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] })
  }

  beforeAll(async () => {
    browser = await openBrowser()
    page = await openSampleArea(browser, { width: 800, height: 1280 })
    await page.getByLabel('Look').selectOption('daylight')
    touch = await page.context().newCDPSession(page)
    await touch.send('Emulation.setTouchEmulationEnabled', { enabled: true, maxTouchPoints: 2 })
    await page.getByLabel('Legend').getByRole('button', { name: 'Fold' }).click()
  })
  afterAll(() => browser?.close())

  test('several stations are taken by an outline drawn with a finger, and the map stays where it is', async () => {
    await page.getByRole('button', { name: 'Select several' }).click()
    /** A corner of the ground that no station lies in: it moves where the map does. */
    const corner = () => page.screenshot({ clip: { x: 4, y: 1160, width: 90, height: 40 } })
    const before = await corner()
    await fingers([[60, 420]], [[740, 420]], [[740, 1000]], [[60, 1000]], [[60, 440]])
    await expect.poll(count).toBeGreaterThan(20)
    expect((await corner()).equals(before)).toBe(true)
    // The drawer waits, for it would cover what is still to be drawn around.
    expect(await drawer().count()).toBe(0)
    const many = await count()
    await bar().getByRole('button', { name: 'Done' }).click()
    await drawer().waitFor()
    expect(await drawer().innerText()).toContain(`${many} selected`)
  })

  test('a finger that touches beside a station takes nothing back, and two fingers draw nothing', async () => {
    await page.getByRole('button', { name: 'Select several' }).click()
    const many = await count()
    await fingers([[20, 1220]])
    await fingers(
      [
        [300, 600],
        [500, 800],
      ],
      [
        [200, 500],
        [600, 900],
      ],
    )
    expect(await count()).toBe(many)
    await bar().getByRole('button', { name: 'None' }).click()
    await expect.poll(count).toBe(0)
  })

  test('several are taken by keyboard as all that is in view, and Escape ends it', async () => {
    await bar().getByRole('button', { name: 'All in view' }).press('Enter')
    await expect.poll(count).toBeGreaterThan(10)
    await page.keyboard.press('Escape')
    await drawer().waitFor()
    expect(await page.getByRole('button', { name: 'Select several' }).isVisible()).toBe(true)
    expect(errorsOf(page)).toEqual([])
  })

  test('a touch tells the surface’s value with its error, and marks where', async () => {
    await page.keyboard.press('Escape')
    await drawer().waitFor({ state: 'detached' })
    const foot = page.locator('.foot')
    expect(await foot.innerText()).not.toContain('±')
    // Somewhere on this row the surface is drawn and no station lies.
    for (let x = 60; x < 760; x += 35) {
      await fingers([[x, 560]])
      await page.locator('[data-spot]').waitFor()
      if ((await foot.innerText()).includes('±')) break
    }
    expect(await foot.innerText()).toMatch(/mica: [\d.]+ ± [\d.]+\snm/)
    expect(await page.locator('[data-spot]').count()).toBe(1)
  })

  test('where the legend is folded for want of room, the colours are told all the same', async () => {
    await page.locator('#step-check').click()
    const legend = page.getByLabel('Legend', { exact: true })
    await legend.getByRole('button', { name: 'Unfold' }).waitFor()
    expect(await legend.locator('.ramp').isVisible()).toBe(true)
  })

  test('the look is the same after a reload', async () => {
    await page.reload()
    expect(await page.getByLabel('Look').inputValue()).toBe('daylight')
    expect(errorsOf(page)).toEqual([])
  })
})
