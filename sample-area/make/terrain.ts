/** The invented ground: a silica-capped hill over a desert plain, cut by dry valleys. */
import { creep, erode, type HeightGrid } from './erosion'
import { CENTRE, distanceIndex, silicaIndex } from './geology'
import { AREA, type GroundPoint } from './place'
import { frameOver, sampleFrame, type Frame } from './rasters'
import { roughness } from './roughness'

/** Metres of ground beyond the area on each side. */
export const MARGIN = 500
/** Metres. */
export const CELL = 20

const FRAME: Frame = frameOver(MARGIN, CELL)
let made: HeightGrid | undefined

/** The heights of the ground, metres above the sea, made once. */
export function heightGrid(): HeightGrid {
  made ??= carve()
  return made
}

/** Height in metres above the sea at a place within the margin, linear between cells. */
export function heightAt({ x, y }: GroundPoint): number {
  const { columns, rows, heights } = heightGrid()
  const column = Math.min(columns - 1.001, Math.max(0, (x - FRAME.west) / CELL - 0.5))
  const row = Math.min(rows - 1.001, Math.max(0, (FRAME.north - y) / CELL - 0.5))
  const [c, r] = [Math.floor(column), Math.floor(row)]
  const [u, v] = [column - c, row - r]
  const at = r * columns + c
  return (
    (1 - v) * ((1 - u) * heights[at] + u * heights[at + 1]) +
    v * ((1 - u) * heights[at + columns] + u * heights[at + columns + 1])
  )
}

function carve(): HeightGrid {
  const { columns, rows } = FRAME
  const grid: HeightGrid = {
    columns,
    rows,
    cell: CELL,
    heights: Float64Array.from(sampleFrame(FRAME, uncutHeight)),
  }
  const strength = Float64Array.from(sampleFrame(FRAME, softness))
  erode(grid, strength, 16)
  creep(grid, 0.5, 2)
  return grid
}

/** The surface before water ran over it. */
function uncutHeight(point: GroundPoint): number {
  const { x, y } = point
  const east = (x - AREA.west) / 1000
  const north = (y - AREA.south) / 1000
  const r = Math.hypot(x - CENTRE.x, (y - CENTRE.y) * 1.15)
  const bulk = 300 * Math.exp(-((r / 950) ** 2))
  const rise = roughness(x, y, 1500, 5, 7) + 0.15
  const hills = rise > 0 ? rise : 0.45 * rise
  const slope = 34 * east + 46 * north
  const relief = 260 * hills + 16 * roughness(x, y, 180, 3, 11)
  return 2960 + slope + bulk + (1 - 0.93 * plainPart(point)) * relief
}

/** 1 on the gravel plain in the south-west corner, 0 in the hills. */
function plainPart({ x, y }: GroundPoint): number {
  const r = Math.hypot(x - AREA.west, y - AREA.south) / 1000
  return 1 / (1 + Math.exp((r - 1.15) * 7))
}

/** How easily the ground is cut: silica stands, gravel and clay go. */
function softness(point: GroundPoint): number {
  const rock = 1 + 0.5 * roughness(point.x, point.y, 420, 2, 23)
  if (silicaIndex(point) < 0.22) return 0.002 * rock
  const soft = distanceIndex(point) < 0.55 ? 0.014 : 0.022
  return soft * rock * (1 - 0.9 * plainPart(point))
}
