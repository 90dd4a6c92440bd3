/**
 * Names the minerals in a scan: its shape is taken for a non-negative mixture of as few
 * references as explain it.
 */
import { estimateNoise } from '../spectra/noise'
import type { Spectrum } from '../spectra/spectrum'
import { nonNegativeFromGram } from './nnls'
import type { PreparedReference, PreparedSet } from './prepare'
import type { Identification, MineralShare } from './reference'
import { shapeOf, shapeVariance } from './shape'
import { toGrid } from './work-grid'

/** What is known beside the scan. */
export interface IdentifyOptions {
  /** One standard deviation of reflectance noise a channel; estimated where null or absent. */
  readonly noise?: number | null
}

/** Most minerals that one scan is taken for. */
const MOST = 4
/** A further mineral must explain at least this part of what the first alone leaves. */
const WORTH = 0.25
/** and this part of all. */
const LEAST_PART = 0.02
/** Length of the shape below which a scan holds nothing diagnostic (ln units · √nm). */
const LEAST_SHAPE = 0.05
/** The best single reference must match at least this well. */
const LEAST_FIT = 0.5

const NOTHING: Identification = { minerals: [], runnerUp: null, doubt: '' }

/** What a scan is taken for. */
export function identify(
  spectrum: Spectrum,
  prepared: PreparedSet,
  options: IdentifyOptions = {},
): Identification {
  const onGrid = toGrid(spectrum)
  if (!onGrid || prepared.references.length === 0) return NOTHING
  const shape = shapeOf(onGrid.log)
  const energy = dot(shape, shape)
  const noise = options.noise ?? estimateNoise(spectrum) ?? 0
  const noiseEnergy =
    noise * noise * shapeVariance(onGrid.variance).reduce((sum, value) => sum + value, 0)
  if (Math.sqrt(energy) < LEAST_SHAPE || energy < 4 * noiseEnergy) return NOTHING
  const ranked = rank(shape, energy, prepared.references)
  const best = ranked[0]
  if (!best || best.fit < LEAST_FIT) return { ...NOTHING, runnerUp: best ? share(best, 0) : null }
  const chosen = choose(shape, energy, ranked)
  const minerals = chosen.filter(({ reference }) => !reference.silent)
  if (chosen[0]?.reference.silent) return { ...NOTHING, runnerUp: share(best, 0) }
  const shares = minerals.map((part) => share(part, part.share))
  const other = ranked.find(({ reference }) =>
    shares.every((taken) => taken.mineral !== reference.mineral),
  )
  return { minerals: shares, runnerUp: other ? share(other, 0) : null, doubt: doubtOf(best, other) }
}

interface Match {
  readonly reference: PreparedReference
  /** Squared cosine between the shapes, 0 where they point apart. */
  readonly fit: number
}

interface Part extends Match {
  readonly share: number
}

/** The best reference of each mineral, the best first. */
function rank(
  shape: Float64Array,
  energy: number,
  references: readonly PreparedReference[],
): Match[] {
  const best = new Map<string, Match>()
  for (const reference of references) {
    const cosine = dot(shape, reference.shape) / (reference.length * Math.sqrt(energy) + 1e-12)
    const fit = cosine > 0 ? cosine * cosine : 0
    const held = best.get(reference.mineral)
    if (!held || fit > held.fit) best.set(reference.mineral, { reference, fit })
  }
  return [...best.values()].sort((a, b) => b.fit - a.fit)
}

/** The sparse mixture that explains the shape: grown from the best single reference. */
function choose(shape: Float64Array, energy: number, ranked: readonly Match[]): Part[] {
  const pool = ranked.slice(0, 24)
  let chosen: Match[] = [pool[0]]
  let explained = pool[0].fit * energy
  while (chosen.length < MOST) {
    let gain: { set: Match[]; explained: number } | null = null
    for (const candidate of pool) {
      if (chosen.some((match) => match.reference.group === candidate.reference.group)) continue
      const set = [...chosen, candidate]
      const value = solve(shape, set).explained
      if (!gain || value > gain.explained) gain = { set, explained: value }
    }
    if (!gain) break
    const more = gain.explained - explained
    if (more < WORTH * (energy - explained) || more < LEAST_PART * energy) break
    chosen = gain.set
    explained = gain.explained
  }
  const { amounts } = solve(shape, chosen)
  const weights = chosen.map((match, k) => amounts[k] * match.reference.length)
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  return chosen
    .map((match, k) => ({ ...match, share: total > 0 ? weights[k] / total : 0 }))
    .filter((part) => part.share > 0)
    .sort((a, b) => b.share - a.share)
}

function solve(
  shape: Float64Array,
  set: readonly Match[],
): { amounts: Float64Array; explained: number } {
  const n = set.length
  const gram = new Float64Array(n * n)
  const right = new Float64Array(n)
  for (let i = 0; i < n; i++) {
    right[i] = dot(set[i].reference.shape, shape)
    for (let j = 0; j < n; j++)
      gram[i * n + j] = dot(set[i].reference.shape, set[j].reference.shape)
  }
  const amounts = nonNegativeFromGram(gram, right)
  return { amounts, explained: dot(amounts, right) }
}

function doubtOf(best: Match, other: Match | undefined): string {
  if (!other || best.fit - other.fit > 0.03 || other.reference.group === best.reference.group)
    return ''
  return `${best.reference.group} or ${other.reference.group}: they match the scan nearly alike`
}

function share({ reference, fit }: Match, part: number): MineralShare {
  return { mineral: reference.mineral, group: reference.group, share: part, fit }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i]
  return sum
}
