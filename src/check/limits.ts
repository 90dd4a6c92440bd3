/** The limits that make a scan doubtful or set it aside; the user may change each. */

export interface CheckLimits {
  /** Reflectance over noise in the worst of three windows, below which a scan is doubtful. */
  readonly signalToNoise: number
  /** The same, below which it is set aside. */
  readonly unusableSignalToNoise: number
  /** 98th percentile of reflectance below which the detector saw nothing: set aside. */
  readonly noSignal: number
  /** Part of the channels from 420 to 2400 nm that are gaps, 0 to 1. */
  readonly gaps: number
  /** Relative size of a step at a detector join. */
  readonly detectorStep: number
  /** 98th percentile of reflectance. */
  readonly overOne: number
  /** 2nd percentile of reflectance, below nought by this. */
  readonly underZero: number
  /** Length of a run of equal values, nm. */
  readonly flat: number
  /** How near to 1 the median of a scan of the panel lies, and how even it is, fractions. */
  readonly panelLevel: number
  readonly panelUnevenness: number
  /** Absorbance of free water at 1940 nm; 0.3 takes away 26 % of the light there. */
  readonly freeWater: number
  /** Minutes since the last white reference. */
  readonly whiteReferenceAge: number
  /** Drift since the white reference, by a scan of the panel; a fraction. */
  readonly drift: number
  /** Minutes from the day's first scan during which steps tell of warming up. */
  readonly warmUp: number
  /** Shift of the wavelength scale on a standard, nm. */
  readonly wavelengthShift: number
  /** Departure of the check rock from its usual brightness, and from its usual course. */
  readonly checkRockLevel: number
  readonly checkRockShape: number
  /** Depth of the C–H bands of plastic and grease. */
  readonly hydrocarbon: number
  /** Depth of chlorophyll's band. */
  readonly chlorophyll: number
  /** Part of the light that is lost below a marker's red edge. */
  readonly dye: number
  /** Depth of cellulose's band. */
  readonly cellulose: number
  /** Height of lamp lines, reflectance. */
  readonly lampLines: number
  /** Difference of two scans in noise below which they are one measurement. */
  readonly nearDuplicate: number
  /** How many times the others' spread a scan may depart from those of its station and target. */
  readonly oddReplicate: number
}

/**
 * Defaults. The age of the white reference and the time to warm up are common practice (15 minutes
 * each), and so are drift, shift and the check rock's limits. The others were set on the
 * measurements of USGS Spectral Library Version 7 that lie beside the project, so that under 2 % of them are doubted; docs/methods/check.md has the figures.
 */
export const DEFAULT_LIMITS: CheckLimits = {
  signalToNoise: 20,
  unusableSignalToNoise: 5,
  noSignal: 0.01,
  gaps: 0.2,
  detectorStep: 0.015,
  overOne: 1.05,
  underZero: 0.005,
  flat: 30,
  panelLevel: 0.1,
  panelUnevenness: 0.03,
  freeWater: 0.32,
  whiteReferenceAge: 15,
  drift: 0.02,
  warmUp: 15,
  wavelengthShift: 1,
  checkRockLevel: 0.1,
  checkRockShape: 0.04,
  hydrocarbon: 0.02,
  chlorophyll: 0.05,
  dye: 0.18,
  cellulose: 0.025,
  lampLines: 0.005,
  nearDuplicate: 0.2,
  oddReplicate: 6,
}

/** What a limit is, and between which values it may be set. */
export interface LimitKind {
  readonly words: string
  /** `fraction` is of 1; empty for a pure number. */
  readonly unit: 'fraction' | 'reflectance' | 'absorbance' | 'nm' | 'min' | ''
  readonly low: number
  readonly high: number
}

/** Every limit in the order in which it is shown. */
export const LIMIT_KINDS: Readonly<Record<keyof CheckLimits, LimitKind>> = {
  signalToNoise: kind('signal-to-noise, doubtful below', '', 0, 1e5),
  unusableSignalToNoise: kind('signal-to-noise, set aside below', '', 0, 1e5),
  detectorStep: kind('step where detectors meet', 'fraction', 0.001, 1),
  overOne: kind('brightest part', 'reflectance', 0.5, 10),
  underZero: kind('darkest part below 0 by', 'reflectance', 0, 1),
  flat: kind('stretch of one value', 'nm', 0, 2500),
  gaps: kind('channels without a value', 'fraction', 0, 1),
  noSignal: kind('no signal below', 'reflectance', 0, 0.5),
  freeWater: kind('free water at 1940 nm', 'absorbance', 0, 10),
  whiteReferenceAge: kind('age of the white reference', 'min', 0, 1440),
  drift: kind('drift since the white reference', 'fraction', 0, 1),
  warmUp: kind('time to warm up', 'min', 0, 1440),
  wavelengthShift: kind('shift on the wavelength standard', 'nm', 0, 50),
  checkRockLevel: kind('check rock, brightness', 'fraction', 0, 1),
  checkRockShape: kind('check rock, shape', 'fraction', 0, 1),
  hydrocarbon: kind('bands of plastic or grease', 'fraction', 0, 1),
  chlorophyll: kind('chlorophyll', 'fraction', 0, 1),
  dye: kind('marker ink', 'fraction', 0, 1),
  cellulose: kind('paper or wood', 'fraction', 0, 1),
  lampLines: kind('lines of lamps', 'reflectance', 0, 1),
  nearDuplicate: kind('two scans are copies below, times their noise', '', 0, 2),
  oddReplicate: kind('unlike its replicates, times their spread', '', 1, 1000),
  panelLevel: kind('white panel: brightness off 1 by', 'fraction', 0, 0.5),
  panelUnevenness: kind('white panel: uneven by', 'fraction', 0, 0.5),
}

function kind(words: string, unit: LimitKind['unit'], low: number, high: number): LimitKind {
  return { words, unit, low, high }
}
