/** Scans gathered into stations by time and distance. */
import { describe, expect, test } from 'vitest'
import type { GroupingChoice } from '../../src/places/grouping'
import type { HandPlace } from '../../src/places/place-scans'
import type { ScanHead } from '../../src/places/header'
import { clock, counted, degreesAt, groups, taken, trackOf, type Taken } from './days'
import { place, scan } from './made'

const DAY = 86_400

function stationsOf(scans: readonly ScanHead[], grouping?: GroupingChoice, hand?: HandPlace[]) {
  const placement = place({ scans, grouping, hand })
  return { placement, names: groups(placement, scans) }
}

/** Three scans at a spot, some seconds apart. */
function three(at: number, east: number, north = 0, gap = 12): Omit<Taken, 'name'>[] {
  return [0, 1, 2].map((i) => ({ at: at + i * gap, east: east + 0.4 * i, north }))
}

describe('bursts', () => {
  test('three scans within half a minute are a station, whatever the counter of their names', () => {
    for (const digits of [3, 4]) {
      const scans = counted('AB', digits, [...three(0, 0), ...three(300, 40), ...three(700, 80)])
      const { placement, names } = stationsOf(scans)
      expect(names).toHaveLength(3)
      expect(names[0]).toBe(
        ['1', '2', '3'].map((number) => `AB${number.padStart(digits, '0')}`).join(' '),
      )
      expect(placement.stations.map(({ groupedBy }) => groupedBy)).toEqual(['time', 'time', 'time'])
      expect(placement.stations[0].name).toBe(digits === 3 ? 'AB001' : 'AB0001')
      expect(placement.grouping).toMatchObject({ counts: { time: 3 }, single: 0, unsure: [] })
    }
  })

  test('the station lies at the mean of its scans', () => {
    const { placement } = stationsOf(counted('AB', 3, three(0, 10)))
    const [longitude] = degreesAt(10.4, 0)
    expect(placement.stations[0].position.longitude).toBeCloseTo(longitude, 8)
  })

  test('fixes that jitter by 8 to 15 m within seconds are one spot, which is called unsure', () => {
    const jitter = [
      { at: 0, east: 0 },
      { at: 6, east: 9, north: 3 },
      { at: 13, east: 2, north: 11 },
    ]
    const far = three(400, 300)
    const { placement, names } = stationsOf(counted('AB', 4, [...jitter, ...far]))
    expect(names).toEqual(['AB0001 AB0002 AB0003', 'AB0004 AB0005 AB0006'])
    expect(placement.grouping.unsure).toEqual([
      { station: 0, why: expect.stringMatching(/lie up to 11 m apart/), other: null },
    ])
  })

  test('a stated accuracy says how far fixes of one spot may lie apart, within the limit', () => {
    const at = (accuracy: string, metres: number) =>
      [0, metres].map((east, i) => ({ at: 5 * i, east, more: { Accuracy: accuracy } }))
    const count = (accuracy: string, metres: number) =>
      stationsOf(counted('AB', 3, at(accuracy, metres))).names.length
    expect([count('2 m', 5.5), count('2 m', 7)]).toEqual([1, 2])
    expect([count('8 m', 20), count('8 m', 26)]).toEqual([1, 2])
    // Never more than 25 m, whatever is stated.
    expect([count('40 m', 24), count('40 m', 26)]).toEqual([1, 2])
  })

  test('over midnight', () => {
    const midnight = 15 * 3600
    const { names } = stationsOf(counted('AB', 3, three(midnight - 10, 0)))
    expect(names).toEqual(['AB001 AB002 AB003'])
  })

  test('two bursts half a minute and 10 m apart are two stations, on one spot they are one', () => {
    const two = (metres: number) =>
      counted('AB', 3, [...three(0, 0, 0, 5), ...three(40, metres, 0, 5), ...three(400, 200, 0, 5)])
    expect(stationsOf(two(10)).names).toHaveLength(3)
    expect(stationsOf(two(1)).names).toEqual([
      'AB001 AB002 AB003 AB004 AB005 AB006',
      'AB007 AB008 AB009',
    ])
  })

  test('a fourth scan after half a minute belongs to them', () => {
    const scans = counted('AB', 3, [...three(0, 0), { at: 55, east: 1 }, ...three(400, 90)])
    expect(stationsOf(scans).names).toEqual(['AB001 AB002 AB003 AB004', 'AB005 AB006 AB007'])
  })

  test('names of two series are two stations, close as they are', () => {
    const scans = [
      ...['C01_1', 'C01_2', 'C02_1', 'C02_2'].map((name, i) => taken({ name, at: 10 * i })),
    ]
    expect(stationsOf(scans).names).toEqual(['C01_1 C01_2', 'C02_1 C02_2'])
  })

  test('targets of one spot share its station and stay targets', () => {
    const scans = ['matrix', 'vein', 'matrix'].map((target, i) =>
      taken({ name: `AB00${i + 1}`, at: 9 * i, more: { target } }),
    )
    const { placement, names } = stationsOf(scans)
    expect(names).toEqual(['AB001 AB002 AB003'])
    expect(placement.scans.map(({ target }) => target)).toEqual(['matrix', 'vein', 'matrix'])
  })

  test('holes, depths and supports are never joined', () => {
    const core = (depth: string, i: number) =>
      taken({ name: `AB00${i}`, at: 9 * i, more: { hole: 'VDH01', depth } })
    const scans = [core('10', 1), core('10', 2), core('11', 3)]
    expect(stationsOf(scans).names).toEqual(['AB001 AB002', 'AB003'])
    const rock = (support: string, i: number) =>
      taken({ name: `AB00${i}`, at: 9 * i, more: { support } })
    expect(stationsOf([rock('outcrop', 1), rock('float', 2)]).names).toHaveLength(2)
  })

  test('different samples are never joined, close and soon as they are', () => {
    const scans = ['A1', 'A2', 'A2'].map((sample, i) =>
      taken({ name: `AB00${i + 1}`, at: 5 * i, more: { sample } }),
    )
    expect(stationsOf(scans).names).toEqual(['AB001', 'AB002 AB003'])
  })
})

describe('a walk', () => {
  /** One scan each 10 to 20 s, 2 to 5 m apart, by a fixed sequence. */
  const walk = Array.from({ length: 60 }, (_, i) => ({
    step: 2 + ((i * 7) % 4),
    gap: 10 + ((i * 7) % 11),
  }))
  let [at, east] = [0, 0]
  const course = walk.map(({ step, gap }) => ({ at: (at += gap), east: (east += step) }))

  test('with a counter of three digits each scan stands for itself', () => {
    const { names } = stationsOf(counted('AB', 3, course))
    expect(names).toHaveLength(60)
  })

  test('with a common stem no station is wider than twice the reach of names', () => {
    const { placement } = stationsOf(counted('AB', 4, course))
    for (const { scans } of placement.stations) {
      expect(scans.length).toBeLessThanOrEqual(4)
      expect(course[Math.max(...scans)].east - course[Math.min(...scans)].east).toBeLessThan(12)
    }
    expect(placement.grouping.unsure.map(({ why }) => why)).toContainEqual(
      expect.stringMatching(/as on a walk/),
    )
  })
})

describe('a spot that is left and come back to', () => {
  test('20 minutes and two days later, 4 m off, scans of a common stem are another station', () => {
    for (const pause of [20 * 60, 2 * DAY]) {
      const { placement, names } = stationsOf(
        counted('AB', 4, [...three(0, 0), ...three(pause, 4)]),
      )
      expect(names).toHaveLength(2)
      expect(placement.grouping.unsure).toEqual([
        {
          station: 1,
          why: expect.stringMatching(
            pause < DAY ? /it lies 4\.0 m .* left 20 min before/ : /left 2 days before/,
          ),
          other: 0,
        },
      ])
    }
  })

  test('two bursts of one stem are two stations before the pause is long', () => {
    const scans = counted('AB', 4, [...three(0, 0), ...three(240, 4)])
    expect(stationsOf(scans).names).toEqual(['AB0001 AB0002 AB0003', 'AB0004 AB0005 AB0006'])
  })

  test('a named sample stays one station, also where the receiver is 12 m off', () => {
    const scans = [0, 1, 2, 3, 4, 5].map((i) =>
      taken({
        name: `AB00${i + 1}`,
        at: i < 3 ? 10 * i : 2 * DAY + 10 * i,
        east: i < 3 ? 0 : 12,
        more: { sample: 'K7' },
      }),
    )
    const { placement } = stationsOf(scans)
    expect(
      placement.stations.map(({ name, scans, groupedBy }) => [name, scans.length, groupedBy]),
    ).toEqual([['K7', 6, 'name']])
    const elsewhere = stationsOf([...scans, taken({ name: 'X', east: 70, more: { sample: 'K7' } })])
    expect(elsewhere.names).toHaveLength(2)
    expect(elsewhere.placement.grouping.unsure).toEqual([
      { station: 1, why: expect.stringMatching(/of the sample ‘K7’, .* lie 70 m away/), other: 0 },
    ])
  })

  test('a person joins them by the name of either, and the name stays', () => {
    const scans = counted('AB', 4, [...three(0, 0), ...three(2 * DAY, 2)])
    const [first, second] = stationsOf(scans).placement.stations
    expect([first.name, second.name]).toEqual(['AB0001', 'AB0004'])
    const hand = second.scans.map((scan) => ({ scan, station: first.name }))
    const { placement } = stationsOf(scans, undefined, hand)
    expect(placement.stations).toMatchObject([
      { name: 'AB0001', scans: [0, 1, 2, 3, 4, 5], groupedBy: 'hand' },
    ])
    expect(placement.grouping.unsure).toEqual([])
  })

  test('a scan that a person takes out leaves the others together', () => {
    const scans = counted('AB', 3, [{ at: 0 }, { at: 40 }, { at: 80 }])
    const { names } = stationsOf(scans, undefined, [{ scan: 1, station: 'the vein' }])
    expect(names).toEqual(['AB001 AB003', 'AB002'])
  })

  test('scans of a new name are one station however far apart they lie', () => {
    const scans = counted('AB', 3, [{ at: 0 }, { at: 900, east: 60 }])
    const hand = [0, 1].map((scan) => ({ scan, station: 'north wall' }))
    const { placement } = stationsOf(scans, undefined, hand)
    expect(placement.stations).toMatchObject([{ name: 'north wall', groupedBy: 'hand' }])
  })

  test('scans that a person places on a spot are one station there, and no others', () => {
    const scans = counted('AB', 3, [...three(0, 0), { at: 36, east: 1 }])
    const [longitude, latitude] = degreesAt(9, 0)
    const hand = [1, 2].map((scan) => ({ scan, place: { longitude, latitude } }))
    expect(stationsOf(scans, undefined, hand).names).toEqual(['AB001 AB004', 'AB002 AB003'])
  })
})

describe('two instruments', () => {
  const pair = (more: readonly Partial<Taken>[]) =>
    [0, 1].flatMap((i) => [
      taken({ name: `AB00${2 * i + 1}`, at: 10 * i, ...more[0] }),
      taken({ name: `AB00${2 * i + 2}`, at: 10 * i + 3, ...more[1] }),
    ])

  test('at the same moment, told by folder or serial number, they are two spots', () => {
    const apart = { east: 10 }
    expect(stationsOf(pair([{ folder: 'a' }, { folder: 'b', ...apart }])).names).toEqual([
      'AB001 AB003',
      'AB002 AB004',
    ])
    const serials = [1, 2].map((n) => ({ more: { 'Serial number': `17${n}` } }))
    expect(stationsOf(pair([serials[0], { ...serials[1], ...apart }])).names).toHaveLength(2)
  })

  test('one serial number is one instrument, whatever the folders', () => {
    const more = { 'Instrument serial number': '171' }
    const folders = pair([
      { folder: 'a', more },
      { folder: 'b', more },
    ])
    expect(stationsOf(folders).names).toEqual(['AB001 AB002 AB003 AB004'])
  })

  test('side by side they share a station where their names do', () => {
    const scans = ['a', 'b'].flatMap((folder) =>
      [0, 1].map((i) =>
        taken({ name: `AB000${i + 1}`, at: 10 * i, east: folder === 'b' ? 2 : 0, folder }),
      ),
    )
    expect(stationsOf(scans).names).toEqual(['AB0001 AB0001 AB0002 AB0002'])
  })
})

describe('times that say too little', () => {
  test('without them names and distance alone count, and it is said of how many', () => {
    const bare = counted('AB', 4, [{}, { east: 3 }, { east: 30 }])
    const { placement, names } = stationsOf(bare)
    expect(names).toEqual(['AB0001 AB0002', 'AB0003'])
    expect(placement.stations[0].groupedBy).toBe('likeness')
    expect(placement.grouping.untimed).toBe(3)
    expect(stationsOf(counted('AB', 3, [{}, {}])).names).toHaveLength(2)
  })

  test('without seconds they make no bursts, yet a long pause counts', () => {
    const at = (minute: string, i: number) =>
      taken({ name: `AB000${i}`, more: { Time: `2024-05-07 ${minute}` } })
    const { placement, names } = stationsOf([at('10:01', 1), at('10:02', 2), at('11:00', 3)])
    expect(names).toEqual(['AB0001 AB0002', 'AB0003'])
    expect(placement.grouping.untimed).toBe(3)
  })

  test('a date whose day may be its month is no time', () => {
    const scans = [1, 2].map((i) =>
      taken({ name: `AB00${i}`, more: { Time: `05/03/2024 10:00:0${i}` } }),
    )
    const { placement, names } = stationsOf(scans)
    expect(names).toHaveLength(2)
    expect(placement.grouping.untimed).toBe(2)
  })

  test('a date whose order a track tells is one', () => {
    const start = Date.UTC(2024, 2, 5, 10) / 1000
    const walked = trackOf(
      'day.gpx',
      [0, 60, 120].map((s) => [start + s, ...degreesAt(s / 60, 0)]),
    )
    const scans = [1, 2].map((i) => scan(`AB00${i}`, { Time: `05/03/2024 10:00:0${i}` }))
    const placement = place({ scans, tracks: [walked] })
    expect(groups(placement, scans)).toEqual(['AB001 AB002'])
    expect(placement.grouping).toMatchObject({ counts: { time: 1 }, untimed: 0 })
  })

  test('scans with a zone and without one are not compared', () => {
    const at = (i: number, zone: string) =>
      taken({ name: `AB00${i}`, more: { Time: `2024-05-07T10:00:0${i}${zone}` } })
    expect(stationsOf([at(1, 'Z'), at(2, 'Z'), at(3, '')]).names).toEqual(['AB001 AB002', 'AB003'])
  })
})

describe('the recipe’s limits', () => {
  const burst = counted('AB', 3, three(0, 0))
  const visits = counted('AB', 4, [...three(0, 0), ...three(2 * DAY, 4)])

  test('times may be left out of it', () => {
    expect(stationsOf(burst, { by_time: false }).names).toHaveLength(3)
    const { placement, names } = stationsOf(visits, { by_time: false })
    expect(names).toHaveLength(1)
    expect(placement.grouping).toMatchObject({ counts: { likeness: 1 }, untimed: 0, unsure: [] })
  })

  test('each counts', () => {
    expect(stationsOf(burst, { gap_s: 5 }).names).toHaveLength(3)
    const wide = counted('AB', 3, [{ at: 0 }, { at: 5, east: 12 }])
    expect(stationsOf(wide).names).toHaveLength(1)
    expect(stationsOf(wide, { widest_m: 10 }).names).toHaveLength(2)
    const slow = counted('AB', 4, [{ at: 0 }, { at: 900, east: 2 }])
    expect(stationsOf(slow).names).toHaveLength(2)
    expect(stationsOf(slow, { pause_s: 1000 }).names).toHaveLength(1)
    expect(stationsOf(slow, { pause_s: 1000, near_m: 1 }).names).toHaveLength(2)
  })

  test('metres stay metres on a grid in feet', () => {
    const stations = (feet: number) => {
      const scans = [0, feet].map((east, i) =>
        scan(`AB00${i}`, { Easting: `${1000 + east}`, Northing: '2000', Time: clock(5 * i) }),
      )
      return place({ scans, crs: 'local:ft', rules: [{ file: 'scans/', crs: 'local:ft' }] })
        .stations
    }
    // 15 m are 49.2 ft.
    expect([stations(49).length, stations(50).length]).toEqual([1, 2])
  })
})
