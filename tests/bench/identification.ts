/**
 * How well minerals are named on the shared records (run: npx tsx tests/bench/identification.ts).
 *
 * Leave-one-sample-out over the pure minerals, with added noise, the built-in set, the prepared
 * mixtures and pure noise; plain and averaged over groups, with a confusion table.
 */
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { identify } from '../../src/minerals/identify'
import {
  prepareSet,
  referencesFromScans,
  type NamedSpectrum,
  type PreparedSet,
} from '../../src/minerals/prepare'
import { readRecords } from '../minerals/library'
import { answer, leaveOneSampleOut, type Answer } from './left-out'
import { mixtureOf } from './mixtures'
import { normalDraws } from './normal-draws'

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
const all = referencesFromScans(minerals)
const loso = leaveOneSampleOut(minerals, all)
accuracy('leave one sample out', loso)
confusion(loso)
const builtIn = prepareSet(await loadBuiltInSet())
const builtInOthers = leaveOneSampleOut(minerals, builtIn)
accuracy('built-in set less the record’s sample', builtInOthers)
confusion(builtInOthers)
const own = minerals.map((record) => answer(record, record.name, builtIn))
accuracy('built-in set on the records it was fitted to', own)
confusion(own)
mixtureFigures('mixtures, built-in set', mixtures, builtIn)
mixtureFigures('mixtures, all records', mixtures, all)
if (process.argv.includes('--quick')) process.exit()
for (const snr of full ? [100, 50, 25] : [50]) {
  const noisy = leaveOneSampleOut(minerals, all, (scan, seed) => withNoise(scan, snr, seed))
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
