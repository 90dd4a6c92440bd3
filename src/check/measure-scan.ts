/** All that is measured on one scan for the check; judging comes after and is cheap. */
import { estimateNoise } from '../spectra/noise'
import type { Spectrum } from '../spectra/spectrum'
import { meanReflectance } from '../spectra/statistics'
import { correctSteps, type CorrectedStep, type UntoldStep } from './correct-steps'
import { measureForeign, type ForeignBands } from './foreign'
import { measureLampLines, type LampLines } from './lamp-lines'
import { measureLevels, type Levels } from './levels'
import { likenessOf, type Likeness } from './likeness'
import type { SharedAtJoins } from './shared-steps'
import { measureSteps, type DetectorStep } from './steps'
import { freeWater, measureWater, type WaterBand } from './water'

/** A detector's noise in a window that is quiet in most rocks. */
export interface WindowNoise {
  /** nm */
  readonly at: number
  /** One standard deviation of reflectance; null where it cannot be told. */
  readonly noise: number | null
  /** Mean reflectance within 10 nm; null where there is none. */
  readonly level: number | null
}

/** Plain numbers about one scan; passes between workers as it is. */
export interface ScanMeasures {
  /** One a detector: near 800, 1650 and 2200 nm. */
  readonly noise: readonly WindowNoise[]
  readonly levels: Levels | null
  /** Near 1000 and near 1800 nm; null where it cannot be told. */
  readonly steps: readonly (DetectorStep | null)[]
  /** Absorbance of free water at 1940 nm; 0 where minerals explain it. */
  readonly water: number
  /** The absorption near 1940 nm, whatever water it is of; null where there is none. */
  readonly water1940: WaterBand | null
  readonly foreign: ForeignBands
  /** Lines of lamps; null where they cannot be told. */
  readonly lampLines: LampLines | null
  readonly likeness: Likeness
  /**
   * The steps that were taken out before the rest was measured; absent where the correction is
   * not switched on.
   */
  readonly corrected?: readonly CorrectedStep[]
  /** The joins that were left as they are, because the step there cannot be told; likewise. */
  readonly untold?: readonly UntoldStep[]
}

/** One window a detector, nm; the last is the one that a verdict's noise stands for. */
const WINDOWS = [800, 1650, 2200] as const

/** Measures a scan for the check. Never throws: what cannot be told is null. */
export function measureScan(spectrum: Spectrum): ScanMeasures {
  const water = measureWater(spectrum)
  return {
    noise: WINDOWS.map((at) => ({
      at,
      noise: estimateNoise(spectrum, at),
      level: meanReflectance(spectrum, at - 10, at + 10),
    })),
    levels: measureLevels(spectrum),
    steps: measureSteps(spectrum),
    water: freeWater(water),
    water1940: water.near1940,
    foreign: measureForeign(spectrum),
    lampLines: measureLampLines(spectrum),
    likeness: likenessOf(spectrum),
  }
}

/** A scan with its steps corrected, and its measures. */
export interface CorrectedMeasures {
  readonly spectrum: Spectrum
  readonly measures: ScanMeasures
}

/**
 * Measures a scan whose steps are to be corrected: all on the corrected spectrum but the marks
 * by which copies are found.
 *
 * @param shared what scans of other rocks say of the steps
 */
export function measureCorrected(
  original: Spectrum,
  shared: SharedAtJoins = [],
): CorrectedMeasures {
  const { spectrum, steps, untold } = correctSteps(original, { shared })
  const measures = measureScan(spectrum)
  return {
    spectrum,
    measures: { ...measures, likeness: likenessOf(original), corrected: steps, untold },
  }
}

/** The noise that a verdict stands for: one standard deviation of reflectance at 2200 nm. */
export function noiseOf({ noise }: ScanMeasures): number | null {
  return noise[noise.length - 1].noise
}
