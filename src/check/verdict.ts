/** The verdict on a scan, with its reasons. */
import type { CorrectedStep, UntoldStep } from './correct-steps'

export type Check = 'sound' | 'doubtful' | 'set aside'

/** One reason for doubt: what was measured, against which limit, and what to do about it. */
export interface Reason {
  /** A short stable name, such as `detector step`. */
  readonly reason: string
  readonly measure: number
  readonly limit: number
  /** The unit of both; empty for a pure number. */
  readonly unit: string
  /** A sentence with the figure in it that says what is wrong and what to do. */
  readonly words: string
}

export interface Verdict {
  readonly check: Check
  readonly reasons: readonly Reason[]
  /** One standard deviation of reflectance noise at 2200 nm (fraction); null where it cannot be told. */
  readonly noise: number | null
  /** What could not be told, in words; no doubt by itself. Absent where all could. */
  readonly cannotTell?: readonly string[]
  /** Detector steps that were taken out; absent where the correction is not switched on. */
  readonly corrected?: readonly CorrectedStep[]
  /** Joins that the correction left as they are, because the step there cannot be told. */
  readonly untold?: readonly UntoldStep[]
}
