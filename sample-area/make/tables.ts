/** The tables and the track that place the scans. */
import { chanceFor } from './chance'
import { distanceIndex } from './geology'
import { HOLES } from './holes'
import { instant } from './layouts'
import { lithologyAt } from './outlines'
import { AREA_NAME, toDegrees, type GroundPoint } from './place'
import type { Spot } from './sampling'
import { heightAt } from './terrain'
import { secondsAtStation, stationsOf, WALKS } from './walks'

/** Walks whose scans find their place by their name in the sample table. */
const BY_NAME = 'CDEF'
/** Assays below this are written as less than it. */
const DETECTION = 5

interface Sample {
  readonly name: string
  readonly point: GroundPoint
  readonly support: string
  readonly target: string
  readonly lithology: string
}

/** `samples.csv`: stations of four days, and soil samples that no scan was taken of. */
export function sampleTable(): string {
  const walked = WALKS.filter(({ letter }) => BY_NAME.includes(letter))
    .flatMap(stationsOf)
    .map((spot) => ({ ...spot, lithology: lithologyAt(spot.point) }))
  const rows = [...walked, ...soils()].map(sampleRow)
  const head = 'SampleID,East,North,Elevation,Support,Target,Lithology,Cu_ppm,Au_ppb,As_ppm'
  return csv([head, ...rows])
}

function sampleRow({ name, point, support, target, lithology }: Sample): string {
  const [copper, gold, arsenic] = assays(name, point, support)
  return [
    name,
    point.x.toFixed(1),
    point.y.toFixed(1),
    heightAt(point).toFixed(1),
    support,
    target,
    lithology,
    detected(copper, 0),
    detected(gold, 0),
    detected(arsenic, 0),
  ].join(',')
}

/** A coarse soil grid: over the gravel, between the walks, and across the fault. */
function soils(): Sample[] {
  const chance = chanceFor('soils')
  const lines = [
    ...grid(471160, 7244140, 4, 3, 240),
    ...grid(471400, 7245380, 8, 1, 420),
    ...grid(471500, 7246180, 8, 1, 400),
    ...grid(473660, 7244740, 6, 3, 170),
  ]
  return lines.map((on, i) => {
    const point = {
      x: Math.round((on.x + chance.between(-25, 25)) * 10) / 10,
      y: Math.round((on.y + chance.between(-25, 25)) * 10) / 10,
    }
    const name = `S${String(i + 1).padStart(3, '0')}`
    return { name, point, support: 'soil', target: 'matrix', lithology: 'soil' }
  })
}

function grid(
  west: number,
  south: number,
  columns: number,
  rows: number,
  step: number,
): GroundPoint[] {
  return Array.from({ length: columns * rows }, (_, i) => ({
    x: west + (i % columns) * step,
    y: south + Math.floor(i / columns) * step,
  }))
}

/** Copper (ppm) over the stock, gold (ppb) and arsenic (ppm) in the lithocap; lognormal scatter. */
function assays(name: string, point: GroundPoint, support: string): [number, number, number] {
  const chance = chanceFor(`assay ${name}`)
  const overStock = Math.hypot(point.x - 473390, point.y - 7245330) / 560
  const d = distanceIndex(point)
  const diluted = support === 'soil' ? (lithologyAt(point) === 'gravel' ? 0.12 : 0.55) : 1
  const scatter = (spread: number): number => diluted * Math.exp(spread * chance.normal())
  return [
    (45 + 1250 * Math.exp(-(overStock ** 2))) * scatter(0.4),
    (4 + 420 * Math.exp(-((d / 0.32) ** 2))) * scatter(0.7),
    (9 + 260 * Math.exp(-((d / 0.45) ** 2))) * scatter(0.5),
  ]
}

function detected(value: number, decimals: number): string {
  return value < DETECTION ? `<${DETECTION}` : value.toFixed(decimals)
}

/** `collars.csv`: where each hole starts. */
export function collarTable(): string {
  const rows = HOLES.map(({ name, collar, length }) =>
    [name, collar.x.toFixed(1), collar.y.toFixed(1), heightAt(collar).toFixed(1), length].join(','),
  )
  return csv(['Hole,East,North,Elevation,Length', ...rows])
}

/** `surveys.csv`: depth along each hole, azimuth and dip in degrees, dip negative downward. */
export function surveyTable(): string {
  const rows = HOLES.flatMap(({ name, surveys }) =>
    surveys.map(({ depth, azimuth, dip }) => [name, depth, azimuth, dip].join(',')),
  )
  return csv(['Hole,Depth,Azimuth,Dip', ...rows])
}

/** RFC 4180. */
function csv(rows: readonly string[]): string {
  return rows.join('\r\n') + '\r\n'
}

/** Seconds between the track's fixes. */
const FIX_SECONDS = 20

/** `day1.gpx`: the first day's track (GPX 1.1), a fix every 20 s, its error a few metres. */
export function firstDayTrack(): string {
  const walk = WALKS[0]
  const spots = stationsOf(walk)
  const chance = chanceFor('track')
  let [eastError, northError] = [0, 0]
  const points: string[] = []
  const end = (spots[spots.length - 1].arrival ?? 0) + secondsAtStation() + 120
  for (let time = walk.start; time <= end; time += FIX_SECONDS) {
    eastError = 0.9 * eastError + 0.6 * chance.normal()
    northError = 0.9 * northError + 0.6 * chance.normal()
    const on = whereAt(spots, time)
    const [longitude, latitude] = toDegrees({ x: on.x + eastError, y: on.y + northError })
    points.push(
      `<trkpt lat="${latitude.toFixed(7)}" lon="${longitude.toFixed(7)}">` +
        `<ele>${heightAt(on).toFixed(1)}</ele><time>${instant(time)}</time></trkpt>`,
    )
  }
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<gpx version="1.1" creator="an invented receiver" xmlns="http://www.topografix.com/GPX/1/1">',
    `<trk><name>${AREA_NAME} day 1, invented</name><trkseg>`,
    ...points,
    '</trkseg></trk>',
    '</gpx>',
    '',
  ].join('\n')
}

/** Where the geologist was: at a station, or on the straight way between two. */
function whereAt(spots: readonly Spot[], time: number): GroundPoint {
  for (let i = 0; i < spots.length; i++) {
    const arrival = spots[i].arrival ?? 0
    if (time < arrival) {
      const left = i === 0 ? arrival - 900 : (spots[i - 1].arrival ?? 0) + secondsAtStation()
      const from =
        i === 0 ? { x: spots[0].point.x - 420, y: spots[0].point.y - 90 } : spots[i - 1].point
      const t = (time - left) / (arrival - left)
      const to = spots[i].point
      return { x: from.x + t * (to.x - from.x), y: from.y + t * (to.y - from.y) }
    }
    if (time <= arrival + secondsAtStation()) return spots[i].point
  }
  return spots[spots.length - 1].point
}
