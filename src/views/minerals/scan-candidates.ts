/** The minerals that a scan may hold, each with the reference that stands for it. */
import type { References } from '../../jobs/references'
import { compareCandidates, type Candidate } from '../../minerals/candidates'
import { factsOf, mineralOfRecord } from '../../minerals/catalogue'
import { modelReflectance } from '../../minerals/model'
import type { Identification, MineralShare } from '../../minerals/reference'
import { resample } from '../../spectra/resample'
import type { Spectrum } from '../../spectra/spectrum'
import { percent } from '../numbers'

/** A candidate as the screen speaks of it. */
export interface ScanCandidate extends Candidate {
  /** Why it is shown: its share, or that it is the runner-up. */
  readonly role: string
  /** Whether the main name could be its: the main mineral and those that were not named. */
  readonly rival: boolean
}

interface Asked extends Pick<ScanCandidate, 'role' | 'rival'> {
  readonly named: Partial<MineralShare>
}

/** More candidates than this are not shown beside each other. */
const MOST = 4

/**
 * The named minerals, the runner-up, the other group that the doubt speaks of, and one of the
 * geologist's choice.
 *
 * @param chosen a mineral to be shown beside them; empty for none
 */
export function candidatesOf(
  scan: Spectrum,
  found: Identification,
  references: References,
  chosen = '',
): ScanCandidate[] {
  const others: Asked[] = [
    ...(chosen ? [{ role: 'your choice', rival: true, named: { mineral: chosen } }] : []),
    ...(found.runnerUp ? [{ role: 'runner-up', rival: true, named: found.runnerUp }] : []),
    ...(found.rival ? [{ role: 'in doubt', rival: true, named: found.rival }] : []),
  ]
  const asked: Asked[] = [
    ...found.minerals
      .slice(0, others.length > 0 ? MOST - 1 : MOST)
      .map((named, i) => ({ role: `share ${percent(named.share)}`, rival: i === 0, named })),
    ...others,
  ]
  const once = asked.filter(
    ({ named }, i) => asked.findIndex((other) => other.named.mineral === named.mineral) === i,
  )
  return once.slice(0, MOST).flatMap(({ role, rival, named }) => {
    const candidate = bestReference(scan, named, references)
    return candidate ? [{ ...candidate, role, rival }] : []
  })
}

/** The reference that stood for a mineral; where none is told, the one that fits best. */
function bestReference(
  scan: Spectrum,
  { mineral = '', record }: Partial<MineralShare>,
  references: References,
): Candidate | null {
  const all = referencesOf(mineral, references)
  const stood = all.filter((entry) => entry.record === record)
  const candidates = (stood.length > 0 ? stood : all).map(({ ranges, curve }) => ({
    mineral,
    ranges,
    reflectance: curve(scan.wavelengths),
  }))
  const ranked = candidates.map((candidate) => ({ candidate, fit: meanFit(scan, candidate) }))
  return ranked.sort((a, b) => b.fit - a.fit)[0]?.candidate ?? null
}

function meanFit(scan: Spectrum, candidate: Candidate): number {
  const fits = compareCandidates(scan, [candidate]).flatMap((row) => row.fits[0]?.fit ?? [])
  return fits.length === 0 ? -1 : fits.reduce((sum, fit) => sum + fit, 0) / fits.length
}

interface Known {
  readonly record: string
  readonly ranges: Candidate['ranges']
  readonly curve: (wavelengths: Float64Array) => Float64Array
}

/** A mineral's references that are switched on, band tables and measured records alike. */
function referencesOf(mineral: string, { sets, measured, off, ranges }: References): Known[] {
  const tables = sets
    .flatMap((set) => set.references)
    .filter((entry) => entry.mineral === mineral && !off.includes(entry.record))
    .map((entry) => ({
      record: entry.record,
      ranges: ranges[mineral] ?? entry.diagnostic,
      curve: (wavelengths: Float64Array) => {
        const [from, to] = entry.range
        return modelReflectance(entry, wavelengths).map((value, i) =>
          wavelengths[i] < from || wavelengths[i] > to ? NaN : value,
        )
      },
    }))
  const records = measured
    .filter(({ name }) => !off.includes(name) && mineralOfRecord(name).mineral === mineral)
    .map((entry) => ({
      record: entry.name,
      ranges: ranges[mineral] ?? factsOf(mineralOfRecord(entry.name)).diagnostic,
      curve: (wavelengths: Float64Array) =>
        Float64Array.from(resample(entry, wavelengths).reflectance),
    }))
  return [...tables, ...records]
}
