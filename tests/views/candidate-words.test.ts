/** Which stretches candidates are shown in, and where they are said to part. */
import { describe, expect, it } from 'vitest'
import { compareCandidates } from '../../src/minerals/candidates'
import { partingOf } from '../../src/views/minerals/candidate-words'
import type { ScanCandidate } from '../../src/views/minerals/scan-candidates'

const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)

/** A flat spectrum with Gaussian absorptions: [centre nm, depth], 12 nm of standard deviation. */
function absorbing(...bands: readonly (readonly [at: number, depth: number])[]): Float64Array {
  return wavelengths.map((nm) =>
    bands.reduce((r, [at, depth]) => r * (1 - depth * Math.exp(-((nm - at) ** 2) / 288)), 0.5),
  )
}

function candidate(
  mineral: string,
  rival: boolean,
  ranges: ScanCandidate['ranges'],
  reflectance: Float64Array,
): ScanCandidate {
  return { mineral, role: '', rival, ranges, reflectance }
}

const HYDROXYL = [1350, 1470] as const
const CLAY = [2110, 2290] as const
const IRON = [800, 1000] as const

const scan = { wavelengths, reflectance: absorbing([900, 0.1], [1410, 0.2], [2200, 0.3]) }
const main = candidate('main', true, [HYDROXYL, CLAY], absorbing([1410, 0.2], [2200, 0.3]))
const rival = candidate('rival', true, [HYDROXYL, CLAY], absorbing([1410, 0.2], [2230, 0.3]))
const beside = candidate('beside', false, [IRON], absorbing([900, 0.4]))

describe('candidates as they are shown', () => {
  const candidates = [main, beside, rival]
  const { ranges, words } = partingOf(compareCandidates(scan, candidates), candidates)

  it('begin with the range in which the main one and a rival part', () => {
    expect(ranges.map(({ from }) => from)).toEqual([2110, 800, 1350])
    expect(words).toMatch(/part most at 2110–2290 nm: main fits 1\.00, rival 0\.\d\d\./)
  })

  it('leave a mineral that was named beside them to its own ranges', () => {
    const shown = ranges.map(({ shown }) => shown.map(({ candidate }) => candidate.mineral))
    expect(shown).toEqual([['main', 'rival'], ['beside'], ['main', 'rival']])
  })

  it('say so where nothing parts them', () => {
    const twin = { ...rival, reflectance: main.reflectance }
    const both = [main, twin]
    expect(partingOf(compareCandidates(scan, both), both).words).toMatch(/cannot decide/)
  })

  it('say nothing where there is no rival', () => {
    const both = [main, beside]
    expect(partingOf(compareCandidates(scan, both), both).words).toBe('')
  })
})
