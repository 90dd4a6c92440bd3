/** Parts of tiles that a worker had no time for. */
import { expect, test } from 'vitest'
import type { Pool } from '../../src/jobs/pool'
import { computeInTiles } from '../../src/project/surface-tiles'
import { planSurface } from '../../src/surfaces/compute'
import { computeSurface, computeTile } from '../../src/surfaces/compute-tile'
import { halvesOf, type TilesDone } from '../../src/surfaces/tiles'
import type { TileInput } from '../../src/jobs/tasks'
import { scatter } from '../surfaces/scatter'

test('are asked for before all that waits, coarse ones too, and end in the same bytes', async () => {
  const rule = { name: 's', value: 'v', method: 'kriging' as const, cell: 6, neighbours: 12 }
  const plan = planSurface(rule, scatter(60, 1000))
  const asked: { readonly coarse: boolean; readonly urgent: boolean }[] = []
  /** Half of every tile that is asked for at first. */
  const half = ({ part, grid }: TileInput, urgent: boolean): TilesDone => {
    const halves = urgent ? null : halvesOf(part)
    return halves
      ? { tiles: [computeTile(plan, halves[0], grid)], left: [halves[1]] }
      : { tiles: [computeTile(plan, part, grid)], left: [] }
  }
  const pool: Pool = {
    size: 1,
    provide: () => undefined,
    withdraw: () => undefined,
    close: () => undefined,
    run: async (_, input, { urgent = false } = {}) => {
      const tile = input as TileInput
      asked.push({ coarse: tile.grid !== undefined, urgent })
      return half(tile, urgent) as never
    },
  }
  const seen: number[] = []
  const bands = await computeInTiles(pool, plan, 'p', {
    signal: new AbortController().signal,
    progress: (done, total) => seen.push(done / total),
    soFar: () => undefined,
  })
  expect(bands).toEqual(computeSurface(plan))
  for (const coarse of [true, false]) {
    const of = asked.filter((each) => each.coarse === coarse)
    expect(of.length).toBeGreaterThan(0)
    expect(of.filter(({ urgent }) => urgent)).toHaveLength(of.length / 2)
  }
  expect(seen.at(-1)).toBe(1)
})
