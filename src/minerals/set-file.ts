/**
 * A reference set as a file: JSON in which a band is a row [position nm, width nm, strength],
 * so that a person can read and compare the tables.
 */
import type { Band, Provenance, Reference, ReferenceSet } from './reference'

/** The number that a set file carries, raised when its layout changes. */
const LAYOUT = 1
const MOST_REFERENCES = 2000
const MOST_BANDS = 40
const MOST_SAID = 200

/** The text of a set file; the same set gives the same bytes, fitted here or read from its file. */
export function writeReferenceSet(set: ReferenceSet): string {
  const head = { referenceSet: LAYOUT, name: set.name, source: set.source }
  const rows = set.references.map((reference) => {
    const { mineral, variety, symbol, group, record, fitError, range, diagnostic } = reference
    const { confusedWith, setting, fibrous, silent, continuum } = reference
    const provenance = reference.provenance && inOrder(reference.provenance)
    const bands = reference.bands.map((b) => [b.position, b.width, b.strength])
    const facts = { mineral, variety, symbol, group, record, fitError, range, diagnostic }
    const rest = { confusedWith, setting, fibrous, silent, continuum, bands, provenance }
    return JSON.stringify({ ...facts, ...rest })
  })
  const open = JSON.stringify(head, null, 2).replace(/\n}$/, '')
  return `${open},\n  "references": [\n    ${rows.join(',\n    ')}\n  ]\n}\n`
}

function inOrder({ site, note, said }: Provenance): Provenance {
  return { site, note, said: said.map(({ who, when, why }) => ({ who, when, why })) }
}

/**
 * A set from a parsed set file.
 *
 * @param file what JSON.parse gave; not trusted
 * @throws with the entry and what is wrong with it
 */
export function readReferenceSet(file: unknown): ReferenceSet {
  const set = record(file, 'The file')
  if (set.referenceSet !== LAYOUT)
    throw new Error(
      `This is not a reference set of layout ${LAYOUT}; export the set again with this version.`,
    )
  const rows = list(set.references, 'references', MOST_REFERENCES)
  return {
    name: text(set.name, 'name'),
    source: text(set.source, 'source'),
    references: rows.map((row, i) => readReference(row, `Reference ${i + 1}`)),
  }
}

function readReference(value: unknown, where: string): Reference {
  const row = record(value, where)
  const mineral = text(row.mineral, `${where}: mineral`)
  const here = `${where} (${mineral})`
  const continuum = list(row.continuum, `${here}: continuum`, 100).map((knot) =>
    pair(knot, `${here}: continuum knot`),
  )
  if (continuum.length < 2 || continuum.some((knot, k) => k > 0 && knot[0] <= continuum[k - 1][0]))
    throw new Error(`${here}: the continuum needs two or more knots in ascending wavelength.`)
  return {
    mineral,
    variety: optionalText(row.variety, `${here}: variety`),
    symbol: optionalText(row.symbol, `${here}: symbol`),
    group: text(row.group, `${here}: group`),
    continuum,
    bands: list(row.bands, `${here}: bands`, MOST_BANDS).map((band) => readBand(band, here)),
    record: text(row.record, `${here}: record`),
    fitError: number(row.fitError, `${here}: fitError`),
    range: pair(row.range, `${here}: range`),
    diagnostic: list(row.diagnostic, `${here}: diagnostic`, 20).map((range) =>
      pair(range, `${here}: diagnostic range`),
    ),
    confusedWith: list(row.confusedWith, `${here}: confusedWith`, 50).map((name) =>
      text(name, `${here}: confusedWith`),
    ),
    setting: text(row.setting, `${here}: setting`),
    fibrous: row.fibrous === true,
    ...(row.silent === true ? { silent: true } : {}),
    ...(row.provenance === undefined
      ? {}
      : { provenance: readProvenance(row.provenance, `${here}: provenance`) }),
  }
}

function readProvenance(value: unknown, where: string): Provenance {
  const { site, note, said } = record(value, where)
  return {
    site: text(site, `${where}: site`),
    note: text(note, `${where}: note`),
    said: list(said, `${where}: said`, MOST_SAID).map((each) => {
      const { who, when, why } = record(each, `${where}: said`)
      return {
        who: text(who, `${where}: who`),
        when: text(when, `${where}: when`),
        why: text(why, `${where}: why`),
      }
    }),
  }
}

function readBand(value: unknown, here: string): Band {
  if (!Array.isArray(value) || value.length !== 3)
    throw new Error(`${here}: a band is a row [position, width, strength].`)
  const [position, width, strength] = value.map((part) => number(part, `${here}: band`))
  if (!(width > 0)) throw new Error(`${here}: the band at ${position} nm has no width.`)
  return { position, width, strength }
}

function record(value: unknown, what: string): Record<string, unknown> {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    throw new Error(`${what} is not a table of named values.`)
  return value as Record<string, unknown>
}

function list(value: unknown, what: string, most: number): readonly unknown[] {
  if (!Array.isArray(value)) throw new Error(`${what} is not a list.`)
  if (value.length > most)
    throw new Error(`${what} has ${value.length} entries; at most ${most} are read.`)
  return value
}

function text(value: unknown, what: string): string {
  if (typeof value !== 'string' || value.length > 1000) throw new Error(`${what} is not a text.`)
  return value
}

function optionalText(value: unknown, what: string): string | null {
  return value === null || value === undefined ? null : text(value, what)
}

function number(value: unknown, what: string): number {
  if (typeof value !== 'number' || !Number.isFinite(value))
    throw new Error(`${what} is not a number.`)
  return value
}

function pair(value: unknown, what: string): [number, number] {
  if (!Array.isArray(value) || value.length !== 2)
    throw new Error(`${what} is not a pair of numbers.`)
  return [number(value[0], what), number(value[1], what)]
}
