/** Every step can be used by anyone, at every size, and nothing leaves the machine. */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { STEP_IDS } from '../../src/views/shell/steps'
import { canBrowse, openBrowser, openSampleArea, settled } from './app'

/** Deque's axe-core: WCAG 2.2 A and AA. */
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']

interface Violation {
  readonly id: string
  readonly nodes: readonly { readonly target: readonly string[] }[]
}

async function violations(page: Page): Promise<string[]> {
  const found = await page.evaluate(async (tags) => {
    const { axe } = globalThis as unknown as {
      axe: { run(root: Document, options: object): Promise<{ violations: Violation[] }> }
    }
    return (await axe.run(document, { runOnly: { type: 'tag', values: tags } })).violations
  }, TAGS)
  return found.flatMap(({ id, nodes }) => nodes.map(({ target }) => `${id}: ${target.join(' ')}`))
}

async function openStep(page: Page, step: string): Promise<void> {
  const button = page
    .getByRole('navigation')
    .getByRole('button', { name: new RegExp(`^${step}`, 'i') })
  if ((await button.getAttribute('aria-expanded')) !== 'true') await button.click()
  await page.locator('#panel h2').waitFor()
}

describe.skipIf(!canBrowse)('access', () => {
  let browser: Browser
  let page: Page

  beforeAll(async () => {
    browser = await openBrowser()
    page = await openSampleArea(browser)
    // Through the protocol: the page's own policy lets no foreign script in.
    const session = await page.context().newCDPSession(page)
    await session.send('Runtime.evaluate', { expression: AXE })
  })
  afterAll(() => browser?.close())

  test.each(STEP_IDS)('axe finds nothing in the step %s', async (step) => {
    await openStep(page, step)
    expect(await violations(page)).toEqual([])
  })

  test('axe finds nothing in a planned walk, nor in its form', async () => {
    await openStep(page, 'traverse')
    await page.getByLabel('The start: a station’s name').fill('C10')
    await page.getByRole('button', { name: 'Set', exact: true }).click()
    await page.getByRole('button', { name: 'Plan a walk' }).click()
    await settled(page)
    await page.locator('#panel summary', { hasText: 'Change the walk' }).click()
    await page.locator('#panel summary', { hasText: 'Pace, slopes, batteries' }).click()
    await page.getByRole('list', { name: 'Stops in order' }).waitFor()
    expect(await violations(page)).toEqual([])
  })

  test.each([
    ['desk', 1366, 768],
    ['daylight', 800, 1280],
    ['projector', 1920, 1080],
    ['daylight', 1366, 768],
  ])('in the look %s at %i × %i nothing runs off the side', async (look, width, height) => {
    await page.setViewportSize({ width, height })
    await page.getByLabel('Look').selectOption(look)
    for (const step of STEP_IDS) {
      await openStep(page, step)
      const wide = await page.evaluate(() => {
        const panel = document.querySelector('#panel')
        return {
          page: document.documentElement.scrollWidth - document.documentElement.clientWidth,
          panel: panel ? panel.scrollWidth - panel.clientWidth : 0,
        }
      })
      expect({ step, ...wide }).toEqual({ step, page: 0, panel: 0 })
    }
  })

  test('in daylight everything that can be pressed is 44 px or more', async () => {
    await page.setViewportSize({ width: 1366, height: 768 })
    await page.getByLabel('Look').selectOption('daylight')
    await openStep(page, 'scans')
    const small = await page.evaluate(() =>
      [
        ...document.querySelectorAll(
          'button, select, summary, input:not([type=checkbox]):not(.unseen)',
        ),
      ]
        .filter((element) => element.checkVisibility() && !element.closest('svg'))
        .map((element) => ({
          text: (element.textContent ?? '').trim().slice(0, 30),
          height: Math.round(element.getBoundingClientRect().height),
        }))
        .filter(({ height }) => height > 0 && height < 44),
    )
    expect(small).toEqual([])
  })

  test('the page may reach nothing but itself', async () => {
    const refused = await page.evaluate(
      () =>
        new Promise<string>((resolve) => {
          document.addEventListener('securitypolicyviolation', (event) =>
            resolve(event.violatedDirective),
          )
          void fetch('https://example.org/').catch(() => undefined)
        }),
    )
    expect(refused).toBe('connect-src')
  })
})
