/**
 * How names hold on samples unlike the references:
 *
 *   npx tsx tests/bench/identification-unlike.ts [--wrong]
 *
 * Each shared record is altered as nature and instruments do (alterations.ts), or as other
 * instruments sample (other-axes.ts), and named with its own sample left out, by all other records and by the built-in set. Records of purity a and b
 * are counted; settings are chosen on one half of the samples and judged on the other.
 */
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { sampleOfRecord } from '../../src/minerals/catalogue'
import { prepareSet, referencesFromScans } from '../../src/minerals/prepare'
import { readRecords } from '../minerals/library'
import { ALTERATIONS, type Alteration } from './alterations'
import { OTHER_AXES } from './other-axes'
import { leaveOneSampleOut, percentRight, type Answer } from './left-out'

/** Every second sample of each group, by name: the half that settings are judged on. */
function secondHalfOf(answers: readonly Answer[]): ReadonlySet<string> {
  const groups = new Map<string, Set<string>>()
  for (const { name, truth } of answers)
    groups.set(truth, (groups.get(truth) ?? new Set()).add(sampleOfRecord(name)))
  const halves = [...groups.values()].flatMap((samples) =>
    [...samples].sort().filter((_, i) => i % 2 === 1),
  )
  return new Set(halves)
}

interface Figures {
  readonly all: number
  readonly first: number
  readonly second: number
  readonly others: number
  /** Speaking minerals that were said to hold nothing diagnostic, %. */
  readonly silenced: number
}

function figuresOf(answers: readonly Answer[]): Figures {
  const pure = answers.filter((a) => a.pure)
  const second = secondHalfOf(answers)
  const isSecond = ({ name }: Answer): boolean => second.has(sampleOfRecord(name))
  const speaking = pure.filter((a) => a.truth !== 'nothing diagnostic')
  const silenced = speaking.filter((a) => a.said === 'nothing diagnostic').length
  return {
    all: percentRight(pure),
    first: percentRight(pure.filter((a) => !isSecond(a))),
    second: percentRight(pure.filter(isSecond)),
    others: percentRight(answers.filter((a) => !a.pure)),
    silenced: (100 * silenced) / speaking.length,
  }
}

const row = (name: string, values: readonly Figures[]): string => {
  const cells = values.flatMap((v) => [v.all, v.first, v.second, v.others, v.silenced])
  return name.padEnd(26) + cells.map((cell) => cell.toFixed(1).padStart(7)).join('')
}

function listWrong(answers: readonly Answer[]): void {
  for (const { name, said, truth, pure } of answers)
    if (pure && said !== truth) console.log(`    ${name}: ${truth} → ${said}`)
}

const minerals = readRecords('minerals')
const builtIn = prepareSet(await loadBuiltInSet())
const sets = [referencesFromScans(minerals), builtIn]
const untouched: Alteration = { name: 'as measured', alter: (scan) => scan }
console.log(
  `${''.padEnd(26)}${['all other records', 'built-in set'].map((s) => s.padStart(35)).join('')}`,
)
console.log(''.padEnd(26) + '    a,b  half1  half2    c,d silenc'.repeat(2))
function judged({ name, alter }: Alteration): Figures[] {
  const answers = sets.map((set) => leaveOneSampleOut(minerals, set, alter))
  const figures = answers.map(figuresOf)
  console.log(row(name, figures))
  if (process.argv.includes('--wrong')) answers.forEach(listWrong)
  return figures
}
judged(untouched)
const table = ALTERATIONS.map(judged)
const mean = sets.map((_, s): Figures => {
  const of = (key: keyof Figures): number =>
    table.reduce((sum, figures) => sum + figures[s][key], 0) / table.length
  return {
    all: of('all'),
    first: of('first'),
    second: of('second'),
    others: of('others'),
    silenced: of('silenced'),
  }
})
console.log(row('mean of the altered', mean))
OTHER_AXES.forEach(judged)
