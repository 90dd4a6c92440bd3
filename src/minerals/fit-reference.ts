/** A reference made out of a measured record: its band table and what the catalogue says of it. */
import { factsOf, mineralOfRecord } from './catalogue'
import { measureFeature } from '../spectra/feature'
import { ALLOWED_ERROR, fitBands, type BandFit } from './fit-bands'
import type { KeptMinimum } from './fit-positions'
import { modelReflectance } from './model'
import type { NamedSpectrum } from './prepare'
import type { Reference } from './reference'

/** Emphasis on the diagnostic ranges, tried in turn. */
const EMPHASES = [1, 0.85, 0.7, 0.55, 0.4, 0.2, 0, 1.15, 0.95, 0.78, 0.63, 0.48]
/** Minima further from the record's than this ask for another trial, nm. */
const KEPT = 0.9
/** A reference keeps every diagnostic minimum as near as this, nm. */
const FURTHEST = 1
/** A shallower absorption has no position to keep. */
const SHALLOW = 0.02

/** The first trial that keeps all positions and reproduces the whole, else the one nearest to it. */
function fitWell(record: NamedSpectrum, diagnostic: Reference['diagnostic']): BandFit {
  const minima = minimaOf(record, diagnostic)
  let best: BandFit | null = null
  let least = Infinity
  for (const emphasis of EMPHASES) {
    const fit = fitBands(record, { diagnostic, minima, emphasis })
    const moved = movedBy(record, fit, minima).filter((nm) => nm > KEPT).length
    const worth = moved + (fit.fitError > ALLOWED_ERROR ? 1000 * (1 + fit.fitError) : 0)
    if (best === null || worth < least) [best, least] = [fit, worth]
    if (least === 0) break
  }
  return best ?? fitBands(record)
}

/** The record's diagnostic absorptions that are deep enough to have a position. */
function minimaOf(record: NamedSpectrum, diagnostic: Reference['diagnostic']): KeptMinimum[] {
  return diagnostic.flatMap((hull): KeptMinimum[] => {
    const feature = measureFeature(record, hull)
    if ('missing' in feature || feature.depth < SHALLOW) return []
    return [{ hull, position: feature.position }]
  })
}

/** How far each minimum of the table as it is kept lies from the record's, nm. */
function movedBy(
  { wavelengths }: NamedSpectrum,
  fit: Pick<BandFit, 'continuum' | 'bands'>,
  minima: readonly KeptMinimum[],
): number[] {
  const model = { wavelengths, reflectance: modelReflectance(fit, wavelengths) }
  return minima.map(({ hull, position }) => {
    const found = measureFeature(model, hull)
    return 'missing' in found ? Infinity : Math.abs(found.position - position)
  })
}

/**
 * What a reference's bands lose of its record: the diagnostic absorption whose minimum they put
 * furthest away, where that is more than 1 nm. A minimum that 40 bands cannot keep is flat and
 * as noisy as the record's channels, and positions read off such a reference would mislead.
 *
 * @returns a sentence for the reader, or null where every position is kept
 */
export function lostPosition(record: NamedSpectrum, reference: Reference): string | null {
  const minima = minimaOf(record, reference.diagnostic)
  const moved = movedBy(record, reference, minima)
  const most = Math.max(0, ...moved)
  if (most <= FURTHEST) return null
  const { hull, position } = minima[moved.indexOf(most)]
  const off = Number.isFinite(most) ? `${most.toFixed(1)} nm away` : 'nowhere'
  return `its bands put the ${position.toFixed(0)} nm minimum (${hull.join('–')} nm) ${off}`
}

/**
 * Fits a record and names it by the catalogue.
 *
 * @param record the library record; its name's first word is the mineral
 * @param variety what sets it apart within its mineral, or null
 * @throws where too few channels can be fitted
 */
export function fitReference(record: NamedSpectrum, variety: string | null): Reference {
  const entry = mineralOfRecord(record.name)
  const facts = factsOf(entry)
  const { continuum, bands, fitError, range } = fitWell(record, facts.diagnostic)
  return {
    mineral: entry.mineral,
    variety,
    symbol: entry.symbol,
    group: entry.group,
    record: record.name,
    fitError,
    range,
    diagnostic: facts.diagnostic,
    confusedWith: facts.confusedWith,
    setting: facts.setting,
    fibrous: entry.fibrous,
    ...(facts.silent ? { silent: true } : {}),
    continuum,
    bands,
  }
}
