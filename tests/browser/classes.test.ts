/** Classes of one's own, begun from nothing, on the sample area. */
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { canBrowse, errorsOf, openBrowser, openSampleArea, settled } from './app'

describe.skipIf(!canBrowse)('classes from nothing', () => {
  let browser: Browser
  let page: Page

  const panel = () => page.locator('#panel')
  const heads = () => panel().locator('ol summary').allInnerTexts()
  const card = (name: string) =>
    panel()
      .getByRole('listitem')
      .filter({ has: page.locator('summary', { hasText: name }) })
  const add = async (what: string) => {
    await page.getByLabel('What the new class is of').selectOption({ label: what })
    await panel().getByRole('button', { name: 'Add', exact: true }).click()
    await settled(page)
  }

  beforeAll(async () => {
    browser = await openBrowser()
    page = await openSampleArea(browser)
    await page.locator('#step-classes').click()
  })
  afterAll(() => browser?.close())

  test('all are taken out by one press, which Undo takes back', async () => {
    await panel().getByRole('button', { name: 'Take out all 12 classes' }).click()
    await panel().getByText('No classes yet').waitFor()
    await page.getByRole('button', { name: 'Undo' }).click()
    await expect.poll(async () => (await heads()).length).toBe(12)
    await panel().getByRole('button', { name: 'Take out all 12 classes' }).click()
  })

  test('one of what was found opens, named and with its stations', async () => {
    await add('alunite')
    await add('kaolin')
    await expect
      .poll(heads)
      .toEqual([
        expect.stringMatching(/alunite\s+\d+ stations/),
        expect.stringMatching(/kaolin\s+[1-9]\d* stations/),
      ])
    const name = card('kaolin').getByLabel('Name')
    await name.fill('clay')
    await name.press('Tab')
    // Under its new name the card stays open.
    await card('clay').getByLabel('Name').waitFor()
    await card('clay').getByRole('button', { name: 'First' }).click()
    await expect
      .poll(heads)
      .toEqual([expect.stringMatching(/clay/), expect.stringMatching(/alunite/)])
  })

  test('classes that share a symbol are pointed out, and get their own', async () => {
    await card('clay').getByLabel('Symbol').selectOption('circle')
    await panel().getByText('told apart by colour alone').waitFor()
    await panel().getByRole('button', { name: 'Give each class its own symbol' }).click()
    await panel().getByText('told apart by colour alone').waitFor({ state: 'detached' })
    await settled(page)
    expect(errorsOf(page)).toEqual([])
  })
})
