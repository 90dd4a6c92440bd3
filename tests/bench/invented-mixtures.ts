/**
 * How mixtures made of library records are taken apart:
 *
 *   npx tsx tests/bench/invented-mixtures.ts [--list]
 *
 * Two or three minerals that are found together, of purity a and b, in like parts (0.6 to 1.4 to
 * one another), alone and as half of a bright matrix without absorptions, side by side (areal:
 * reflectances add up) and within a powder (intimate: single-scattering albedos add up by
 * cross-section, Hapke 1981; parts are cross-sections, which for grains of one size and density
 * are weights). Against the built-in set, and against it less every sample that is in the mixture.
 */
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { mineralOfRecord, purityOfRecord, sampleOfRecord } from '../../src/minerals/catalogue'
import { identify } from '../../src/minerals/identify'
import { prepareSet, type NamedSpectrum, type PreparedSet } from '../../src/minerals/prepare'
import { readRecords } from '../minerals/library'
import { seeded } from '../surfaces/scatter'
import { albedoOf, reflectanceOf } from './alterations'

/** Groups that are found together (general knowledge). */
const TOGETHER = `
alunite, kaolin, white mica; alunite, kaolin; alunite, pyrophyllite; alunite, jarosite
kaolin, white mica; kaolin, smectite; kaolin, opal; kaolin, pyrophyllite; white mica, pyrophyllite
white mica, smectite; smectite, zeolite; calcite, smectite; dolomite, smectite; kaolin, calcite
white mica, calcite; white mica, dolomite; white mica, siderite; calcite, dolomite
chlorite, calcite; chlorite, epidote; chlorite, epidote, calcite; chlorite, white mica
chlorite, calcite, white mica; biotite–phlogopite, chlorite; amphibole, chlorite
amphibole, epidote; amphibole, calcite; talc, dolomite; talc, serpentine; serpentine, dolomite
gypsum, kaolin; gypsum, jarosite; gypsum, white mica; gypsum, smectite; gypsum, jarosite, kaolin
jarosite, kaolin; jarosite, white mica; jarosite, goethite; goethite, kaolin
goethite, white mica; goethite, smectite; kaolin, goethite, white mica
hematite, kaolin; hematite, white mica
`
  .trim()
  .split(/[;\n]/)
  .map((groups) => groups.trim().split(', '))

/** Mixtures of each kind. */
const EACH = 6
const MATRIX = 0.75
/** Standard deviation of the noise on each channel, reflectance. */
const NOISE = 0.0003
/** nm */
const AXIS = Float64Array.from({ length: 2151 }, (_, channel) => 350 + channel)

interface Invented {
  readonly records: readonly string[]
  readonly groups: readonly string[]
  readonly scan: NamedSpectrum
}

type Way = 'areal' | 'intimate'

/** A record's reflectance on the axis, gaps bridged. */
function onAxis({ wavelengths, reflectance }: NamedSpectrum): Float64Array {
  const known = Array.from(wavelengths.keys()).filter((i) => reflectance[i] > 0)
  let k = 0
  return AXIS.map((nm) => {
    while (k < known.length - 2 && wavelengths[known[k + 1]] < nm) k++
    const [a, b] = [known[k], known[k + 1]]
    const t = (nm - wavelengths[a]) / (wavelengths[b] - wavelengths[a])
    return reflectance[a] + Math.min(1, Math.max(0, t)) * (reflectance[b] - reflectance[a])
  })
}

function mixed(parts: readonly Float64Array[], amounts: readonly number[], way: Way): Float64Array {
  const [into, back] = way === 'areal' ? [Number, Number] : [albedoOf, reflectanceOf]
  return AXIS.map((_, i) =>
    back(parts.reduce((sum, part, k) => sum + amounts[k] * into(part[i]), 0)),
  )
}

function* invent(
  pools: ReadonlyMap<string, readonly NamedSpectrum[]>,
  way: Way,
  matrix: number,
): Iterable<Invented> {
  const random = seeded(20_261_129)
  const flat = new Float64Array(AXIS.length).fill(MATRIX)
  for (const groups of TOGETHER) {
    for (let i = 0; i < EACH; i++) {
      const records = groups.map((group) => {
        const pool = pools.get(group) ?? []
        return pool[Math.floor(random() * pool.length)]
      })
      const raw = groups.map(() => 0.6 + 0.8 * random())
      const total = raw.reduce((sum, value) => sum + value, 0)
      const amounts = [...raw.map((value) => ((1 - matrix) * value) / total), matrix]
      const clean = mixed([...records.map(onAxis), flat], amounts, way)
      // The sum of twelve even draws is nearly normal.
      const draw = () => Array.from({ length: 12 }, random).reduce((sum, v) => sum + v, -6)
      const reflectance = Float32Array.from(clean, (value) => value + NOISE * draw())
      const scan = { name: 'invented', wavelengths: AXIS, reflectance }
      yield { records: records.map(({ name }) => name), groups, scan }
    }
  }
}

/** A set less the samples that a mixture is made of; null where one of its groups is gone then. */
function without(set: PreparedSet, { records, groups }: Invented): PreparedSet | null {
  const used = new Set(records.map(sampleOfRecord))
  const references = set.references.filter(({ sample }) => !used.has(sample))
  const isThere = (group: string) => references.some((reference) => reference.group === group)
  return groups.every(isThere) ? { references } : null
}

function judge(
  label: string,
  mixtures: Iterable<Invented>,
  setFor: (made: Invented) => PreparedSet | null,
): void {
  let [count, all, parts, found, leading, strangers, nothing] = [0, 0, 0, 0, 0, 0, 0]
  for (const made of mixtures) {
    const set = setFor(made)
    if (!set) continue
    const { minerals } = identify(made.scan, set)
    const named = new Set(minerals.map(({ group }) => group))
    const seen = made.groups.filter((group) => named.has(group)).length
    const false_ = minerals.filter(
      ({ share, group }) => share >= 0.1 && !made.groups.includes(group),
    )
    count++
    parts += made.groups.length
    found += seen
    if (seen === made.groups.length) all++
    if (made.groups.includes(minerals[0]?.group ?? '')) leading++
    if (minerals.length === 0) nothing++
    strangers += new Set(false_.map(({ group }) => group)).size
    if (process.argv.includes('--list') && (seen < made.groups.length || false_.length > 0))
      console.log(
        `  ${made.records.join(' + ')}: ${minerals.map((m) => `${m.mineral} ${m.share.toFixed(2)}`).join(', ')}`,
      )
  }
  const percent = (n: number, of: number): string => ((100 * n) / of).toFixed(1)
  console.log(
    `${label}: all parts in ${percent(all, count)} % of ${count}, ${percent(found, parts)} % of parts, largest share one of them ${percent(leading, count)} %, ${(strangers / count).toFixed(2)} false groups each, nothing in ${nothing}`,
  )
}

const pools = new Map<string, NamedSpectrum[]>()
for (const record of readRecords('minerals')) {
  if (!'ab'.includes(purityOfRecord(record.name) ?? '-')) continue
  const { group } = mineralOfRecord(record.name)
  pools.set(group, [...(pools.get(group) ?? []), record])
}
const builtIn = prepareSet(await loadBuiltInSet())
for (const matrix of [0, 0.5]) {
  for (const way of ['areal', 'intimate'] as const) {
    const label = `${way}${matrix > 0 ? ', half of it matrix' : ''}`
    judge(`${label}, built-in set`, invent(pools, way, matrix), () => builtIn)
    judge(`${label}, less the samples`, invent(pools, way, matrix), (made) =>
      without(builtIn, made),
    )
  }
}
