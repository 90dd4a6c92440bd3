/** Reasons that something else in the spot gives: plastic, plants, ink, paper, the light of the room. */
import { doubtful, percent, type Finding } from './finding'
import type { ForeignBands } from './foreign'
import { LAMP_LINES } from './lamp-lines'
import type { CheckLimits } from './limits'
import type { ScanMeasures, WindowNoise } from './measure-scan'

/** Depths must be this many times the relative noise: a hull over noise feigns a few. */
const OVER_NOISE = 3
const OVER_VISIBLE_NOISE = 8
const OVER_LINE_NOISE = 6

/** What lies on or beside the rock and is told by a band's depth, a fraction. */
interface ForeignMatter {
  readonly reason: string
  /** The measure's name, which is its limit's as well. */
  readonly band: keyof ForeignBands & keyof CheckLimits
  /** The quiet window whose relative noise the depth has to exceed, and how many times. */
  readonly quiet: 'first' | 'second' | 'last'
  readonly overNoise: number
  readonly words: (depth: string) => string
}

const MATTERS: readonly ForeignMatter[] = [
  {
    reason: 'plastic or grease',
    band: 'hydrocarbon',
    quiet: 'second',
    overNoise: OVER_NOISE,
    words: (depth) =>
      `Bands of plastic or grease ${depth} deep at 1730 nm: take the bag or film off, clean the spot and scan again.`,
  },
  {
    reason: 'vegetation or lichen',
    band: 'chlorophyll',
    quiet: 'first',
    overNoise: OVER_VISIBLE_NOISE,
    words: (depth) =>
      `Chlorophyll ${depth} deep at 675 nm: plants or lichen are in the spot; scan a clean face. (Marker ink can look so.)`,
  },
  {
    reason: 'marker ink',
    band: 'dye',
    quiet: 'first',
    overNoise: OVER_VISIBLE_NOISE,
    words: (depth) =>
      `Below an edge in the red ${depth} of the light is lost, and beyond it nothing: dye, as of marker ink, or plants are in the spot; scan a clean face.`,
  },
  {
    reason: 'paper or wood',
    band: 'cellulose',
    quiet: 'last',
    overNoise: OVER_NOISE,
    words: (depth) =>
      `Cellulose ${depth} deep at 2100 nm: a label, paper or wood is in the spot; take it off and scan again.`,
  },
]

/** What says that the probe saw more than the rock; each makes the scan doubtful. */
export function foreignFindings(measures: ScanMeasures, limits: CheckLimits): Finding[] {
  const matters = MATTERS.flatMap((matter) => matterFinding(matter, measures, limits) ?? [])
  return [...matters, ...lampFinding(measures, limits)]
}

function matterFinding(
  { reason, band, quiet, overNoise, words }: ForeignMatter,
  { foreign, noise }: ScanMeasures,
  limits: CheckLimits,
): Finding | null {
  const window = { first: noise[0], second: noise[1], last: noise.at(-1) }[quiet]
  const measure = foreign[band]
  if (!(measure > Math.max(limits[band], overNoise * relative(window)))) return null
  return doubtful({
    reason,
    measure,
    limit: limits[band],
    unit: '',
    words: words(percent(measure)),
  })
}

function lampFinding({ lampLines, noise }: ScanMeasures, limits: CheckLimits): Finding[] {
  const floor = OVER_LINE_NOISE * (noise[0]?.noise ?? 0)
  if (lampLines === null || !(lampLines.height > Math.max(limits.lampLines, floor))) return []
  const { vapour, height } = lampLines
  const lines = LAMP_LINES[vapour].map((nm) => nm.toFixed(0)).join(', ')
  const words = `Lines of ${vapour} lamps stand ${height.toFixed(3)} high (at ${lines} nm): press the probe to the rock or switch the room light off, and take a new white reference.`
  return [
    doubtful({
      reason: 'room light',
      measure: height,
      limit: limits.lampLines,
      unit: 'reflectance',
      words,
    }),
  ]
}

function relative(quiet: WindowNoise | undefined): number {
  if (!quiet || quiet.noise === null || quiet.level === null) return 0
  return quiet.level > 0 ? quiet.noise / quiet.level : Infinity
}
