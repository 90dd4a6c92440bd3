/** The legend: what it shows and hides, and the room that it takes from the map. */
import type { Browser, Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { canBrowse, drawn, errorsOf, openBrowser, openSampleArea, settled } from './app'

describe.skipIf(!canBrowse)('the legend', () => {
  let browser: Browser
  let page: Page

  beforeAll(async () => {
    browser = await openBrowser()
    // Narrow enough that the legend’s width decides how large the map is.
    page = await openSampleArea(browser, { width: 1100, height: 800 })
  })
  afterAll(() => browser?.close())

  test('writes names of stations and holes on the map where asked, and takes them off', async () => {
    const map = page.getByRole('application', { name: 'Map' })
    const written = () => map.getAttribute('data-names').then(Number)
    expect(await written()).toBe(0)
    const names = page.getByLabel('Legend').getByLabel('Names')
    await names.check()
    await expect.poll(written).toBeGreaterThan(100)
    await names.uncheck()
    await expect.poll(written).toBe(0)
  })

  test('gives its room to the map when it is folded, and takes it back', async () => {
    const scale = page.locator('.foot .bar')
    /** What the scale bar says over how long it is. */
    const metres = async () => {
      const [, number, unit] = /^([\d.]+)\s*(k?m)$/.exec((await scale.innerText()).trim()) ?? []
      const width = Number.parseFloat((await scale.getAttribute('style'))?.split(':')[1] ?? '')
      return (Number(number) * (unit === 'km' ? 1000 : 1)) / width
    }
    const before = await metres()
    await page.getByRole('button', { name: 'Fold', exact: true }).click()
    await expect.poll(metres).toBeLessThan(0.97 * before)
    await page.getByRole('button', { name: 'Unfold' }).click()
    await expect.poll(async () => Math.abs((await metres()) / before - 1)).toBeLessThan(1e-3)
  })

  test('orders the layers by keyboard, draws them so, and keeps that with the project', async () => {
    const map = page.getByRole('application', { name: 'Map' })
    const legend = page.getByLabel('Legend', { exact: true })
    const order = () => map.getAttribute('data-order')
    /** The map's middle, which neither the legend nor the foot covers. */
    const picture = () =>
      page
        .screenshot({ clip: { x: 400, y: 250, width: 300, height: 300 } })
        .then((bytes) => bytes.toString('base64'))
    await legend.getByRole('button', { name: 'Order the layers' }).click()
    const list = legend.getByRole('list', { name: 'Layers, the uppermost first' })
    await expect
      .poll(() => list.getByRole('listitem').locator('.name').allInnerTexts())
      .toEqual(['Stations', 'Contours', 'Outlines', 'Surface', 'Hillshade'])
    const before = await picture()
    const up = list.getByRole('button', { name: 'Hillshade up' })
    await up.focus()
    for (let i = 0; i < 4; i++) await page.keyboard.press('Enter')
    await expect.poll(order).toBe('hillshade stations walk structures contours outlines surface')
    await legend.getByText('Hillshade: 1 of 5 from the top').waitFor()
    // At the top its own button rests; the keyboard is at the other one.
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label'))
    expect(await focused()).toBe('Hillshade down')
    await expect.poll(picture).not.toBe(before)
    await page.waitForSelector('[data-saved="saved"]')
    await page.reload()
    await drawn(page)
    await expect.poll(order).toBe('hillshade stations walk structures contours outlines surface')
    const undo = page.getByRole('button', { name: 'Undo' })
    for (let i = 0; i < 4; i++) await undo.click()
    await expect.poll(order).toBe('stations walk structures contours outlines surface hillshade')
    await settled(page)
    await page.getByLabel('Legend').getByRole('button', { name: 'Show the whole map' }).waitFor()
  })

  test.each([
    ['desk', 1366, 768],
    ['daylight', 1366, 768],
    ['daylight', 800, 1280],
    ['projector', 1366, 768],
  ])(
    'in the look %s at %i × %i keeps its key in sight while classes are scrolled',
    async (look, width, height) => {
      await page.setViewportSize({ width, height })
      await page.getByLabel('Look').selectOption(look)
      const legend = page.getByLabel('Legend')
      await legend.getByRole('button', { name: 'Show the whole map' }).scrollIntoViewIfNeeded()
      const box = async (part: Locator) => {
        const found = await part.boundingBox()
        if (!found) throw new Error('not on the screen')
        return { top: found.y, bottom: found.y + found.height }
      }
      const whole = await box(legend)
      for (const part of [legend.locator('.ramp'), legend.getByRole('button', { name: 'Fold' })]) {
        const { top, bottom } = await box(part)
        expect(top).toBeGreaterThanOrEqual(whole.top)
        expect(bottom).toBeLessThanOrEqual(whole.bottom)
      }
      // And what was scrolled to is there, not under the edge.
      const last = await box(legend.getByRole('button', { name: 'Show the whole map' }))
      expect(last.bottom).toBeLessThanOrEqual(whole.bottom)
    },
  )

  test('nothing went wrong on the way', () => {
    expect(errorsOf(page)).toEqual([])
  })
})
