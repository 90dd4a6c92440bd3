/** The invented ground: a silica-capped hill over a desert plain, with gullies. */
import { CENTRE, distanceIndex } from './geology'
import { AREA, type GroundPoint } from './place'

/** Height in metres above the sea; smooth, so that slopes are walkable but for the hill's flanks. */
export function heightAt({ x, y }: GroundPoint): number {
  const east = (x - AREA.west) / 1000
  const north = (y - AREA.south) / 1000
  const r = Math.hypot(x - CENTRE.x, y - CENTRE.y)
  const hill = 215 * Math.exp(-((r / 620) ** 2)) + 120 * Math.exp(-((r / 1400) ** 2))
  const cap = 45 / (1 + Math.exp((distanceIndex({ x, y }) - 0.2) * 26))
  const ridge = 85 * Math.exp(-(((north - 2.4 - 0.35 * Math.sin(east * 1.4)) / 0.28) ** 2))
  const plain = 22 * east + 16 * north
  return 2985 + plain + hill + cap + ridge + gullies(x, y) + roughness(x, y)
}

function gullies(x: number, y: number): number {
  const bearing = Math.atan2(x - CENTRE.x, y - CENTRE.y)
  const r = Math.hypot(x - CENTRE.x, y - CENTRE.y)
  const winding = bearing * 5 + r / 420 + 0.7 * Math.sin(r / 210)
  const incision = 1 - Math.abs(Math.sin(winding))
  return -34 * incision ** 4 * Math.exp(-(((r - 700) / 620) ** 2))
}

function roughness(x: number, y: number): number {
  return (
    7 * Math.sin(x / 140 + 1.1) * Math.sin(y / 165 + 0.4) +
    3.2 * Math.sin((x + 1.7 * y) / 74) * Math.cos((1.3 * x - y) / 91) +
    1.1 * Math.sin(x / 31 + y / 47)
  )
}
