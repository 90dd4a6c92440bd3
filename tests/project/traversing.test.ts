/** A walk planned by the chain: its times, what it brings, and what it says where it cannot be. */
import { beforeEach, expect, test } from 'vitest'
import { Activities } from '../../src/project/activity'
import { Chain } from '../../src/project/chain'
import { emptyProject, NO_HOLDINGS } from '../../src/project/project'
import { parseRecipe } from '../../src/project/recipe'
import type { Results } from '../../src/project/results'
import { clockOf, secondsOf } from '../../src/project/recipe-traverse'
import { toblerSpeed } from '../../src/traverse/walking'
import { withScans } from './holdings'
import { CountingPool, scanOf, THREE } from './pools'

const HOLDINGS = withScans(
  NO_HOLDINGS,
  Array.from({ length: 40 }, (_, i) => scanOf(i)).map((scan, i) => ({
    ...scan,
    reflectance: scan.reflectance.map((value) => value * (0.6 + 0.4 * Math.sin(i / 5))),
  })),
)

const RULE = {
  surface: 'level',
  start: { longitude: -69.2465, latitude: -24.8982 },
  leave: '07:30',
  back: '09:00',
  stop_minutes: 10,
}

function recipe(traverse: object): string {
  return JSON.stringify({
    recipe: 1,
    indices: [{ name: 'level', formula: 'mean(800, 990)' }],
    surfaces: [
      {
        name: 'level',
        value: 'level',
        method: 'kriging',
        cell: 20,
        reach: 200,
        variogram: { nugget: 0.001, structures: [{ model: 'spherical', sill: 0.02, range: 400 }] },
      },
      { name: 'near', value: 'level', method: 'inverse-distance', cell: 20, reach: 200 },
    ],
    traverse: { ...RULE, ...traverse },
  })
}

let pool: CountingPool
let chain: Chain
beforeEach(() => {
  pool = new CountingPool()
  chain = new Chain(pool, THREE)
})

function run(text: string, published: Results[] = []): Promise<Results> {
  return chain.run(emptyProject('p', parseRecipe(text)), HOLDINGS, {
    activities: new Activities(() => undefined),
    controller: new AbortController(),
    publish: (results) => published.push(results),
  })
}

async function planned(traverse: object = {}) {
  const { traverse: result } = await run(recipe(traverse))
  if (!result?.plan) throw new Error(result?.failure ?? 'no walk')
  return result.plan
}

test('a walk fits the day, its times follow from its legs, and the surface becomes surer', async () => {
  const plan = await planned()
  expect(plan.stops.length).toBeGreaterThan(2)
  expect(plan.legs).toHaveLength(plan.stops.length + 1)
  expect(plan.budget).toBe(1.5 * 3600)
  expect(plan.seconds).toBeLessThanOrEqual(plan.budget)
  let now = 0
  plan.stops.forEach(({ arrive, leave, battery }, i) => {
    expect(arrive).toBeCloseTo(now + plan.legs[i].seconds, 6)
    expect(leave).toBeCloseTo(arrive + 600, 6)
    expect(battery).toBeNull()
    now = leave
  })
  expect(plan.seconds).toBeCloseTo(now + (plan.legs.at(-1)?.seconds ?? NaN), 6)
  // Flat ground, three fifths of the speed on a path.
  expect(plan.distance / (plan.seconds - 600 * plan.stops.length)).toBeCloseTo(
    0.6 * toblerSpeed(0),
    6,
  )
  expect(plan.unit).toBe('')
  expect(plan.error[1]).toBeLessThan(plan.error[0])
  const falls = plan.stops.reduce((sum, { fall }) => sum + fall, 0)
  expect(falls).toBeCloseTo(plan.fall, 9)
  expect(plan.stops[0].latitude).toBeCloseTo(-24.9, 1)
})

test('more time brings more, and batteries end the day where they are empty first', async () => {
  const short = await planned({ back: '08:20' })
  const long = await planned()
  expect(long.fall).toBeGreaterThan(short.fall)
  const powered = await planned({ batteries: 2, battery_hours: 0.6 })
  expect([powered.budget, powered.isEndedByBatteries]).toEqual([4320, true])
  expect(powered.seconds).toBeLessThanOrEqual(4320)
  expect(powered.stops[0].battery).toBe(1)
  expect(powered.stops.at(-1)?.battery).toBe(2)
  const few = await planned({ most_stops: 2 })
  expect(few.stops).toHaveLength(2)
})

test('stations that are to be visited are, and those that cannot be are told with why', async () => {
  const plan = await planned({ visit: ['S9', 'nobody'] })
  expect(plan.stops.map(({ station }) => station)).toContain('S9')
  expect(plan.unreached).toEqual([
    { station: 'nobody', why: 'no station on the ground has this name' },
  ])
  // However it is spelt and however often it is named, it is one stop under its own name.
  const again = await planned({ visit: ['S9', 's9', 'S9'] })
  expect(again.stops.filter(({ station }) => station === 'S9')).toHaveLength(1)
  expect(again.unreached).toEqual([])
  const hasty = await planned({ back: '08:10', visit: ['S0', 'S7', 'S39'] })
  expect(hasty.unreached.length).toBeGreaterThan(0)
  for (const { why } of hasty.unreached) expect(why).toMatch(/no time|too far/)
})

test('the same ingredients plan nothing anew; another day does, and the last walk stands until then', async () => {
  const project = emptyProject('p', parseRecipe(recipe({})))
  const again = () =>
    chain.run(project, HOLDINGS, {
      activities: new Activities(() => undefined),
      controller: new AbortController(),
      publish: () => undefined,
    })
  const known = await again()
  pool.reset()
  expect((await again()).traverse).toBe(known.traverse)
  expect(pool.asked).toEqual([])
  const published: Results[] = []
  await run(recipe({ back: '08:40' }), published)
  const computing = published.find(({ traverse }) => traverse?.state === 'computing')
  expect(computing?.traverse?.plan).toBe(known.traverse?.plan)
})

test.each([
  ['no such surface', { surface: 'gold' }, /no surface ‘gold’/],
  ['no variogram', { surface: 'near' }, /has no variogram.*kriged/],
  ['too little time', { back: '07:35' }, /can be reached|no time for a stop/],
  ['too far', { start: { longitude: -68, latitude: -24.9 } }, /start nearer/],
  ['no terrain', { terrain: 'hill.tif' }, /no raster ‘hill.tif’/],
  ['no outline', { avoid: 'lake.geojson' }, /no GeoJSON file ‘lake.geojson’/],
])('%s is told in words', async (_, traverse, words) => {
  const { traverse: result } = await run(recipe(traverse))
  expect(result?.state).toBe('failed')
  expect(result?.plan).toBeNull()
  expect(result?.failure).toMatch(words)
})

test('a recipe without a walk plans none', async () => {
  const text = JSON.stringify({ ...JSON.parse(recipe({})), traverse: undefined })
  expect((await run(text)).traverse ?? null).toBeNull()
  expect(pool.count('lay out walk')).toBe(0)
})

test.each([
  [{ leave: '7:30' }, /at traverse.leave: ‘7:30’ is no time HH:MM/],
  [{ back: '06:00' }, /at traverse.back: 06:00 is not after leaving at 07:30/],
  [{ batteries: 2 }, /at traverse: batteries and battery_hours are expected together/],
  [{ start: { longitude: -190, latitude: 0 } }, /at traverse.start.longitude/],
  [{ start: { easting: 5 } }, /‘northing’ is missing/],
  [{ speed: 5 }, /at traverse.speed: no such key/],
  [{ steepest: 80 }, /at traverse.steepest/],
])('a recipe’s walk is refused with its place: %j', (traverse, words) => {
  expect(() => parseRecipe(recipe(traverse))).toThrow(words)
})

test('times of day there and back', () => {
  expect(secondsOf('16:05')).toBe(57_900)
  expect(clockOf(57_900)).toBe('16:05')
  expect(clockOf(57_929.9)).toBe('16:05')
  expect(clockOf(86_400 + 60)).toBe('00:01')
})
