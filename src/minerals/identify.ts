/**
 * Names the minerals in a scan: the best reference by shape, then whatever a sparse mixture
 * needs beside it, each with its share, its fit and the doubt that is left.
 */
import { estimateNoise } from '../spectra/noise'
import type { Spectrum } from '../spectra/spectrum'
import { closeRival, doubtOf } from './doubt'
import { featureFit } from './feature-fit'
import { rankedMinerals, type Match, type ScanShape, type UserRanges } from './match'
import { OVERRULED, unmix } from './mixture'
import { settled } from './neighbours'
import { setAsSeen, type PreparedSet } from './prepare'
import type { Identification, MineralShare } from './reference'
import { scanShapeOf } from './scan-shape'
import { compressedCosine } from './trials'
import { matchWet } from './wet'
import { toGrid } from './work-grid'

/** What is known beside the scan. */
export interface IdentifyOptions {
  /** One standard deviation of reflectance noise a channel; estimated where null or absent. */
  readonly noise?: number | null
  /** Ranges in which a mineral is compared in place of its own, by mineral, nm. */
  readonly ranges?: UserRanges
}

/** Energy of the shape below which a scan holds nothing diagnostic (squared ln units · nm). */
const LEAST_ENERGY = 0.001
/** Below this a shape is faint, as dark rock's is, */
const FAINT = 0.008
/** and is named only where the best reference scores at least this. */
const LEAST_SCORE_FAINT = 0.75
/** A shape must stand this many times above what noise alone gives. */
const ABOVE_NOISE = 2
/** The best reference must score at least this. */
const LEAST_SCORE = 0.52
/** and may have lost no more than this to telling absorptions that are not the scan's. */
const MOST_MISSED = 0.15
/** A scan that absorbs this much and is not well matched by anything is said to. */
const CLEAR = 0.08

const NOTHING: Identification = { minerals: [], runnerUp: null, doubt: '' }
const UNKNOWN = 'it absorbs clearly, but like none of the references: something else may be in it'
const ONLY_WATER = 'water hides what else it holds: dry it and scan it again'
const NO_RANGES: UserRanges = new Map()

/**
 * What a scan is taken for.
 *
 * @returns no minerals where the scan is featureless, noise, like nothing in the set, best explained by
 *   a mineral that has no absorption of its own here, or by water alone
 */
export function identify(
  spectrum: Spectrum,
  references: PreparedSet,
  options: IdentifyOptions = {},
): Identification {
  const onGrid = toGrid(spectrum)
  if (!onGrid) return NOTHING
  const prepared = setAsSeen(references, onGrid.known)
  if (prepared.references.length === 0) return NOTHING
  const ranges = options.ranges ?? NO_RANGES
  const noise = options.noise ?? estimateNoise(spectrum) ?? 0
  const own = scanShapeOf(onGrid, noise)
  const empty = Math.max(LEAST_ENERGY, ABOVE_NOISE * own.noiseEnergy)
  if (own.linearEnergy < empty) return NOTHING
  const { scan, matches: unsettled, isWaterAlone } = matchWet(own, prepared, ranges, empty)
  if (isWaterAlone) return { ...NOTHING, doubt: ONLY_WATER }
  const matches = settled(unsettled, onGrid, noise, prepared)
  const ranked = rankedMinerals(matches)
  const [best] = ranked
  const share = (match: Match, part: number): MineralShare => ({
    mineral: match.reference.mineral,
    group: match.reference.group,
    record: match.reference.record,
    share: part,
    fit: featureFit(
      onGrid.log,
      match.reference.log,
      ranges.get(match.reference.mineral) ?? match.reference.diagnostic,
    ),
  })
  const speaking = ranked.find(({ reference }) => !reference.silent)
  const least = scan.linearEnergy < FAINT ? LEAST_SCORE_FAINT : LEAST_SCORE
  const isUnknown = scan.linearEnergy > CLEAR && best.score < LEAST_SCORE_FAINT
  const nothing = { minerals: [], runnerUp: share(best, 0), doubt: isUnknown ? UNKNOWN : '' }
  if (!isCredible(best, least) || !speaking || !isCredible(speaking, least)) return nothing
  const mixture = unmix(scan, prepared, matches, ranked)
  const { parts } = mixture
  if (best.reference.silent && 1 - mixture.score > OVERRULED * leftBy(best, scan)) return nothing
  const minerals = parts.map((part) => share(part.match, part.share))
  const other = ranked.find(
    ({ reference }) => !parts.some((part) => part.match.reference.mineral === reference.mineral),
  )
  const rival = closeRival(ranked, mixture)
  return {
    minerals,
    runnerUp: other ? share(other, 0) : null,
    ...(rival && rival !== other ? { rival: share(rival, 0) } : {}),
    doubt: doubtOf(scan, ranked, mixture),
  }
}

/** What a match alone leaves of the scan's shape, 0 to 1 and more. */
function leftBy({ reference }: Match, scan: ScanShape): number {
  return 1 - compressedCosine(scan, reference.shapeAt(scan.scale).linear)
}

/** Whether a match is good enough to name its mineral. */
function isCredible({ score, missed }: Match, least: number): boolean {
  return score + missed >= least && missed <= MOST_MISSED
}
