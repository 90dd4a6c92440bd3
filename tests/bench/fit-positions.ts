/**
 * How well the built-in references keep the positions of their records' diagnostic minima:
 *
 *   npx tsx tests/bench/fit-positions.ts [SET.json] [--list]
 *
 * Positions are measured as the program measures them, on record and model alike, over each
 * diagnostic range as search and hull. Beside the plain figures stands how well the record
 * itself settles a position: by noise, and by how far the lowest channel may wander.
 */
import { readFileSync } from 'node:fs'
import { modelReflectance } from '../../src/minerals/model'
import { readReferenceSet } from '../../src/minerals/set-file'
import { measureFeature } from '../../src/spectra/feature'
import { estimateNoise } from '../../src/spectra/noise'
import { readRecords } from '../minerals/library'

const [file = 'src/minerals/reference-set/built-in.json'] = process.argv
  .slice(2)
  .filter((argument) => !argument.startsWith('--'))
const isListed = process.argv.includes('--list')
const SHALLOW = 0.02

interface Row {
  readonly record: string
  readonly hull: readonly [number, number]
  readonly depth: number
  readonly position: number
  readonly off: number
  readonly error: number
}

const set = readReferenceSet(JSON.parse(readFileSync(file, 'utf8')))
const records = new Map(readRecords('minerals').map((record) => [record.name, record]))
const rows: Row[] = set.references.flatMap((reference) => {
  const record = records.get(reference.record)
  if (!record) return []
  const model = {
    wavelengths: record.wavelengths,
    reflectance: modelReflectance(reference, record.wavelengths),
  }
  return reference.diagnostic.flatMap((hull): Row[] => {
    const noise = estimateNoise(record, (hull[0] + hull[1]) / 2) ?? 0
    const own = measureFeature(record, hull, hull, noise)
    if ('missing' in own || own.depth < SHALLOW) return []
    const its = measureFeature(model, hull)
    const off = 'missing' in its ? Infinity : its.position - own.position
    return [
      {
        record: reference.record,
        hull,
        depth: own.depth,
        position: own.position,
        off,
        error: own.positionError ?? NaN,
      },
    ]
  })
})
const offs = rows.map(({ off }) => Math.abs(off)).sort((a, b) => a - b)
const errors = set.references.map(({ fitError }) => fitError).sort((a, b) => a - b)
const bands = set.references.map(({ bands }) => bands.length)
console.log(`${set.references.length} references, at most ${Math.max(...bands)} bands`)
console.log(`fit error: median ${errors[errors.length >> 1]}, largest ${errors.at(-1)}`)
console.log(
  `${rows.length} minima at least ${SHALLOW} deep: median ${offs[offs.length >> 1].toFixed(3)} nm, within 1 nm ${offs.filter((off) => off <= 1).length}`,
)
const settled = rows.filter(({ error }) => error <= 1)
console.log(
  `${settled.length} of them are settled by their record to 1 nm (one standard error, by noise and channels): within 1 nm ${settled.filter(({ off }) => Math.abs(off) <= 1).length}; of the other ${rows.length - settled.length}: ${rows.filter(({ off, error }) => !(error <= 1) && Math.abs(off) <= 1).length}`,
)
const beyond = rows.filter(({ off }) => Math.abs(off) > 1)
if (isListed)
  for (const row of beyond)
    console.log(
      `${row.record} ${row.hull.join('–')}: depth ${row.depth.toFixed(3)}, ${row.position.toFixed(1)} ± ${row.error.toFixed(2)}, off ${row.off.toFixed(2)}`,
    )
