/** Candidates side by side, on the built-in set's modelled references and on plain shapes. */
import { describe, expect, it } from 'vitest'
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { compareCandidates, type Candidate } from '../../src/minerals/candidates'
import { modelReflectance } from '../../src/minerals/model'

const set = await loadBuiltInSet()
const wavelengths = Float64Array.from({ length: 2151 }, (_, i) => 350 + i)

function candidateOf(record: string): Candidate {
  const reference = set.references.find((entry) => entry.record === record)
  if (!reference) throw new Error(`${record} is not in the built-in set`)
  return {
    mineral: reference.mineral,
    ranges: reference.diagnostic,
    reflectance: modelReflectance(reference, wavelengths),
  }
}

/** A flat spectrum with Gaussian absorptions: [centre nm, depth, standard deviation nm]. */
function absorbing(...bands: readonly (readonly [number, number, number])[]): Float64Array {
  return wavelengths.map((nm) =>
    bands.reduce(
      (r, [at, depth, sd]) => r * (1 - depth * Math.exp(-((nm - at) ** 2) / (2 * sd * sd))),
      0.5,
    ),
  )
}

const kaolinite = candidateOf('Kaolinite_KGa-2_(pxl)_ASDNGb')
const alunite = candidateOf('Alunite_HS295.3B_ASDFRa')

describe('candidates side by side', () => {
  it('fit a scan of one of them wholly, and lie on it', () => {
    const rows = compareCandidates({ wavelengths, reflectance: kaolinite.reflectance }, [
      kaolinite,
      alunite,
    ])
    expect(rows.length).toBeGreaterThan(1)
    for (const { fits } of rows) {
      const [right, wrong] = fits
      expect(right?.fit).toBeCloseTo(1, 9)
      expect(right?.scale).toBeCloseTo(1, 9)
      expect(Math.abs(right?.most.by ?? 1)).toBeLessThan(1e-9)
      expect(wrong?.fit).toBeLessThan(0.95)
    }
  })

  it('stand by wavelength, each range holding every own range in it', () => {
    const rows = compareCandidates({ wavelengths, reflectance: kaolinite.reflectance }, [
      kaolinite,
      alunite,
    ])
    rows.forEach(({ from, to, fits }, i) => {
      if (i > 0) expect(from).toBeGreaterThanOrEqual(rows[i - 1].from)
      for (const fit of fits) {
        expect(fit?.range[0]).toBeGreaterThanOrEqual(from)
        expect(fit?.range[1]).toBeLessThanOrEqual(to)
      }
    })
    const own = rows.flatMap(({ fits }) => fits.filter((fit) => fit?.own))
    expect(own).toHaveLength(kaolinite.ranges.length + alunite.ranges.length)
  })

  it('scale by least squares: half the depth is half the amount', () => {
    const reference = absorbing([2200, 0.4, 12])
    const scan = reference.map((value) => 0.25 + value / 2)
    const candidate = { mineral: 'a', ranges: [[2120, 2280]], reflectance: reference } as const
    const fit = compareCandidates({ wavelengths, reflectance: scan }, [candidate])[0].fits[0]
    expect(fit?.fit).toBeCloseTo(1, 6)
    expect(fit?.scale).toBeCloseTo(0.5, 3)
  })

  it('differ most where the scan has what the reference lacks', () => {
    const reference = absorbing([2206, 0.3, 12])
    const scan = absorbing([2206, 0.3, 12], [2165, 0.15, 8])
    const candidate = { mineral: 'a', ranges: [[2110, 2260]], reflectance: reference } as const
    const most = compareCandidates({ wavelengths, reflectance: scan }, [candidate])[0].fits[0]?.most
    expect(most?.at).toBeGreaterThan(2157)
    expect(most?.at).toBeLessThan(2173)
    expect(most?.by).toBeLessThan(-0.05)
  })

  it('are not turned upside down: an emission fits nothing', () => {
    const reference = absorbing([2200, 0.3, 15])
    const scan = absorbing([2150, 0.2, 15], [2260, 0.2, 15])
    const candidate = { mineral: 'a', ranges: [[2130, 2280]], reflectance: reference } as const
    const fit = compareCandidates({ wavelengths, reflectance: scan }, [candidate])[0].fits[0]
    expect(fit?.fit).toBe(0)
    expect(fit?.scale).toBe(0)
    expect(fit?.against).toBe('opposite')
  })

  it('fit nothing where the scan has no absorption above its noise', () => {
    const reference = absorbing([2200, 0.3, 15])
    const scan = absorbing([2200, 0.012, 15])
    const candidate = { mineral: 'a', ranges: [[2130, 2280]], reflectance: reference } as const
    const fitOf = (noise: number) =>
      compareCandidates({ wavelengths, reflectance: scan }, [candidate], noise)[0].fits[0]
    expect(fitOf(0)?.fit).toBeGreaterThan(0.99)
    expect(fitOf(0.005)?.against).toBe('no absorption')
    expect(fitOf(0.005)?.reference[75]).toBeLessThan(0.75)
  })

  it('leave out a range that scan or reference does not cover', () => {
    const reference = absorbing([2200, 0.3, 15])
    const gaps = absorbing([2200, 0.3, 15]).map((value, i) => (wavelengths[i] > 1500 ? NaN : value))
    const candidate = {
      mineral: 'a',
      ranges: [
        [1350, 1450],
        [2130, 2280],
      ],
      reflectance: reference,
    } as const
    const rows = compareCandidates({ wavelengths, reflectance: gaps }, [candidate])
    expect(rows.map(({ from }) => from)).toEqual([1350])
  })
})
