/** Lines of the room's lamps in a scan: light that is not the probe's. */
import { cropTo, resample } from '../spectra/resample'
import type { Spectrum } from '../spectra/spectrum'

/** The vapour whose lines stand in a scan. */
export type LampVapour = 'mercury' | 'sodium'

/** Lines of lamps that were looked for. */
export interface LampLines {
  readonly vapour: LampVapour
  /**
   * The second largest height of its lines over the course of the curve about them, all to one
   * side, so that one odd channel is no lamp; reflectance.
   */
  readonly height: number
}

/**
 * Lines of mains lighting, nm, as a field instrument sees them (NIST Atomic Spectra Database, from
 * memory). Mercury (435.8, 546.1, 1014.0) stands in fluorescent, mercury and most halide lamps,
 * beside it in the first the red phosphor with europium (611.3); sodium (the pairs at 568.5, 818.3
 * and 819.5, 1138.1 and 1140.4) in high-pressure sodium lamps and most halide ones. Its yellow
 * pair is too broad to tell from rock; argon's lines are a fiftieth of mercury's.
 */
export const LAMP_LINES: Readonly<Record<LampVapour, readonly number[]>> = {
  mercury: [435.8, 546.1, 611.3, 1014.0],
  sodium: [568.5, 819.0, 1139.3],
}

/** Beyond the silicon detector resolution is about three times as wide (common practice), nm. */
const SILICON_ENDS = 1000

/**
 * The lines that stand highest; null where the record is too coarse or reaches none of them.
 */
export function measureLampLines(spectrum: Spectrum): LampLines | null {
  const found = (['mercury', 'sodium'] as const).flatMap((vapour) => {
    const height = secondLargest(spectrum, LAMP_LINES[vapour])
    return height === null ? [] : [{ vapour, height }]
  })
  return found.reduce<LampLines | null>(
    (most, lines) => (most === null || lines.height > most.height ? lines : most),
    null,
  )
}

function secondLargest(spectrum: Spectrum, lines: readonly number[]): number | null {
  const heights = lines.map((nm) => lineHeight(spectrum, nm)).filter((height) => height !== null)
  if (heights.length < 2) return null
  const up = heights.filter((height) => height > 0).sort((a, b) => b - a)
  const down = heights.filter((height) => height < 0).sort((a, b) => a - b)
  return Math.max(up[1] ?? 0, -(down[1] ?? 0))
}

/** A line's middle against those 5 to 9 nm away on both sides, twice as far in the infrared. */
function lineHeight(spectrum: Spectrum, nm: number): number | null {
  const part = cropTo(spectrum, nm - 24, nm + 24)
  if (part.wavelengths.length < 33) return null
  const scale = nm > SILICON_ENDS ? 2 : 1
  const { reflectance: r } = resample(
    part,
    Float64Array.of(-9, -7, -5, -1, 0, 1, 5, 7, 9).map((offset) => nm + scale * offset),
  )
  const sides = (r[0] + r[1] + r[2] + r[6] + r[7] + r[8]) / 6
  const height = (r[3] + r[4] + r[5]) / 3 - sides
  // A broad curve rises from far to near as well: take off what its own bend explains.
  const bend = (r[2] + r[6]) / 2 - (r[0] + r[8]) / 2
  return Number.isNaN(height) ? null : height - 0.9 * bend
}
