/**
 * How well minerals are named on the shared records (run: npx tsx tests/bench/identification.ts).
 *
 * Leave-one-sample-out over the pure minerals, with added noise, the built-in set, the prepared
 * mixtures and pure noise; plain and averaged over groups, with a confusion table.
 */
import { mineralOfRecord, purityOfRecord, sampleOfRecord } from '../../src/minerals/catalogue'
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { isSilent } from '../../src/minerals/groups'
import { identify } from '../../src/minerals/identify'
import {
  prepareSet,
  referencesFromScans,
  type NamedSpectrum,
  type PreparedSet,
} from '../../src/minerals/prepare'
import { NOTHING_DIAGNOSTIC } from '../../src/minerals/reference'
import { readRecords } from '../minerals/library'
import { mixtureOf } from './mixtures'

interface Answer {
  readonly name: string
  readonly truth: string
  readonly said: string
  readonly pure: boolean
}

/** Standard normal draws (Box and Muller 1958) from a 32-bit congruential generator. */
function normalDraws(seed: number): () => number {
  let state = seed >>> 0
  const uniform = (): number => {
    state = (Math.imul(1664525, state) + 1013904223) >>> 0
    return (state + 0.5) / 2 ** 32
  }
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
}

function withNoise(scan: NamedSpectrum, snr: number, seed: number): NamedSpectrum {
  const draw = normalDraws(seed)
  const at = scan.wavelengths.findIndex((nm) => nm >= 2200)
  let level = scan.reflectance[at]
  if (Number.isNaN(level)) level = 0.5
  return { ...scan, reflectance: scan.reflectance.map((value) => value + (draw() * level) / snr) }
}

function accuracy(label: string, answers: readonly Answer[]): number {
  const right = (a: Answer): boolean => a.said === a.truth
  const part = (list: readonly Answer[]): number => list.filter(right).length / list.length
  const pure = answers.filter((a) => a.pure)
  const groups = [...new Set(pure.map((a) => a.truth))]
  const mean =
    groups.reduce((sum, g) => sum + part(pure.filter((a) => a.truth === g)), 0) / groups.length
  const percent = (x: number): string => (100 * x).toFixed(1)
  console.log(
    `${label}: ${percent(part(pure))} % of ${pure.length} (a, b); over ${groups.length} groups ${percent(mean)} %; others ${percent(part(answers.filter((a) => !a.pure)))} % of ${answers.length - pure.length}`,
  )
  return part(pure)
}

function confusion(answers: readonly Answer[]): void {
  const wrong = new Map<string, string[]>()
  for (const { truth, said, name } of answers.filter((a) => a.pure && a.said !== a.truth)) {
    const key = `${truth} → ${said}`
    wrong.set(key, [...(wrong.get(key) ?? []), name])
  }
  const rows = [...wrong].sort((a, b) => b[1].length - a[1].length)
  for (const [key, names] of rows)
    console.log(`  ${key}: ${names.length} (${names.slice(0, 4).join(', ')})`)
}

/** The groups before some were split (`--lumped`), so that the split's worth can be seen. */
const LUMPED: ReadonlyMap<string, string> = new Map([
  ['zoisite', 'epidote'],
  ['trioctahedral smectite', 'smectite'],
  ['mixed-layer illite–smectite', 'mixed-layer clay'],
  ['mixed-layer chlorite–smectite', 'mixed-layer clay'],
  ['copiapite', 'iron sulfate'],
  ['coquimbite', 'iron sulfate'],
  ['butlerite', 'iron sulfate'],
  ['schwertmannite', 'iron sulfate'],
])
const lumped = process.argv.includes('--lumped')
const countedAs = (group: string): string => (lumped ? LUMPED.get(group) : undefined) ?? group

const truthOf = (name: string): string => {
  const { group } = mineralOfRecord(name)
  return isSilent(group) ? NOTHING_DIAGNOSTIC : countedAs(group)
}

function answer(scan: NamedSpectrum, name: string, set: PreparedSet): Answer {
  const { minerals } = identify(scan, set)
  return {
    name,
    truth: truthOf(name),
    said: countedAs(minerals[0]?.group ?? NOTHING_DIAGNOSTIC),
    pure: 'ab'.includes(purityOfRecord(name) ?? '-'),
  }
}

/** Each record named by references of other samples alone. */
function leaveOneSampleOut(
  records: readonly NamedSpectrum[],
  snr: number | null,
  all: PreparedSet = referencesFromScans(records),
): Answer[] {
  const samples = new Map<string, Set<string>>()
  for (const { name } of records) {
    const truth = truthOf(name)
    samples.set(truth, (samples.get(truth) ?? new Set()).add(sampleOfRecord(name)))
  }
  const sets = new Map<string, PreparedSet>()
  return records.flatMap((record, i) => {
    if ((samples.get(truthOf(record.name))?.size ?? 0) < 2) return []
    const sample = sampleOfRecord(record.name)
    let set = sets.get(sample)
    if (!set) {
      set = { references: all.references.filter((reference) => reference.sample !== sample) }
      sets.set(sample, set)
    }
    return [answer(snr === null ? record : withNoise(record, snr, 17 * i + 1), record.name, set)]
  })
}

function mixtureFigures(label: string, mixtures: readonly NamedSpectrum[], set: PreparedSet): void {
  let main = 0
  let found = 0
  let largest = 0
  let alien = 0
  let count = 0
  let error = 0
  let parts = 0
  for (const scan of mixtures) {
    const mixture = mixtureOf(scan.name)
    if (!mixture) continue
    count++
    const { minerals } = identify(scan, set)
    const mains = Object.keys(mixture.weights).filter((group) => mixture.weights[group] >= 0.2)
    const all = mains.every((group) => minerals.some((mineral) => mineral.group === group))
    if (all) found++
    main += mains.length
    const right = (mixture.weights[minerals[0]?.group ?? ''] ?? 0) >= 0.3
    if (right) largest++
    const strangers = new Set(
      minerals.filter((m) => m.share >= 0.1 && !(m.group in mixture.weights)).map((m) => m.group),
    )
    alien += strangers.size
    for (const [group, weight] of Object.entries(mixture.weights)) {
      const share = minerals.filter((m) => m.group === group).reduce((sum, m) => sum + m.share, 0)
      error += Math.abs(share - weight)
      parts++
    }
    if (!all || !right || strangers.size > 0)
      console.log(
        `  ${scan.name}: ${minerals.map((m) => `${m.mineral} ${m.share.toFixed(2)}`).join(', ')}`,
      )
  }
  console.log(
    `${label}: all main components in ${found} of ${count} (${main} components), largest share right in ${largest}, ${alien} false groups, mean |share − weight| ${(error / parts).toFixed(3)}`,
  )
}

const full = process.argv.includes('--full')
const minerals = readRecords('minerals')
const mixtures = readRecords('mixtures')
const loso = leaveOneSampleOut(minerals, null)
accuracy('leave one sample out', loso)
confusion(loso)
const builtIn = prepareSet(await loadBuiltInSet())
const builtInOthers = leaveOneSampleOut(minerals, null, builtIn)
accuracy('built-in set less the record’s sample', builtInOthers)
confusion(builtInOthers)
const own = minerals.map((record) => answer(record, record.name, builtIn))
accuracy('built-in set on the records it was fitted to', own)
confusion(own)
mixtureFigures('mixtures, built-in set', mixtures, builtIn)
mixtureFigures('mixtures, all records', mixtures, referencesFromScans(minerals))
if (process.argv.includes('--quick')) process.exit()
for (const snr of full ? [100, 50, 25] : [50]) {
  const noisy = leaveOneSampleOut(minerals, snr)
  if (process.argv.includes('--confusion')) confusion(noisy)
  accuracy(`leave one sample out, signal-to-noise ${snr}`, noisy)
}
let silent = 0
const trials = full ? 1000 : 200
for (let trial = 0; trial < trials; trial++) {
  const axis = minerals[trial % minerals.length].wavelengths
  const flat = {
    name: 'flat',
    wavelengths: axis,
    reflectance: new Float32Array(axis.length).fill(0.4),
  }
  const snr = [100, 50, 25, 10][trial % 4]
  if (identify(withNoise(flat, snr, 1000 + trial), builtIn).minerals.length === 0) silent++
}
console.log(
  `pure noise: nothing diagnostic in ${((100 * silent) / trials).toFixed(1)} % of ${trials}`,
)
const started = process.hrtime.bigint()
for (const scan of minerals) identify(scan, builtIn)
const seconds = Number(process.hrtime.bigint() - started) / 1e9
console.log(`${(minerals.length / seconds).toFixed(0)} scans/s on one thread`)
