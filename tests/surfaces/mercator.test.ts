import proj4 from 'proj4'
import { expect, test } from 'vitest'
import { warpToMercator } from '../../src/surfaces/mercator'
import type { Grid } from '../../src/surfaces/model'

const UTM = '+proj=utm +zone=19 +south +datum=WGS84 +units=m +no_defs'
const projection = proj4(UTM)
const toGeographic = (x: number, y: number) => projection.inverse([x, y]) as [number, number]
const fromGeographic = (lon: number, lat: number) =>
  projection.forward([lon, lat]) as [number, number]

/** A large grid at the zone's edge, where the planes are turned against each other. */
const GRID: Grid = { west: 700_000, north: 7_400_000, cell: 250, columns: 300, rows: 200 }
const plane = (x: number, y: number) => (x - 700_000) / 1000 + (y - 7_350_000) / 500
const values = Float64Array.from({ length: 60_000 }, (_, i) =>
  plane(GRID.west + ((i % 300) + 0.5) * 250, GRID.north - (Math.floor(i / 300) + 0.5) * 250),
)

test('a plane comes back at every pixel through an upright Mercator rectangle', () => {
  const warped = warpToMercator(GRID, values, toGeographic, fromGeographic, 400)
  expect(Math.max(warped.width, warped.height)).toBeLessThanOrEqual(400)
  const [west, south, east, north] = warped.bounds
  // proj4's own Web Mercator says where a pixel lies.
  const mercator = proj4('EPSG:3857')
  const [left, top] = mercator.forward([west, north])
  const [right, bottom] = mercator.forward([east, south])
  expect((right - left) / warped.width / ((top - bottom) / warped.height)).toBeCloseTo(1, 6)
  let seen = 0
  for (let row = 0; row < warped.height; row++) {
    for (let column = 0; column < warped.width; column++) {
      const place = mercator.inverse([
        left + ((right - left) * (column + 0.5)) / warped.width,
        top + ((bottom - top) * (row + 0.5)) / warped.height,
      ])
      const [x, y] = fromGeographic(place[0], place[1])
      const inner =
        x > GRID.west + 130 &&
        x < GRID.west + 74_870 &&
        y < GRID.north - 130 &&
        y > GRID.north - 49_870
      const outer =
        x < GRID.west - 20 ||
        x > GRID.west + 75_020 ||
        y > GRID.north + 20 ||
        y < GRID.north - 50_020
      const value = warped.values[row * warped.width + column]
      if (inner) expect(Math.abs(value - plane(x, y))).toBeLessThan(0.05)
      if (inner) seen++
      if (outer) expect(value).toBeNaN()
    }
  }
  expect(seen).toBeGreaterThan(10_000)
})

test('gaps stay gaps and do not eat into their neighbours', () => {
  const holed = values.slice()
  for (let row = 80; row < 120; row++) holed.fill(NaN, row * 300 + 100, row * 300 + 200)
  const warped = warpToMercator(GRID, holed, toGeographic, fromGeographic, 400)
  const whole = warpToMercator(GRID, values, toGeographic, fromGeographic, 400)
  let lost = 0
  let kept = 0
  whole.values.forEach((value, i) => {
    if (Number.isNaN(value)) return
    kept++
    if (Number.isNaN(warped.values[i])) lost++
  })
  expect(lost / kept).toBeCloseTo((40 * 100) / 60_000, 2)
})
