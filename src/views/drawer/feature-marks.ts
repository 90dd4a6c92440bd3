/** Absorptions marked on the continuum-removed plot, each with its position and error. */
import { measureFeature, type WavelengthRange } from '../../spectra/feature'
import type { Spectrum } from '../../spectra/spectrum'
import type { FeatureMark } from '../charts/spectrum-plot'
import { withError } from '../numbers'

/**
 * Where absorptions of alteration minerals stand: search and hull ranges, nm.
 * Ranges as in docs/methods/indices.md.
 */
const WHERE: readonly (readonly [search: WavelengthRange, hull: WavelengthRange])[] = [
  [
    [760, 1050],
    [700, 1150],
  ],
  [
    [1380, 1430],
    [1350, 1440],
  ],
  [
    [1440, 1550],
    [1440, 1550],
  ],
  [
    [1880, 1960],
    [1850, 2090],
  ],
  [
    [2155, 2184],
    [2120, 2245],
  ],
  [
    [2185, 2225],
    [2120, 2245],
  ],
  [
    [2235, 2270],
    [2220, 2290],
  ],
  [
    [2300, 2370],
    [2230, 2400],
  ],
]

/** Shallower absorptions are not marked: they could be noise or a neighbour's flank. */
const SHALLOWEST = 0.02

/** The absorptions that stand out of a spectrum's noise. */
export function marksOf(spectrum: Spectrum, noise: number | null): FeatureMark[] {
  const marks: FeatureMark[] = []
  for (const [search, hull] of WHERE) {
    const feature = measureFeature(spectrum, search, hull, noise)
    if ('missing' in feature) continue
    const limit = Math.max(SHALLOWEST, 3 * (feature.depthError ?? 0))
    if (feature.depth < limit) continue
    const { position: value, positionError: error } = feature
    if (error !== null && error > 8) continue
    const label = error === null ? `${value.toFixed(1)}\u202fnm` : withError({ value, error }, 'nm')
    marks.push({ position: value, error, label })
  }
  return marks
}

/** Stretches of the spectrum worth a press; the whole is the first. */
const STRETCHES: readonly { readonly label: string; readonly range: WavelengthRange }[] = [
  { label: 'Iron 400–1300 nm', range: [400, 1300] },
  { label: 'OH, water 1300–2050', range: [1300, 2050] },
  { label: 'Al–OH, Mg–OH, CO₃ 2050–2450', range: [2050, 2450] },
]

/** The whole, and the stretches that a spectrum has a part of. */
export function namedRanges(whole: WavelengthRange): typeof STRETCHES {
  const has = ({ range }: (typeof STRETCHES)[number]) => range[0] < whole[1] && range[1] > whole[0]
  return [{ label: 'Whole', range: whole }, ...STRETCHES.filter(has)]
}
