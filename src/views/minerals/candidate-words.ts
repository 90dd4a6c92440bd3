/** What candidates side by side say: which stretches are worth showing, and where they part. */
import type { CandidateFit, ComparedRange } from '../../minerals/candidates'
import type { ScanCandidate } from './scan-candidates'

/** One candidate in one range, as shown. */
export interface ShownFit {
  readonly candidate: ScanCandidate
  readonly fit: CandidateFit | null
}

export interface ShownRange {
  readonly from: number
  readonly to: number
  readonly shown: readonly ShownFit[]
}

export interface Parting {
  /** The most telling range first, the others by wavelength. */
  readonly ranges: readonly ShownRange[]
  /** Where the first candidate and a rival part most; empty where there is no rival. */
  readonly words: string
}

/** Fits closer than this tell nothing. */
const TELLING = 0.03
/** An absorption as deep as this counts in full. */
const CLEAR = 0.1

/**
 * Ranges as they are shown: in each, the candidates whose own it is, and where one of these is a
 * rival for the main name, all its rivals.
 */
export function partingOf(
  rows: readonly ComparedRange[],
  candidates: readonly ScanCandidate[],
): Parting {
  const ranges = rows.map(({ from, to, fits }) => {
    const contested = candidates.some(({ rival }, i) => rival && fits[i]?.own)
    const shown = candidates
      .map((candidate, i) => ({ candidate, fit: fits[i] }))
      .filter(({ candidate, fit }) => fit?.own || (contested && candidate.rival))
    return { from, to, shown }
  })
  if (candidates.filter(({ rival }) => rival).length < 2) return { ranges, words: '' }
  const apart = ranges.map(partedIn)
  const most = Math.max(...apart.map(({ by }) => by))
  if (!(most >= TELLING)) {
    return { ranges, words: 'All fit nearly alike: the scan alone cannot decide between them.' }
  }
  const telling = ranges.findIndex((_, i) => apart[i].by === most)
  return {
    ranges: [ranges[telling], ...ranges.filter((_, i) => i !== telling)],
    words: apart[telling].words,
  }
}

/**
 * How far the main candidate's fit and a rival's stand apart in a range; a faint absorption, in
 * which noise decides the fit, counts for less.
 */
function partedIn({ from, to, shown }: ShownRange): { by: number; words: string } {
  const rivals = shown.filter(({ candidate, fit }) => candidate.rival && fit !== null)
  const [first, ...others] = rivals
  const none = { by: 0, words: '' }
  if (!first?.fit) return none
  const { fit: own, candidate: main } = first
  return others.reduce((most, { candidate, fit }) => {
    const by = fit ? Math.abs(own.fit - fit.fit) * Math.min(1, depthOf(own) / CLEAR) : 0
    if (!fit || by <= most.by) return most
    const words =
      `They part most at ${from}–${to} nm: ${main.mineral} fits ${own.fit.toFixed(2)}, ` +
      `${candidate.mineral} ${fit.fit.toFixed(2)}.`
    return { by, words }
  }, none)
}

function depthOf({ scan }: CandidateFit): number {
  return 1 - scan.reduce((least, value) => Math.min(least, value), 1)
}
