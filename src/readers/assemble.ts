/** Raw columns of numbers to scans: units decided, order made ascending, faults named. */
import {
  isRepeated,
  overlapWords,
  spliced,
  spliceOf,
  spliceReason,
  type Splice,
} from './detector-overlap'
import type { Companion, Layout, Problem, ReadResult, ReadScan } from './input'
import { leftOut } from './result'
import {
  axisFault,
  RUN_BACK,
  TWICE,
  decideReflectanceUnit,
  decideWavelengthUnit,
  FEWEST_CHANNELS,
  FULL_SCALE,
  namedReflectanceUnit,
  namedWavelengthUnit,
  short,
  toNanometres,
  type AxisFault,
  type Decision,
  type ReflectanceUnit,
  type WavelengthUnit,
} from './units'

/** One scan as its numbers stood in the file, gaps as NaN, in the axis's order. */
export interface RawScan {
  readonly name: string
  readonly values: Float64Array
  readonly metadata: Readonly<Record<string, string>>
  /** The line that a problem with it is told of. */
  readonly line: number | null
}

/** All scans of a file on one axis, before anything is decided. */
export interface RawScans {
  readonly file: string
  /** Wavelengths as in the file; or a companion's, then in nm. */
  readonly axis: Float64Array
  readonly companion?: Companion
  readonly bandwidths?: Companion
  /** Where channel i stands, for messages. */
  readonly lineOf: (channel: number) => string
  readonly lineNumber: (channel: number) => number | null
  readonly scans: readonly RawScan[]
  /** What the header says of wavelengths and of reflectance. */
  readonly wavelengthHint: string
  readonly reflectanceHint: string
  readonly layout: Pick<Layout, 'name' | 'decimal' | 'delimiter' | 'encoding'>
}

/** Values looked at to tell fractions from percent. */
const SAMPLE = 150

/** An axis whose order and unit are settled; it depends on the axis and its hint alone. */
export interface SettledAxis {
  readonly wavelength: Decision<WavelengthUnit>
  readonly axis: AscendingAxis
  /** How overlapping detectors were put together; null where there are none. */
  readonly splice: Splice | null
  /** The numbers on that axis. */
  readonly raw: RawScans
}

/** Decides units and makes scans of raw numbers, or says why it cannot. */
export function assemble(
  whole: RawScans,
  overrides: Partial<Layout>,
  problems: readonly Problem[] = [],
): ReadResult {
  const settled = settleAxis(whole, overrides, problems)
  return 'layout' in settled ? settled : assembleOn(settled, whole, overrides, problems)
}

/** Decides the order and the unit of an axis, or gives the file left out with what is wrong. */
export function settleAxis(
  whole: RawScans,
  overrides: Partial<Layout>,
  problems: readonly Problem[],
): SettledAxis | ReadResult {
  const { raw, splice, fault } = inOrder(whole)
  if (fault !== null) {
    const advice = 'export the scan again with each wavelength once, in order'
    const result = leftOut(raw.file, raw.lineNumber(fault.channel), fault.problem, advice)
    return { ...result, problems: [...problems, ...result.problems] }
  }
  const wavelength = wavelengthDecision(raw, overrides)
  const axis = ascending(raw.axis, wavelength.unit)
  const outside = outsideOptics(axis.wavelengths, wavelength.unit)
  if (outside === null) return { wavelength, axis, splice, raw }
  const advice = 'set the wavelength unit by hand if it was misread'
  return leftOut(raw.file, raw.lineNumber(0), outside, advice)
}

/** Decides the unit of reflectance and makes scans on an axis that is settled. */
export function assembleOn(
  { wavelength, axis, splice, raw }: SettledAxis,
  whole: RawScans,
  overrides: Partial<Layout>,
  problems: readonly Problem[],
): ReadResult {
  const reflectance = reflectanceDecision(raw, overrides)
  if (reflectance === null) {
    const most = short(largest(raw.scans))
    return leftOut(
      raw.file,
      raw.scans[0]?.line ?? null,
      `values up to ${most} are no reflectance but raw counts or radiance`,
      'export reflectance (the ratio to the white panel)',
    )
  }
  const faults: Problem[] = [...problems]
  const scans: ReadScan[] = []
  for (const [i, scan] of raw.scans.entries()) {
    const told = splice === null ? scan : withOverlap(whole, i, scan, splice, wavelength.unit)
    const made = 'problem' in told ? told : makeScan(raw, told, axis, FULL_SCALE[reflectance.unit])
    if ('problem' in made) faults.push(made)
    else scans.push(made)
  }
  return {
    kind: scans.length > 0 ? 'scans' : 'unknown',
    scans,
    tables: [],
    tracks: [],
    layout: {
      ...raw.layout,
      name: raw.layout.name,
      wavelengthUnit: wavelength.unit,
      reflectanceUnit: reflectance.unit,
      reasons: [
        wavelength.reason,
        reflectance.reason,
        ...(splice === null ? [] : [spliceReason(splice, wavelength.unit)]),
      ],
    },
    problems: faults,
  }
}

/** Scans whose axis rises or falls throughout, or what is wrong with it. */
interface Ordered {
  readonly raw: RawScans
  /** How overlapping detectors were put together; null where there are none. */
  readonly splice: Splice | null
  readonly fault: AxisFault | null
}

/** Axes that were found in order: files alike share theirs. */
const inOrderAlready = new WeakSet<Float64Array>()

function inOrder(whole: RawScans): Ordered {
  if (inOrderAlready.has(whole.axis)) return { raw: whole, splice: null, fault: null }
  const fault = axisFault(whole.axis, whole.lineOf)
  if (fault === null) inOrderAlready.add(whole.axis)
  const isBack =
    fault !== null && (fault.problem.startsWith(RUN_BACK) || fault.problem.includes(TWICE))
  // A library's wavelengths stand in order; its records have no rows to tell a splice of.
  if (!isBack || whole.companion !== undefined) return { raw: whole, splice: null, fault }
  const splice = spliceOf(whole.axis)
  if (splice === null) return { raw: whole, splice, fault }
  if ('problem' in splice) {
    const { channel, why } = splice
    const problem = `${splice.problem} at ${whole.lineOf(channel)}${why}`
    return { raw: whole, splice: null, fault: { problem, channel } }
  }
  const twice = splice.overlaps.find((overlap) => isRepeated(whole, overlap))
  if (twice !== undefined) {
    const [from, to] = [twice.from, twice.to].map(short)
    const problem = `the rows from ${from} to ${to} stand twice (again from ${whole.lineOf(twice.next[0])})`
    return { raw: whole, splice: null, fault: { problem, channel: twice.next[0] } }
  }
  const raw = spliced(whole, splice)
  return { raw, splice, fault: axisFault(raw.axis, raw.lineOf) }
}

/** A scan with the line of metadata that tells of its overlaps, or why it is none. */
function withOverlap(
  whole: RawScans,
  index: number,
  scan: RawScan,
  splice: Splice,
  unit: WavelengthUnit,
): RawScan | Problem {
  const told = overlapWords(whole.scans[index].values, splice, unit)
  if ('key' in told) return { ...scan, metadata: { ...scan.metadata, [told.key]: told.value } }
  return {
    file: whole.file,
    line: whole.lineNumber(splice.overlaps[0].next[0]),
    problem: `the scan ${scan.name} is no one scan: ${told.problem}`,
    done: 'left out; export it again with each wavelength once',
  }
}

function wavelengthDecision(raw: RawScans, overrides: Partial<Layout>): Decision<WavelengthUnit> {
  if (raw.companion !== undefined)
    return { unit: 'nm', reason: `wavelengths from ${raw.companion.file}` }
  if (overrides.wavelengthUnit !== undefined)
    return { unit: overrides.wavelengthUnit, reason: 'the wavelength unit was set by hand' }
  return decideWavelengthUnit(raw.axis, namedWavelengthUnit(raw.wavelengthHint))
}

function reflectanceDecision(
  raw: RawScans,
  overrides: Partial<Layout>,
): { unit: ReflectanceUnit; reason: string } | null {
  if (overrides.reflectanceUnit !== undefined)
    return { unit: overrides.reflectanceUnit, reason: 'the reflectance unit was set by hand' }
  const sample = sampleOf(raw.scans)
  if (sample.length === 0) return { unit: 'fraction', reason: 'there are no values' }
  return decideReflectanceUnit(sample, namedReflectanceUnit(raw.reflectanceHint))
}

/** Some 150 values that are no gaps, spread evenly over scans and channels. */
function sampleOf(scans: readonly RawScan[]): Float64Array {
  const total = scans.reduce((sum, scan) => sum + scan.values.length, 0)
  const step = Math.max(1, Math.floor(total / SAMPLE))
  const sample: number[] = []
  let offset = 0
  for (const { values } of scans) {
    let i = offset
    for (; i < values.length; i += step) if (!Number.isNaN(values[i])) sample.push(values[i])
    offset = i - values.length
  }
  if (sample.length < 20 && step > 1)
    for (const { values } of scans) {
      for (const value of values)
        if (!Number.isNaN(value) && sample.length < 4000) sample.push(value)
    }
  return new Float64Array(sample)
}

function largest(scans: readonly RawScan[]): number {
  let most = -Infinity
  for (const { values } of scans) for (const value of values) if (value > most) most = value
  return most
}

export interface AscendingAxis {
  readonly wavelengths: Float64Array
  readonly reversed: boolean
}

function ascending(axis: Float64Array, unit: WavelengthUnit): AscendingAxis {
  const rises = axis[axis.length - 1] > axis[0]
  const reversed = unit === 'cm⁻¹' ? rises : !rises
  if (unit === 'nm') return { wavelengths: reversed ? axis.slice().reverse() : axis, reversed }
  const wavelengths = axis.map((value) => toNanometres(value, unit))
  return { wavelengths: reversed ? wavelengths.reverse() : wavelengths, reversed }
}

/** Reflected light of rocks is measured between 100 nm and 100 µm; other numbers are no wavelengths. */
function outsideOptics(wavelengths: Float64Array, unit: WavelengthUnit): string | null {
  const first = wavelengths[0]
  const last = wavelengths[wavelengths.length - 1]
  if (first >= 100 && last <= 100_000) return null
  return `wavelengths from ${short(first)} to ${short(last)} nm, read as ${unit}, are no wavelengths`
}

function makeScan(
  raw: RawScans,
  scan: RawScan,
  axis: AscendingAxis,
  fullScale: number,
): ReadScan | Problem {
  const count = scan.values.length
  const reflectance = new Float32Array(count)
  let present = 0
  if (fullScale === 1) reflectance.set(scan.values)
  else for (let i = 0; i < count; i++) reflectance[i] = scan.values[i] / fullScale
  if (axis.reversed) reflectance.reverse()
  for (let i = 0; i < count && present < FEWEST_CHANNELS; i++)
    if (!Number.isNaN(reflectance[i])) present++
  if (present < FEWEST_CHANNELS) {
    return {
      file: raw.file,
      line: scan.line,
      problem: `the scan ${scan.name} has ${present === 0 ? 'no values' : `only ${present} values`}`,
      done: 'left out; export it again',
    }
  }
  return {
    name: scan.name,
    file: raw.file,
    wavelengths: axis.wavelengths,
    reflectance,
    metadata: scan.metadata,
    ...(raw.bandwidths === undefined ? {} : { bandwidths: raw.bandwidths.values }),
  }
}
