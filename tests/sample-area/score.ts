/** Scores what `npm run map` wrote for the sample area against the truth that stands beside it. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fromArrayBuffer } from 'geotiff'
import { rowsOf, SAMPLE_AREA, truthOfScans, zoneCodes, type Row } from './truth'

/** A scan's row in `scans.csv` beside its truth. */
interface Pair {
  readonly truth: Row
  readonly found: Row
}

/** Each truth with the row of the same scan; both tables name the scan and its file. */
function pairScans(scansCsv: string, truths: readonly Row[] = truthOfScans()): Pair[] {
  const rows = rowsOf(scansCsv)
  const byFile = new Map<string, Row[]>()
  for (const row of rows) {
    const key = row.file.replace(/^.*?scans\//, '')
    byFile.set(key, [...(byFile.get(key) ?? []), row])
  }
  return truths.flatMap((truth) => {
    const found = byFile.get(truth.file)?.find(({ scan }) => scan === truth.scan)
    return found ? [{ truth, found }] : []
  })
}

/** How well minerals were named. */
export interface MineralScore {
  /** Scans that were scored: sound in truth, or those also called sound. */
  readonly scans: number
  readonly right: number
  readonly rightGroup: number
  /** right / scans. */
  readonly accuracy: number
  readonly groupAccuracy: number
  /** `truth → named`, how often, the commonest first. */
  readonly wrong: readonly (readonly [string, number])[]
}

/**
 * The main mineral of sound scans. A name of the same solid-solution series is right
 * (muscovite, illite and paragonite; clinochlore and chamosite).
 *
 * @param calledSound only the scans that the program itself called sound
 */
export function scoreMinerals(scansCsv: string, calledSound = false): MineralScore {
  const pairs = pairScans(scansCsv).filter(
    ({ truth, found }) => truth.sound === 'yes' && (!calledSound || found.check === 'sound'),
  )
  const right = pairs.filter(({ truth, found }) =>
    truth.accepted.split(';').includes(found.mineral),
  )
  const rightGroup = pairs.filter(({ truth, found }) =>
    truth.group === '' ? found.mineral === truth.main : found.group === truth.group,
  )
  const wrong = new Map<string, number>()
  for (const { truth, found } of pairs) {
    if (truth.accepted.split(';').includes(found.mineral)) continue
    const key = `${truth.main} → ${found.mineral}`
    wrong.set(key, (wrong.get(key) ?? 0) + 1)
  }
  return {
    scans: pairs.length,
    right: right.length,
    rightGroup: rightGroup.length,
    accuracy: right.length / pairs.length,
    groupAccuracy: rightGroup.length / pairs.length,
    wrong: [...wrong].sort((a, b) => b[1] - a[1]),
  }
}

/** How the check dealt with the faults, by fault, and with what was sound. */
export interface CheckScore {
  /** For each fault: scans that carry it, and how many were doubted or set aside. */
  readonly faults: Readonly<Record<string, { scans: number; doubted: number }>>
  /** Scans without a fault, and how many of them were doubted all the same. */
  readonly sound: { readonly scans: number; readonly doubted: number }
}

/** Which of the faults put in on purpose the check doubted. */
export function scoreChecks(scansCsv: string): CheckScore {
  const faults: Record<string, { scans: number; doubted: number }> = {}
  const sound = { scans: 0, doubted: 0 }
  for (const { truth, found } of pairScans(scansCsv)) {
    const doubted = found.check === 'sound' ? 0 : 1
    if (truth.sound === 'yes') {
      sound.scans++
      sound.doubted += doubted
    }
    for (const fault of truth.faults.split(';').filter((name) => name !== '')) {
      faults[fault] ??= { scans: 0, doubted: 0 }
      faults[fault].scans++
      faults[fault].doubted += doubted
    }
  }
  return { faults, sound }
}

/** How far scans were placed from where they were taken, metres. */
export interface PlaceScore {
  readonly placed: number
  readonly unplaced: readonly string[]
  readonly median: number
  readonly largest: number
}

/** Distances in plan between `scans.csv` (in the area's CRS) and the truth. */
export function scorePlaces(scansCsv: string): PlaceScore {
  const distances: number[] = []
  const unplaced: string[] = []
  for (const { truth, found } of pairScans(scansCsv)) {
    if (found.easting === '') unplaced.push(truth.scan)
    else {
      distances.push(
        Math.hypot(
          Number(found.easting) - Number(truth.easting),
          Number(found.northing) - Number(truth.northing),
        ),
      )
    }
  }
  distances.sort((a, b) => a - b)
  return {
    placed: distances.length,
    unplaced,
    median: distances[Math.floor(distances.length / 2)] ?? NaN,
    largest: distances[distances.length - 1] ?? NaN,
  }
}

/** How well the white mica surface matches the true Al–OH position. */
export interface MicaScore {
  /** Cells drawn where there is white mica. */
  readonly cells: number
  /** nm. */
  readonly rmse: number
  /** Mean of estimate less truth, nm. */
  readonly bias: number
  /** Cells drawn over the advanced argillic core and the silica in it. */
  readonly overCore: number
  /** Cells drawn where there is no white mica. */
  readonly overNone: number
  /** Part of the cells with white mica that is drawn. */
  readonly covered: number
}

/** The zones over which no white mica may be drawn. */
const CORE = ['silica', 'alunite', 'pyrophyllite', 'dickite'] as const

interface Band {
  readonly west: number
  readonly north: number
  readonly cell: number
  readonly columns: number
  readonly rows: number
  readonly values: ArrayLike<number>
}

/** Scores a white mica surface (GeoTIFF, band 1, nodata −9999) in the area's CRS. */
export async function scoreMica(surfaceFile: string): Promise<MicaScore> {
  const surface = await readBand(surfaceFile)
  const truth = await readBand(join(SAMPLE_AREA, 'truth/white-mica.tif'))
  const zones = await readBand(join(SAMPLE_AREA, 'truth/zones.tif'))
  const codes = zoneCodes()
  const core = new Set(CORE.map((zone) => codes.get(zone)))
  const errors: number[] = []
  const count = { overCore: 0, overNone: 0 }
  for (let i = 0; i < surface.columns * surface.rows; i++) {
    const estimate = surface.values[i]
    if (!Number.isFinite(estimate) || estimate === -9999) continue
    const x = surface.west + ((i % surface.columns) + 0.5) * surface.cell
    const y = surface.north - (Math.floor(i / surface.columns) + 0.5) * surface.cell
    if (core.has(valueAt(zones, x, y))) count.overCore++
    const position = valueAt(truth, x, y)
    if (Number.isFinite(position)) errors.push(estimate - position)
    else if (inside(truth, x, y)) count.overNone++
  }
  const withMica = Array.from(truth.values).filter(Number.isFinite).length
  return {
    cells: errors.length,
    rmse: Math.sqrt(mean(errors.map((error) => error * error))),
    bias: mean(errors),
    ...count,
    covered: (errors.length * surface.cell ** 2) / (withMica * truth.cell ** 2),
  }
}

async function readBand(file: string): Promise<Band> {
  const bytes = readFileSync(file)
  const tiff = await fromArrayBuffer(new Uint8Array(bytes).buffer)
  const image = await tiff.getImage()
  const [west, north] = image.getOrigin()
  const band = await image.readRasters({ samples: [0], interleave: true })
  return {
    west,
    north,
    cell: image.getResolution()[0],
    columns: image.getWidth(),
    rows: image.getHeight(),
    values: band,
  }
}

function inside(band: Band, x: number, y: number): boolean {
  return Number.isInteger(cellAt(band, x, y))
}

function valueAt(band: Band, x: number, y: number): number {
  const cell = cellAt(band, x, y)
  return Number.isInteger(cell) ? band.values[cell] : NaN
}

/** The index of the cell that holds a point; NaN outside. */
function cellAt(band: Band, x: number, y: number): number {
  const column = Math.floor((x - band.west) / band.cell)
  const row = Math.floor((band.north - y) / band.cell)
  const within = column >= 0 && column < band.columns && row >= 0 && row < band.rows
  return within ? row * band.columns + column : NaN
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
