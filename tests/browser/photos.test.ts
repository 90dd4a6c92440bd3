/** Photos of a station: added, marked, proposed, kept over a reload, handed over, taken out. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { unzipSync } from 'fflate'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { readExif } from '../../src/readers/exif'
import { pictureHead } from '../../src/readers/picture'
import pictures from '../readers/pictures.json'
import {
  canBrowse,
  drawn,
  dropFolder,
  errorsOf,
  openBrowser,
  settled,
  openEmptyProject,
} from './app'

/** Pictures as tests/oracles/pictures.py made them: 64 × 48 to be turned upright, 40 × 30 upright. */
const bytesOf = (name: string) =>
  Buffer.from(pictures.find((each) => each.name === name)?.base64 ?? '', 'base64')

/** Two scans with their places, and photos whose names do or do not fit. Invented. */
function writeFiles(folder: string): void {
  mkdirSync(join(folder, 'photos'), { recursive: true })
  for (let i = 0; i < 2; i++) {
    const rows = Array.from(
      { length: 431 },
      (_, c) => `${350 + 5 * c}\t${(0.3 + 0.0001 * c + 0.02 * i).toFixed(5)}`,
    )
    const header = [`Sample: RC-${i}`, `Latitude: ${-24.9 - 0.001 * i}`, 'Longitude: -69.2']
    writeFileSync(join(folder, `rc${i}.txt`), [...header, ...rows].join('\n') + '\n')
  }
  writeFileSync(join(folder, 'photos', 'RC-1 wall.jpg'), bytesOf('plain.jpg'))
  writeFileSync(join(folder, 'photos', 'camp.webp'), bytesOf('lossy-bare.webp'))
  // Its name fits a station, and no station can take it.
  writeFileSync(join(folder, 'photos', 'RC-2 face.heic'), '\0\0\0\x18ftypheic\0\0\0\0mif1heic')
}

describe.skipIf(!canBrowse)('photos of a station', () => {
  let browser: Browser
  let page: Page
  const root = mkdtempSync(join(tmpdir(), 'aureole-photos-'))
  const folder = join(root, 'day 1')

  const openPhotos = async (station: string) => {
    const unfold = page.getByRole('button', { name: 'Unfold' })
    const find = page.getByPlaceholder('Find a station')
    // The legend folds itself where it finds no room.
    await unfold.or(find).waitFor()
    if (await unfold.isVisible()) await unfold.click()
    await find.fill(station)
    await find.press('Enter')
    await page.locator('.drawer summary', { hasText: 'Photos' }).click()
    await page.getByText('Or drop JPEG').waitFor()
  }
  const saved = () => page.waitForFunction(() => document.documentElement.dataset.saved === 'saved')

  beforeAll(async () => {
    writeFiles(folder)
    writeFileSync(join(root, 'turned.jpg'), bytesOf('turned.jpg'))
    writeFileSync(join(root, 'not.jpg'), 'no picture')
    browser = await openBrowser()
    page = await openEmptyProject(browser, { width: 800, height: 1280 })
    await dropFolder(page, folder)
    await drawn(page)
    await settled(page)
    await page.getByLabel('Look').selectOption('daylight')
  })
  afterAll(async () => {
    await browser?.close()
    rmSync(root, { recursive: true, force: true })
  })

  test('one is added, turned upright; what is none is told of', async () => {
    await openPhotos('RC-0')
    const files = [join(root, 'turned.jpg'), join(root, 'not.jpg')]
    await page.getByLabel('Photos of this station').setInputFiles(files)
    await page.getByText('not.jpg: neither JPEG, PNG nor WebP').waitFor()
    const image = page.locator('.drawer img')
    await image.waitFor()
    const size = await image.evaluate(async (shown) => {
      await (shown as HTMLImageElement).decode()
      return [(shown as HTMLImageElement).naturalWidth, (shown as HTMLImageElement).naturalHeight]
    })
    expect(size).toEqual([48, 64])
    await page
      .getByText('2024-05-07 16:05; looks SW, 224° from magnetic north, declination not stated')
      .waitFor()
  })

  test('caption, declination, scale and spot are marked with keys alone, 44 px and more', async () => {
    await page.getByRole('button', { name: 'Caption, marks of turned.jpg' }).press('Enter')
    const editor = page.getByRole('dialog')
    await editor.getByRole('textbox', { name: 'Caption' }).fill('vein in the east wall')
    await editor.getByLabel('Declination').fill('-3,5')
    await editor.getByRole('button', { name: 'Set the scale' }).press('Enter')
    await editor.getByText('Say how long it is').waitFor()
    await editor.getByLabel('Between them').fill('24')
    await editor.getByRole('button', { name: 'Mark a spot' }).press('Enter')
    await editor.getByLabel(/the probe’s diameter/).fill('20')
    const spot = editor.getByRole('button', { name: /^Spot/ })
    for (let i = 0; i < 5; i++) await spot.press('ArrowUp')
    await editor.getByRole('button', { name: /50 % from the left, 45 % from the top/ }).waitFor()
    const small = await editor.evaluate((dialog) =>
      [...dialog.querySelectorAll('button, select, input, textarea')]
        .map((each) => [each.textContent, each.getBoundingClientRect().height])
        .filter(([, height]) => Number(height) < 44),
    )
    expect(small).toEqual([])
    await editor.getByRole('button', { name: 'Keep', exact: true }).press('Enter')
    // 0.4 of 48 pixels are 240 mm: 600 mm across, of which the bar takes up to three tenths.
    await page.locator('.drawer svg text', { hasText: '10 cm' }).waitFor()
    await page.getByText('looks SW, 220° from true north; spot marked').waitFor()
  })

  test('a photo that came with the scans is proposed, and waits to be confirmed', async () => {
    await page.locator('#step-scans').click()
    await page.keyboard.press('Escape')
    if (!(await page.locator('#panel').isVisible())) await page.locator('#step-scans').click()
    await page.locator('summary', { hasText: 'Photos at no station' }).click()
    await page.getByText('its name fits RC-1').waitFor()
    await page.getByText('1 photo fits no station by name, place or time').waitFor()
    await page.getByText('RC-2 face.heic: a HEIC picture').waitFor()
    await page.getByRole('button', { name: 'Add RC-1 wall.jpg to RC-1' }).click()
    await page.locator('summary', { hasText: /Photos at no station\s*2 photos/ }).waitFor()
    await saved()
  })

  test('they are kept over a reload', async () => {
    await page.reload()
    await drawn(page)
    await settled(page)
    await openPhotos('RC-1')
    await page.locator('.drawer img').waitFor()
    await openPhotos('RC-0')
    await page.locator('.drawer img').waitFor()
    await page.locator('.drawer svg text', { hasText: '10 cm' }).waitFor()
  })

  test('they leave as points, and as pictures without EXIF where asked for', async () => {
    await page.keyboard.press('Escape')
    await page.locator('#step-layers').click()
    await page.getByLabel(/With 2 pictures/).check()
    const download = page.waitForEvent('download')
    await page.getByRole('button', { name: 'Everything as one zip' }).click()
    const files = unzipSync(new Uint8Array(readFileSync(await (await download).path())))
    const text = (name: string) => new TextDecoder().decode(files[name])
    const { features } = JSON.parse(text('photos.geojson')) as {
      features: { geometry: { coordinates: number[] }; properties: Record<string, unknown> }[]
    }
    expect(features.map(({ properties }) => properties.file)).toEqual([
      'photos/turned.jpg',
      'photos/RC-1 wall.jpg',
    ])
    expect(features[0].geometry.coordinates).toEqual([-69.187654, -24.903172])
    expect(features[0].properties).toMatchObject({
      caption: 'vein in the east wall',
      direction: 220,
      north: 'true',
      mm_per_pixel: 12.5,
      spot_x: '24',
      spot_y: '29',
    })
    const head = pictureHead(files['photos/turned.jpg'])
    if (typeof head === 'string') throw new Error(head)
    expect([head.format, head.width, head.height, head.exif]).toEqual(['JPEG', 48, 64, null])
    expect(readExif(head.exif).longitude).toBeNull()
    // Of each there is a copy with what is marked drawn in; the second has its camera's direction.
    expect(features.map(({ properties }) => properties.file_marked)).toEqual([
      'photos/turned marked.jpg',
      'photos/RC-1 wall marked.jpg',
    ])
    const marked = pictureHead(files['photos/turned marked.jpg'])
    if (typeof marked === 'string') throw new Error(marked)
    expect([marked.format, marked.width, marked.height, marked.exif]).toEqual([
      'JPEG',
      48,
      64,
      null,
    ])
    expect(files['photos/turned marked.jpg']).not.toEqual(files['photos/turned.jpg'])
    expect(text('stations.csv')).toContain('turned.jpg')
  })

  test('one is taken out, and Undo brings it back with its picture', async () => {
    await page.locator('#step-layers').click()
    await page.locator('#panel').waitFor({ state: 'detached' })
    // The legend unfolds itself where it has room again.
    await page.getByPlaceholder('Find a station').waitFor()
    await openPhotos('RC-0')
    await page.getByRole('button', { name: 'Take out turned.jpg' }).click()
    await page.locator('.drawer img').waitFor({ state: 'detached' })
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.locator('.drawer img').waitFor()
    expect(errorsOf(page)).toEqual([])
  })
})
