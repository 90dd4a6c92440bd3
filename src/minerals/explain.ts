/** A scan's explanation, to be drawn over it: the modelled mixture, each mineral's part, the rest. */
import { upperHull } from '../spectra/hull'
import { channelRange, type Spectrum } from '../spectra/spectrum'
import { splineBasis } from './model'
import { nonNegativeLeastSquares } from './nnls'
import type { Identification, MineralShare } from './reference'
import type { PreparedReference, PreparedSet } from './prepare'
import { GRID } from './work-grid'

/** One mineral's part in the explanation. */
export interface ExplainedPart {
  readonly mineral: string
  readonly group: string
  /** The record that stands for the mineral here. */
  readonly record: string
  /** The explanation's continuum with this mineral's absorption alone, reflectance. */
  readonly reflectance: Float64Array
}

/** A scan taken apart over a range. */
export interface Explanation {
  /** nm; the channels with a value. */
  readonly wavelengths: Float64Array
  readonly measured: Float64Array
  /** The modelled mixture, reflectance. */
  readonly modelled: Float64Array
  /** Measured less modelled, reflectance. */
  readonly residual: Float64Array
  readonly parts: readonly ExplainedPart[]
}

/** Knots of the continuum stand this far apart, nm: wide against an absorption. */
const KNOT_SPACING = 250

/**
 * Takes a scan apart into the minerals that it was identified as: ln reflectance is fitted by
 * a smooth continuum less non-negative amounts of each reference's absorption.
 *
 * @param range nm; 1300–2500 unless told, 400–2500 shows iron as well
 * @returns null where nothing was identified or fewer than 30 channels lie in the range
 */
export function explain(
  spectrum: Spectrum,
  identification: Identification,
  prepared: PreparedSet,
  range: readonly [from: number, to: number] = [1300, 2500],
): Explanation | null {
  if (identification.minerals.length === 0) return null
  const channels = channelsIn(spectrum, Math.max(range[0], GRID[0]), range[1])
  if (channels.wavelengths.length < 30) return null
  const references = identification.minerals
    .map((named) => referenceFor(named, prepared))
    .filter((reference) => reference !== null)
  if (references.length === 0) return null
  return takenApart(channels, references)
}

/** The reference that stood for a mineral, else the first of that mineral. */
function referenceFor(named: MineralShare, { references }: PreparedSet): PreparedReference | null {
  const sameMineral = references.filter(({ mineral }) => mineral === named.mineral)
  return sameMineral.find(({ record }) => record === named.record) ?? sameMineral[0] ?? null
}

interface Channels {
  readonly wavelengths: Float64Array
  readonly measured: Float64Array
}

function channelsIn({ wavelengths, reflectance }: Spectrum, from: number, to: number): Channels {
  const [start, end] = channelRange(wavelengths, from, Math.min(to, GRID[GRID.length - 1]))
  const kept = Array.from({ length: end - start }, (_, i) => start + i).filter(
    (channel) => reflectance[channel] > 0,
  )
  return {
    wavelengths: Float64Array.from(kept, (channel) => wavelengths[channel]),
    measured: Float64Array.from(kept, (channel) => reflectance[channel]),
  }
}

function takenApart(channels: Channels, references: readonly PreparedReference[]): Explanation {
  const { wavelengths, measured } = channels
  const basis = splineBasis(knotsOf(wavelengths), wavelengths)
  const absorptions = references.map((reference) => ownAbsorption(reference, wavelengths))
  // A continuum of either sign is the difference of two non-negative ones.
  const columns = [...basis, ...basis.map((column) => column.map((v) => -v)), ...absorptions]
  const log = measured.map(Math.log)
  const { x } = nonNegativeLeastSquares(columns, log)
  const amounts = x.subarray(2 * basis.length)
  const continuum = new Float64Array(wavelengths.length)
  basis.forEach((column, k) => {
    const height = x[k] - x[basis.length + k]
    for (let i = 0; i < continuum.length; i++) continuum[i] += height * column[i]
  })
  const sum = Float64Array.from(continuum)
  absorptions.forEach((column, k) => {
    for (let i = 0; i < sum.length; i++) sum[i] += amounts[k] * column[i]
  })
  const modelled = sum.map(Math.exp)
  const parts = references.map(({ mineral, group, record }, k) => ({
    mineral,
    group,
    record,
    reflectance: continuum.map((value, i) => Math.exp(value + amounts[k] * absorptions[k][i])),
  }))
  const residual = measured.map((value, i) => value - modelled[i])
  return { wavelengths, measured, modelled, residual, parts }
}

function knotsOf(wavelengths: Float64Array): Float64Array {
  const first = wavelengths[0]
  const last = wavelengths[wavelengths.length - 1]
  const pieces = Math.max(1, Math.round((last - first) / KNOT_SPACING))
  return Float64Array.from({ length: pieces + 1 }, (_, k) => first + ((last - first) * k) / pieces)
}

/** A reference's ln reflectance under the straight hull of its own, on a scan's channels. */
function ownAbsorption(reference: PreparedReference, wavelengths: Float64Array): Float64Array {
  const values = new Float64Array(wavelengths.length)
  let node = 0
  for (let i = 0; i < wavelengths.length; i++) {
    while (node < GRID.length - 2 && GRID[node + 1] < wavelengths[i]) node++
    const t = (wavelengths[i] - GRID[node]) / (GRID[node + 1] - GRID[node])
    values[i] = reference.log[node] + t * (reference.log[node + 1] - reference.log[node])
  }
  const hull = upperHull(wavelengths, values)
  return values.map((value, i) => value - hull[i])
}
