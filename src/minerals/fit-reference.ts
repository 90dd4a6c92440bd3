/** A reference made out of a measured record: its band table and what the catalogue says of it. */
import { factsOf, mineralOfRecord } from './catalogue'
import { fitBands } from './fit-bands'
import type { NamedSpectrum } from './prepare'
import type { Reference } from './reference'

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
  const { continuum, bands, fitError, range } = fitBands(record, { diagnostic: facts.diagnostic })
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
