/** What an answer to the question of a coordinate system would do, before it is given. */
import { numberIn } from '../../places/cells'
import { openCrs } from '../../places/crs'
import type { CrsQuestion } from '../../places/crs-question'
import { fixed } from '../numbers'

/** `none` while nothing is typed; words are for the screen. */
export interface Landing {
  readonly is: 'none' | 'wrong' | 'usable'
  readonly words: string
}

/**
 * Where the first row of the asked table would land.
 *
 * @param code `EPSG:n` or `local:m|km|ft`, as typed
 * @param sample the table's first pairs, as written
 */
export function landing(code: string, sample: CrsQuestion['sample']): Landing {
  if (code === '') return { is: 'none', words: '' }
  try {
    const crs = openCrs(code)
    if (crs.kind === 'local') {
      const words = `${crs.name}: no longitude and latitude, no GeoJSON, and nothing else to compare with.`
      return { is: 'usable', words }
    }
    const first = firstPair(sample)
    if (first === null) return { is: 'usable', words: crs.name }
    const degrees = crs.toGeographic(first[0], first[1])
    const outside =
      degrees === null ||
      Math.abs(degrees[1]) > 90 ||
      (crs.kind === 'geographic' && Math.abs(first[0]) > 360)
    if (outside) {
      const words = `${crs.name} cannot be it: ${first[0]}, ${first[1]} lies outside it. Try another code.`
      return { is: 'wrong', words }
    }
    const [east, north] = degrees
    const place = `${fixed(Math.abs(north), 3)}° ${north < 0 ? 'S' : 'N'}, ${fixed(Math.abs(east), 3)}° ${east < 0 ? 'W' : 'E'}`
    return { is: 'usable', words: `${crs.name} puts the first row at ${place}. Is that your area?` }
  } catch (error) {
    return { is: 'wrong', words: error instanceof Error ? error.message : String(error) }
  }
}

function firstPair(sample: CrsQuestion['sample']): [number, number] | null {
  for (const [x, y] of sample) {
    const decimal = /\d,\d/.test(x) && !x.includes('.') ? ',' : '.'
    const pair: [number, number] = [numberIn(x, decimal), numberIn(y, decimal)]
    if (pair.every(Number.isFinite)) return pair
  }
  return null
}
