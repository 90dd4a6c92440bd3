/**
 * How fast layers are written, on one thread: a raster of two bands of 4,000 x 4,000 cells beside
 * GDAL (both tiled and deflated with a floating-point predictor and overviews), all layers as a
 * zip beside Python's zipfile at the same level, and the table of 20,000 scans.
 *
 * `npx tsx tests/bench/layers.ts`
 */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { zipLayers } from '../../src/layers/bundle'
import { geotiff } from '../../src/layers/geotiff'
import type { IndexColumn, ScanRow } from '../../src/layers/rows'
import { scansCsv } from '../../src/layers/scans-csv'
import { loadEpsgTable, openCrs, type WorkingCrs } from '../../src/places/crs'
import { seeded } from '../surfaces/scatter'
import { measured, median, speed, type Figure } from './figure'
import { numberIn, runPython } from './python'

const SIDE = 4000
const SCANS = 20_000
const REPEATS = 3

/** A smooth surface with a little noise and nodata outside a disc, as kriging gives them. */
function surfaceLike(seed: number): Float32Array {
  const random = seeded(seed)
  const values = new Float32Array(SIDE * SIDE)
  for (let row = 0; row < SIDE; row++) {
    for (let column = 0; column < SIDE; column++) {
      const inside = Math.hypot(row - SIDE / 2, column - SIDE / 2) < 0.48 * SIDE
      const smooth = 2205 + 8 * Math.sin(row / 300) * Math.cos(column / 410)
      values[row * SIDE + column] = inside ? smooth + 0.01 * random() : NaN
    }
  }
  return values
}

/** Seconds that something takes: the middle of three runs. */
function seconds(run: () => unknown): number {
  const times: number[] = []
  for (let i = 0; i < REPEATS; i++) {
    const start = performance.now()
    run()
    times.push((performance.now() - start) / 1000)
  }
  return median(times)
}

/** Seconds that GDAL takes for the same cells out of a raw file; null where it is not installed. */
function gdalSeconds(folder: string, bands: readonly Float32Array[]): number | null {
  const raw = join(folder, 'raw.img')
  writeFileSync(raw, Buffer.concat(bands.map((band) => Buffer.from(band.buffer))))
  writeFileSync(
    join(folder, 'raw.hdr'),
    `ENVI\nsamples = ${SIDE}\nlines = ${SIDE}\nbands = ${bands.length}\ndata type = 4\ninterleave = bsq\nbyte order = 0\n`,
  )
  const options = ['COMPRESS=DEFLATE', 'PREDICTOR=YES', 'NUM_THREADS=1', 'BLOCKSIZE=256']
  const args = ['-q', '-of', 'COG', '-a_srs', 'EPSG:32719', ...options.flatMap((o) => ['-co', o])]
  const times: number[] = []
  for (let i = 0; i < REPEATS; i++) {
    const start = performance.now()
    const run = spawnSync('gdal_translate', [...args, raw, join(folder, 'peer.tif')])
    if (run.error || run.status !== 0) return null
    times.push((performance.now() - start) / 1000)
  }
  return median(times)
}

const INDICES: readonly IndexColumn[] = ['white mica position', 'alunite position', 'copper'].map(
  (name) => ({ name, unit: 'nm', formula: '1', where: null }),
)

function scanRows(): ScanRow[] {
  const random = seeded(3)
  return Array.from({ length: SCANS }, (_, scan): ScanRow => ({
    scan: `S${scan}`,
    file: `day-${scan % 9}/S${scan}.txt`,
    station: `ST${Math.floor(scan / 3)}`,
    target: 'matrix',
    support: 'outcrop',
    hole: null,
    depth: null,
    longitude: -69 + random() / 20,
    latitude: -25 + random() / 20,
    easting: 480_000 + 4000 * random(),
    northing: 7_250_000 + 3000 * random(),
    elevation: 3000 * random(),
    placedBy: 'table',
    placeError: 3,
    check: 'sound',
    checkReasons: [],
    noise: random() / 500,
    mineral: 'muscovite',
    group: 'white mica',
    share: random(),
    fit: random(),
    doubt: 'white mica or montmorillonite: the 1900 water band cannot decide',
    class: 'long white mica',
    indices: INDICES.map(() => ({ value: 2190 + 30 * random(), error: random() })),
  }))
}

function* rasterFigures(folder: string, crs: WorkingCrs): Iterable<Figure> {
  const bands = [surfaceLike(1), surfaceLike(2)]
  const grid = { west: 480_000, north: 7_250_000, cell: 1, columns: SIDE, rows: SIDE }
  const described = bands.map((values, i) => ({ values, description: `band ${i}`, unit: 'nm' }))
  const ours = seconds(() => geotiff({ title: 'bench', grid, crs, bands: described }))
  const megabytes = (bands.length * 4 * SIDE * SIDE) / 1e6
  const other = gdalSeconds(folder, bands)
  const peer = { name: 'gdal_translate', value: other === null ? null : megabytes / other }
  yield speed(`GeoTIFF of 2 bands of ${SIDE} x ${SIDE}`, megabytes / ours, 'MB/s', 1, peer)
}

/** The room's figures. */
export async function* benchLayers(): AsyncIterable<Figure> {
  const folder = mkdtempSync(join(tmpdir(), 'layers-bench-'))
  try {
    await loadEpsgTable()
    const crs = openCrs('EPSG:32719')
    yield* rasterFigures(folder, crs)
    const rows = scanRows()
    const table = scansCsv(crs, INDICES, rows)
    const written = seconds(() => scansCsv(crs, INDICES, rows))
    yield measured('scans.csv', table.length / 1e6 / written, 'MB/s', 1)
    yield measured(`scans.csv of ${SCANS} scans`, written, 's', 1)
    const path = join(folder, 'scans.csv')
    writeFileSync(path, table)
    const zipped = seconds(() => zipLayers({ 'scans.csv': table }))
    const told = numberIn(runPython('layers.py', [path]), 'seconds')
    const peer = { name: 'zipfile', value: told === null ? null : table.length / 1e6 / told }
    yield speed('zip of scans.csv', table.length / 1e6 / zipped, 'MB/s', 1, peer)
  } finally {
    rmSync(folder, { recursive: true })
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href)
  for await (const found of benchLayers()) console.log(JSON.stringify(found))
