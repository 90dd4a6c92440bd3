/** Stations chosen block by block, against asking every station for every node. */
import { expect, test } from 'vitest'
import { NeighbourChooser, placedBlock } from '../../src/surfaces/chosen-neighbours'
import { scatter, seeded } from './scatter'

test('in blocks beside a winding fault is what asking every station for every node gives', () => {
  const random = seeded(3)
  const points = scatter(300, 1000, 9)
  const corners = Array.from({ length: 41 }, (_, i) => [
    150 + 17 * i + 6 * random(),
    500 + 200 * Math.sin(i / 5) + 30 * random(),
  ])
  const pieces = corners.slice(1).map((corner, i) => [...corners[i], ...corner])
  const barriers = Float64Array.from(pieces.flat())
  const side = (ax: number, ay: number, bx: number, by: number, cx: number, cy: number) =>
    (bx - ax) * (cy - ay) - (by - ay) * (cx - ax) > 0
  const crosses = (x: number, y: number, s: number) =>
    pieces.some(([ax, ay, bx, by]) => {
      const [px, py] = [points.x[s], points.y[s]]
      return (
        side(x, y, px, py, ax, ay) !== side(x, y, px, py, bx, by) &&
        side(ax, ay, bx, by, x, y) !== side(ax, ay, bx, by, px, py)
      )
    })
  const places = { x: points.x, y: points.y, u: points.x, v: points.y }
  for (const sectors of [null, { count: 8 as const, most: 2 }]) {
    const choice = { barriers, sectors, neighbours: 12 }
    const chooser = new NeighbourChooser(places, choice)
    let hidden = 0
    for (const [west, south, step] of [
      [320, 520, 9],
      [700, 250, 4],
      [30, 900, 12],
      [480, 380, 25],
    ]) {
      const block = placedBlock(64)
      for (; block.count < 64; block.count++) {
        const at = block.count
        block.x[at] = block.u[at] = west + step * (at % 8)
        block.y[at] = block.v[at] = south + step * Math.floor(at / 8)
        block.target[at] = at
      }
      const chosen = new Map<number, string>()
      chooser.visit(block, { least: 1, reach: Infinity }, (sets, nodes) => {
        const members = new Int32Array(sets.candidateCount)
        for (let set = 0; set < sets.setCount; set++) {
          const count = sets.membersOf(set, members)
          const names = Array.from(members.subarray(0, count), (c) => sets.candidates[c]).join()
          for (let n = sets.starts[set]; n < sets.starts[set + 1]; n++)
            chosen.set(nodes.target[sets.nodes[n]], names)
        }
      })
      for (let at = 0; at < 64; at++) {
        const [x, y] = [block.x[at], block.y[at]]
        const taken = new Map<number, number>()
        const expected = Array.from(points.x, (_, s) => s)
          .sort(
            (a, b) =>
              Math.hypot(points.x[a] - x, points.y[a] - y) -
              Math.hypot(points.x[b] - x, points.y[b] - y),
          )
          .filter((s, rank) => {
            if (crosses(x, y, s)) {
              if (rank < 12) hidden++
              return false
            }
            if (!sectors) return true
            const turn = Math.atan2(points.y[s] - y, points.x[s] - x) / (2 * Math.PI)
            const octant = Math.floor(8 * (turn + 1)) % 8
            taken.set(octant, (taken.get(octant) ?? 0) + 1)
            return (taken.get(octant) ?? 0) <= sectors.most
          })
          .slice(0, 12)
        expect(chosen.get(at)).toBe(expected.sort((a, b) => a - b).join())
      }
    }
    expect(hidden).toBeGreaterThan(200)
  }
})
