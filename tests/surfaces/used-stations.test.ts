/** Stations that a surface uses at a place. */
import { describe, expect, test } from 'vitest'
import { planeOf } from '../../src/surfaces/variogram-models'
import { UsedStations } from '../../src/surfaces/used-stations'
import { scatter } from './scatter'

const points = scatter(200, 9)
const variogram = {
  nugget: 0.1,
  structures: [{ model: 'spherical' as const, sill: 1, range: 300 }],
  azimuth: 30,
  ratio: 0.3,
}
const [x, y] = [points.x[17] + 3, points.y[17] - 5]

/** Numbers of all stations, the nearest first, in the plane where the model is isotropic. */
function byDistance(): number[] {
  const { uu, uv, vu, vv } = planeOf(variogram)
  const squared = Array.from(points.x, (px, i) => {
    const [dx, dy] = [px - x, points.y[i] - y]
    return (uu * dx + uv * dy) ** 2 + (vu * dx + vv * dy) ** 2
  })
  return squared.map((_, i) => i).sort((a, b) => squared[a] - squared[b])
}
const sorted = (list: readonly number[] | null) => [...(list ?? [])].sort((a, b) => a - b)

describe('the stations used at a place', () => {
  test('are the nearest where distance is measured, which is not always the plane ground', () => {
    const used = new UsedStations({ points, variogram, neighbours: 12, choice: null }).at(x, y)
    expect(sorted(used)).toEqual(sorted(byDistance().slice(0, 12)))
    const plain = new UsedStations({ points, variogram: null, neighbours: 12, choice: null })
    expect(sorted(plain.at(x, y))).not.toEqual(sorted(used))
  })

  test('are all of them where no number is set', () => {
    const all = new UsedStations({ points, variogram, neighbours: null, choice: null })
    expect(all.at(x, y)).toBeNull()
  })

  test('keep to octants and barriers', () => {
    const plain = { ...variogram, azimuth: undefined, ratio: undefined }
    const choice = (barriers: Float64Array | null) => ({
      barriers,
      sectors: { count: 8 as const, most: 2 },
      neighbours: 16,
    })
    const open = new UsedStations({
      points,
      variogram: plain,
      neighbours: 16,
      choice: choice(null),
    }).at(x, y)
    const octants = new Map<number, number>()
    for (const i of open ?? []) {
      const angle = Math.atan2(points.y[i] - y, points.x[i] - x) + 2 * Math.PI
      const octant = Math.floor(angle / (Math.PI / 4)) % 8
      octants.set(octant, (octants.get(octant) ?? 0) + 1)
    }
    expect(Math.max(...octants.values())).toBe(2)
    const wall = Float64Array.of(x + 20, y - 1e5, x + 20, y + 1e5)
    const west = new UsedStations({
      points,
      variogram: plain,
      neighbours: 16,
      choice: choice(wall),
    }).at(x, y)
    expect(west?.length).toBeGreaterThan(2)
    for (const i of west ?? []) expect(points.x[i]).toBeLessThan(x + 20)
  })
})
