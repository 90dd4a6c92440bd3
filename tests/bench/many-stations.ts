/** Scans of many stations as one wide table with coordinates, invented from the built-in set. */
import { loadBuiltInSet } from '../../src/minerals/built-in'
import { modelReflectance } from '../../src/minerals/model'
import { seeded } from '../surfaces/scatter'

const MINERALS = ['muscovite', 'kaolinite', 'chlorite', 'calcite'] as const
/** nm; every tenth channel keeps the table light. */
const WAVELENGTHS = Float64Array.from({ length: 216 }, (_, channel) => 350 + 10 * channel)
/** Degrees of about 50 m. */
const STEP = 0.00045

/**
 * A row a scan, on a lattice of about 50 m: mixtures of three minerals whose parts change from
 * corner to corner, with a little noise of a fixed seed.
 */
export async function manyStations(count: number): Promise<string> {
  const { references } = await loadBuiltInSet()
  const logs = MINERALS.map((name) => {
    const reference = references.find(({ mineral, group }) => mineral === name || group === name)
    if (!reference) throw new Error(`The built-in set has no ${name}.`)
    return modelReflectance(reference, WAVELENGTHS).map(Math.log)
  })
  const random = seeded(5)
  const side = Math.ceil(Math.sqrt(count))
  const rows = [`Sample,Longitude,Latitude,${WAVELENGTHS.join(',')}`]
  for (let scan = 0; scan < count; scan++) {
    const [x, y] = [(scan % side) / side, Math.floor(scan / side) / side]
    const parts = [0.2 + x, 1.1 - x, 0.8 * y, 0.6 * (1 - y) * x]
    parts[scan % MINERALS.length] = 0
    const total = parts.reduce((sum, part) => sum + part, 0)
    const values = Array.from(WAVELENGTHS, (_, c) => {
      const log = parts.reduce((sum, part, m) => sum + (part / total) * logs[m][c], 0)
      return (Math.exp(log) + 0.0006 * (random() - 0.5)).toFixed(5)
    })
    const place = [-69 + STEP * (scan % side), -25 - STEP * Math.floor(scan / side)]
    rows.push(
      [`P${scan}`, ...place.map((degrees) => degrees.toFixed(6)), values.join(',')].join(','),
    )
  }
  return rows.join('\n') + '\n'
}
