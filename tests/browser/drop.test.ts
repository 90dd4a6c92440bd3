/** A geologist's own files: dropped as a folder, they become a map with one question answered. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { modelReflectance } from '../../src/minerals/model'
import {
  canBrowse,
  drawn,
  dropFolder,
  errorsOf,
  openBrowser,
  settled,
  openEmptyProject,
} from './app'

/** Noise between -1 and 1 from a fixed seed (Lehmer's generator), so that no scan is another's copy. */
let seed = 20_261_125
function noise(): number {
  seed = (seed * 48_271) % 2_147_483_647
  return (2 * seed) / 2_147_483_647 - 1
}

/** Twenty-five text scans of two minerals and a sample table in metres that names no CRS. */
async function writeFiles(folder: string): Promise<void> {
  const { references } = await loadBuiltInSet()
  const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)
  const spectra = ['muscovite', 'calcite'].map((name) => {
    const reference = references.find(({ mineral }) => mineral === name)
    if (!reference) throw new Error(`The built-in set has no ${name}.`)
    return modelReflectance(reference, wavelengths)
  })
  mkdirSync(join(folder, 'scans'), { recursive: true })
  const rows = ['Sample,East,North']
  for (let i = 0; i < 25; i++) {
    const lines = Array.from(wavelengths, (nm, c) => {
      const value = spectra[i % 2][c] * (0.8 + 0.01 * i) + 0.0008 * noise()
      return `${nm}\t${value.toFixed(5)}`
    })
    writeFileSync(
      join(folder, 'scans', `P${i}.txt`),
      `Wavelength\tReflectance\n${lines.join('\n')}\n`,
    )
    rows.push(`P${i},${480_000 + 100 * (i % 5)},${7_250_000 + 100 * Math.floor(i / 5)}`)
  }
  writeFileSync(join(folder, 'samples.csv'), rows.join('\n') + '\n')
}

describe.skipIf(!canBrowse)('dropping a folder of scans and a sample table', () => {
  let browser: Browser
  let page: Page
  const folder = mkdtempSync(join(tmpdir(), 'aureole-drop-'))

  beforeAll(async () => {
    await writeFiles(folder)
    browser = await openBrowser()
    page = await openEmptyProject(browser)
  })
  afterAll(async () => {
    await browser?.close()
    rmSync(folder, { recursive: true, force: true })
  })

  test('gives a classified map once the CRS is confirmed, and nothing else', async () => {
    await dropFolder(page, folder)
    const crs = page.getByLabel('CRS', { exact: true })
    if (!(await crs.isVisible().catch(() => false))) {
      await page
        .getByRole('button', { name: /^Places/ })
        .filter({ hasText: 'question' })
        .waitFor()
      if (!(await crs.isVisible())) await page.getByRole('button', { name: /^Places/ }).click()
    }
    await crs.fill('EPSG:32719')
    await page.getByRole('button', { name: 'Confirm' }).click()
    await drawn(page)
    await settled(page)
    const legend = await page.getByLabel('Legend').innerText()
    expect(legend).toMatch(/white mica\s+13/)
    expect(legend).toMatch(/carbonate\s+12/)
    expect(errorsOf(page)).toEqual([])
  })
})
