/** A spoken doubt: what the scan cannot decide, and which band would. */
import { isCommon } from './groups'
import type { Match, ScanShape } from './match'
import type { Mixture } from './mixture'
import { nodesBetween } from './work-grid'

/** Scores closer than this cannot be told apart. */
const CLOSE = 0.03
/** A model below this leaves much of the scan unexplained. */
const LOOSE = 0.75
/** Lithium mica and the like: a rare mineral named on its own is said to be unusual. */
const UNUSUAL = 'is unusual in altered rock: look for other evidence'

/** The bands by which minerals are told apart, nm. */
const BANDS: readonly (readonly [from: number, to: number, name: string])[] = [
  [400, 1300, 'the iron bands below 1300 nm'],
  [1340, 1560, 'the 1400 nm hydroxyl and water bands'],
  [1560, 1860, 'the bands near 1750 nm'],
  [1860, 2080, 'the 1900 nm water band'],
  [2080, 2240, 'the 2200 nm Al–OH band'],
  [2240, 2290, 'the 2250 nm Fe–OH band'],
  [2290, 2466, 'the 2300 nm Mg–OH and carbonate bands'],
]

/** What cannot be decided, in plain words; empty where there is nothing to say. */
export function doubtOf(scan: ScanShape, ranked: readonly Match[], mixture: Mixture): string {
  const main = mixture.parts[0]?.match
  if (!main) return ''
  const said: string[] = []
  const rival = closeRival(ranked, mixture)
  if (rival) {
    const band = tellingBand(scan, main, rival)
    said.push(`${main.reference.group} or ${rival.reference.group}: ${band} cannot decide`)
  }
  if (mixture.score < LOOSE)
    said.push('the references explain the scan only in part: something else may be in it')
  if (!isCommon(main.reference.group) && said.length === 0 && main.score < 0.9)
    said.push(`${main.reference.mineral} ${UNUSUAL}`)
  return said.join('; ')
}

/** The best match of a group that was not named, where it cannot be told from the main one. */
export function closeRival(ranked: readonly Match[], mixture: Mixture): Match | null {
  const main = mixture.parts[0]?.match
  const taken = new Set(mixture.parts.map((part) => part.match.reference.group))
  const rival = ranked.find(({ reference }) => !taken.has(reference.group))
  if (!main || !rival || rival.reference.silent) return null
  return main.score - rival.score < CLOSE ? rival : null
}

/** The band in which the two references' shapes, made equally strong, differ most. */
function tellingBand(scan: ScanShape, a: Match, b: Match): string {
  const ours = a.reference.shapeAt(scan.scale).linear
  const theirs = b.reference.shapeAt(scan.scale).linear
  const scaleA = 1 / Math.sqrt(a.energy + 1e-20)
  const scaleB = 1 / Math.sqrt(b.energy + 1e-20)
  let best = BANDS[0][2]
  let most = -1
  for (const [from, to, name] of BANDS) {
    const [start, end] = nodesBetween(from, to)
    let difference = 0
    for (let i = start; i < end; i++) difference += (ours[i] * scaleA - theirs[i] * scaleB) ** 2
    if (difference > most) {
      most = difference
      best = name
    }
  }
  return best
}
