/** Has scans of the wavelength standard and of the check rock measured, and remembers the answer. */
import { daysOf } from '../check/day'
import { NO_STANDARDS, type DayStandards } from '../check/day-standards'
import type { Pool } from '../jobs/pool'
import type { KnownStandard } from '../jobs/standards'
import type { Problem } from '../readers/input'
import { spectrumOf } from '../spectra/scan-store'
import type { Spectrum } from '../spectra/spectrum'
import type { Active } from './active-scans'
import { matchesPattern } from './name-pattern'
import type { Holdings, ScanHead } from './project'
import type { CheckChoice, StandardChoice } from './recipe-check'

/** Measures the day’s scans of standard and check rock; remembers what it found of the same ingredients. */
export class DayChecks {
  #of: readonly [Active, StandardChoice | undefined, string | undefined] | null = null
  #found: DayStandards = NO_STANDARDS

  /**
   * What the scans of standard and rock say.
   *
   * @throws an AbortError when stopped; then nothing is remembered
   */
  async run(
    pool: Pool,
    holdings: Holdings,
    active: Active,
    { standard, rock }: CheckChoice = {},
    signal?: AbortSignal,
  ): Promise<DayStandards> {
    const before = this.#of
    if (before?.[0] !== active || before[1] !== standard || before[2] !== rock) {
      this.#found = await measure(pool, holdings, active, { standard, rock }, signal)
      this.#of = [active, standard, rock]
    }
    return this.#found
  }
}

async function measure(
  pool: Pool,
  holdings: Holdings,
  active: Active,
  { standard, rock }: CheckChoice,
  signal?: AbortSignal,
): Promise<DayStandards> {
  if (!standard && rock === undefined) return NO_STANDARDS
  const own = (scan: number): Spectrum => copied(spectrumOf(holdings.scans, active.numbers[scan]))
  const record = standard ? recordOf(standard, active.heads) : null
  const ofStandard = standard
    ? scansNamed(standard.scan, active.heads).filter((scan) => scan !== record)
    : []
  const ofRock = rock === undefined ? [] : scansNamed(rock, active.heads)
  const days = daysOf(active.heads.map(({ known }) => known.time?.seconds ?? null))
  const { shifts, rocks } = await pool.run(
    'measure standards',
    {
      standard: standard ? knownStandard(standard, record === null ? null : own(record)) : null,
      scans: ofStandard.map(own),
      rocks: ofRock.map((scan) => ({ spectrum: own(scan), day: days[scan] })),
    },
    { signal },
  )
  return {
    standard: standard?.scan ?? null,
    shifts: new Map(ofStandard.map((scan, i) => [scan, shifts[i]])),
    rock: rock ?? null,
    rocks: new Map(ofRock.map((scan, i) => [scan, rocks[i]])),
  }
}

/** What the recipe's check names and the project does not hold. */
export function checkProblems(
  { standard, rock }: CheckChoice = {},
  heads: readonly ScanHead[],
): Problem[] {
  const problem = (what: string, done: string): Problem => ({
    file: 'recipe',
    line: null,
    problem: what,
    done,
  })
  const problems: Problem[] = []
  if (standard && scansNamed(standard.scan, heads).length === 0) {
    const what = `its check names a wavelength standard ‘${standard.scan}’, of which no scan was read`
    problems.push(problem(what, 'the wavelength scale was not checked; correct the name'))
  }
  if (standard?.record !== undefined && recordOf(standard, heads) === null) {
    const what = `its check names a record ‘${standard.record}’, which was not read`
    problems.push(problem(what, 'the wavelength scale was not checked; hand the file over too'))
  }
  if (rock !== undefined && scansNamed(rock, heads).length === 0) {
    const what = `its check names a check rock ‘${rock}’, of which no scan was read`
    problems.push(problem(what, 'the days were not checked with it; correct the name'))
  }
  return problems
}

function scansNamed(pattern: string, heads: readonly ScanHead[]): number[] {
  return heads.flatMap(({ name, known }, scan) =>
    matchesPattern(pattern, name) || matchesPattern(pattern, known.sample ?? '') ? [scan] : [],
  )
}

/** The first scan of the record's file: a path as it was read, or the end of one. */
function recordOf({ record }: StandardChoice, heads: readonly ScanHead[]): number | null {
  if (record === undefined) return null
  const found = heads.findIndex(({ file }) => file === record || file.endsWith(`/${record}`))
  return found < 0 ? null : found
}

function knownStandard(
  { positions, bands }: StandardChoice,
  record: Spectrum | null,
): KnownStandard | null {
  if (positions) return { positions }
  return record && bands ? { record, bands } : null
}

/** A spectrum of its own: a view would take its whole block along to the worker. */
function copied({ wavelengths, reflectance }: Spectrum): Spectrum {
  return { wavelengths, reflectance: reflectance.slice() }
}
