/** The Layers step hands over what the command line writes. */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { unzipSync } from 'fflate'
import { fromArrayBuffer } from 'geotiff'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { canBrowse, openBrowser, openSampleArea } from './app'

const SAMPLE = ['--scans', 'sample-area/scans', '--places', 'sample-area/places']

describe.skipIf(!canBrowse)('the Layers step on the sample area', () => {
  let browser: Browser
  let page: Page
  let files: Record<string, Uint8Array>
  const out = mkdtempSync(join(tmpdir(), 'aureole-layers-'))

  beforeAll(async () => {
    const words = [...SAMPLE, '--recipe', 'sample-area/recipe.json', '--out', out]
    execFileSync('node', ['src/batch/launch.mjs', 'map', ...words])
    browser = await openBrowser()
    page = await openSampleArea(browser)
    await page
      .getByRole('navigation')
      .getByRole('button', { name: /^Layers/ })
      .click()
    const download = page.waitForEvent('download')
    await page.getByRole('button', { name: 'Everything as one zip' }).click()
    files = unzipSync(new Uint8Array(readFileSync(await (await download).path())))
  })
  afterAll(async () => {
    await browser?.close()
    rmSync(out, { recursive: true, force: true })
  })

  test('the same files', () => {
    expect(Object.keys(files).sort()).toEqual(readdirSync(out).sort())
  })

  test('the same tables, but for the last digit of a number here and there', () => {
    for (const name of ['scans.csv', 'stations.csv', 'minerals.csv', 'problems.csv']) {
      const here = new TextDecoder().decode(files[name]).split('\r\n')
      const there = readFileSync(join(out, name), 'utf8').split('\r\n')
      expect(here.length).toBe(there.length)
      expect(here[0]).toBe(there[0])
      // The engines' exp and log differ by a unit in the last place, which may turn a rounding.
      const other = here.filter((line, i) => withoutFolder(line) !== withoutFolder(there[i]))
      expect({ name, other: other.length }).toEqual({
        name,
        other: Math.min(other.length, Math.ceil(there.length / 50)),
      })
    }
  })

  test('the same rasters to 1e-6', async () => {
    for (const name of readdirSync(out).filter((file) => file.endsWith('.tif'))) {
      const [here, there] = await Promise.all([
        bandsOf(files[name]),
        bandsOf(readFileSync(join(out, name))),
      ])
      expect(here.length).toBe(there.length)
      here.forEach((band, b) => {
        const scale = Math.max(...there[b].map((value) => (value === -9999 ? 0 : Math.abs(value))))
        let worst = 0
        band.forEach((value, i) => {
          worst = Math.max(worst, Math.abs(value - there[b][i]) / scale)
        })
        expect({ name, b, close: worst < 1e-6, worst }).toMatchObject({ close: true })
      })
    }
  })
})

/** In the window a path begins with the sample area's own folders; on the command line inside them. */
function withoutFolder(line: string): string {
  return line.replaceAll(/\b(scans|places)\//g, '')
}

async function bandsOf(bytes: Uint8Array): Promise<Float32Array[]> {
  const tiff = await fromArrayBuffer(bytes.slice().buffer)
  return (await (await tiff.getImage()).readRasters()) as unknown as Float32Array[]
}
