/** Natural neighbours: against areas of SciPy's Voronoi cells, and by what they must give back. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { inCircle, triangulate } from '../../src/surfaces/delaunay'
import {
  naturalNeighbourAt,
  naturalNeighbourLeftOut,
  naturalNeighbours,
} from '../../src/surfaces/natural-neighbour'
import type { Points } from '../../src/surfaces/model'
import { scatter, seeded } from './scatter'

interface Fixture {
  readonly stations: Record<'x' | 'y' | 'value', number[]>
  readonly targets: Record<'x' | 'y', number[]>
  readonly estimate: number[]
}
const fixture = JSON.parse(
  readFileSync(new URL('natural-neighbour.json', import.meta.url), 'utf8'),
) as Fixture
const column = (values: number[]) => Float64Array.from(values)
const STATIONS: Points = {
  x: column(fixture.stations.x),
  y: column(fixture.stations.y),
  value: column(fixture.stations.value),
}

/** Points of a lattice, whose circles hold four points each. */
function lattice(side: number, value: (x: number, y: number) => number): Points {
  const x = Float64Array.from({ length: side * side }, (_, i) => i % side)
  const y = Float64Array.from({ length: side * side }, (_, i) => Math.floor(i / side))
  return { x, y, value: x.map((east, i) => value(east, y[i])) }
}

describe('a triangulation', () => {
  test('has no point in any circle, and all of the hull’s area', () => {
    const points = [scatter(300, 1), scatter(200, 5000, 7), lattice(9, () => 0)]
    for (const { x, y } of points) {
      const mesh = triangulate(x, y)
      if (!mesh) throw new Error('no triangles')
      const { from } = mesh
      let most = 0
      for (let t = 0; t < from.length; t += 3)
        for (let p = 0; p < x.length; p++) {
          const power = inCircle(mesh, from[t], from[t + 1], from[t + 2], mesh.x[p], mesh.y[p])
          most = Math.max(most, power)
        }
      expect(most).toBeLessThan(1e-15)
      mesh.twin.forEach((twin, edge) => {
        if (twin >= 0) expect(mesh.twin[twin]).toBe(edge)
      })
    }
    // Euler: a lattice of 9 by 9 has 2 · 64 triangles.
    expect(triangulate(points[2].x, points[2].y)?.from.length).toBe(3 * 128)
  })

  test('is none on a line', () => {
    const t = Float64Array.of(0, 1, 2, 5, 9)
    expect(triangulate(t, t)).toBeNull()
    expect(() => naturalNeighbours({ x: t, y: t, value: t })).toThrow('lie on a line')
  })
})

describe('natural neighbours', () => {
  test('weigh by the areas that SciPy’s Voronoi cells lose', () => {
    const targets = { x: column(fixture.targets.x), y: column(fixture.targets.y) }
    const found = naturalNeighbourAt(STATIONS, targets)
    fixture.estimate.forEach((expected, i) => expect(found[i]).toBeCloseTo(expected, 8))
  })

  test('give back a linear function, on a lattice and along the hull too', () => {
    const plane = (x: number, y: number) => 3 - 2 * x + 0.5 * y
    const random = seeded(2)
    const even = lattice(8, plane)
    const x = Float64Array.from({ length: 400 }, (_, i) => (i < 200 ? 7 * random() : (i % 57) / 8))
    const y = Float64Array.from({ length: 400 }, (_, i) =>
      i < 200 ? 7 * random() : Math.min(7, Math.floor(i / 40) / 1),
    )
    naturalNeighbourAt(even, { x, y }).forEach((z, i) =>
      expect(z).toBeCloseTo(plane(x[i], Math.min(7, y[i])), 9),
    )
    const uneven = scatter(150, 2000, 4)
    const tilted = { ...uneven, value: uneven.x.map((e, i) => plane(e, uneven.y[i])) }
    const inside = { x: x.map((v) => 300 + 200 * v), y: y.map((v) => 300 + 180 * v) }
    naturalNeighbourAt(tilted, inside).forEach((z, i) =>
      expect(z).toBeCloseTo(plane(inside.x[i], inside.y[i]), 7),
    )
  })

  test('honour stations, end at the hull, and stay between the least and largest value', () => {
    const points = scatter(80, 1000)
    expect([...naturalNeighbourAt(points, points)]).toEqual([...points.value])
    const outside = { x: Float64Array.of(-50, 500, 1200), y: Float64Array.of(500, 1300, 1200) }
    expect([...naturalNeighbourAt(points, outside)].every(Number.isNaN)).toBe(true)
    const [low, high] = [Math.min(...points.value), Math.max(...points.value)]
    const grid = { west: 0, north: 1000, cell: 20, columns: 50, rows: 50 }
    const rows = naturalNeighbours(points).rows(grid, [0, 50])
    const drawn = rows.filter((z) => !Number.isNaN(z))
    expect(drawn.length).toBeGreaterThan(2000)
    for (const z of drawn) expect(z >= low - 1e-9 && z <= high + 1e-9).toBe(true)
  })

  test('left out, are what the others alone give', () => {
    const points = scatter(60, 1000, 3)
    const left = naturalNeighbourLeftOut(points)
    let inner = 0
    for (let i = 0; i < 60; i++) {
      const others = (values: Float64Array) => values.filter((_, k) => k !== i)
      const alone = naturalNeighbourAt(
        { x: others(points.x), y: others(points.y), value: others(points.value) },
        { x: points.x.slice(i, i + 1), y: points.y.slice(i, i + 1) },
      )[0]
      if (!Number.isNaN(alone)) inner++
      if (Number.isNaN(alone)) expect(left[i]).toBeNaN()
      else expect(left[i]).toBeCloseTo(alone, 9)
    }
    expect(inner).toBeGreaterThan(40)
  })

  test('are the same in whatever order places are asked for', () => {
    const field = naturalNeighbours(scatter(100, 1000))
    const places = scatter(200, 900, 8)
    const forth = Array.from(places.x, (x, i) => field.at(x, places.y[i]))
    const back = Array.from(places.x, (_, i) => field.at(places.x[199 - i], places.y[199 - i]))
    expect(back.reverse()).toEqual(forth)
  })
})
