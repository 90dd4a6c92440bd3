/** A reference made out of a measured record: its band table and what the catalogue says of it. */
import { factsOf, mineralOfRecord } from './catalogue'
import { measureFeature } from '../spectra/feature'
import { fitBands, type BandFit } from './fit-bands'
import type { NamedSpectrum } from './prepare'
import type { Reference } from './reference'

/** Reflectance error up to which a diagnostic band's position may be bought elsewhere. */
const ALLOWED_ERROR = 0.0038
/** Emphasis on the diagnostic ranges, tried in turn. */
const EMPHASES = [1, 0.7, 0.4, 0]
/** Half the stretch about a minimum that settles its position, nm. */
const FOCUS = 22
/** A shallower absorption has no position to keep. */
const SHALLOW = 0.02

/** The fit with the most emphasis on diagnostic positions that still reproduces the whole. */
function fitWell(record: NamedSpectrum, diagnostic: Reference['diagnostic']): BandFit {
  const focus = diagnostic.flatMap((hull): [number, number][] => {
    const feature = measureFeature(record, hull)
    if ('missing' in feature || feature.depth < SHALLOW) return []
    return [[feature.position - FOCUS, feature.position + FOCUS]]
  })
  let best: BandFit | null = null
  for (const emphasis of EMPHASES) {
    const fit = fitBands(record, { diagnostic, focus, emphasis })
    if (!best || fit.fitError < best.fitError) best = fit
    if (best.fitError <= ALLOWED_ERROR) return best
  }
  return best ?? fitBands(record)
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
