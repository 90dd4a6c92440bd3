/** What is written of a variogram model by hand: forms, numbers, a second structure, a direction. */
import type { Structure, Variogram } from '../../surfaces/model'
import { DEFAULT_SMOOTHNESS } from '../../surfaces/variogram-models'

/** How the forms are called on the screen. */
export const FORMS: Readonly<Record<Structure['model'], string>> = {
  spherical: 'spherical',
  exponential: 'exponential',
  gaussian: 'gaussian',
  matern: 'Matérn',
}

/** A structure's form in words, a Matérn's smoothness with it. */
export function formWords({ model, smoothness = DEFAULT_SMOOTHNESS }: Structure): string {
  return model === 'matern' ? `${FORMS.matern} of smoothness ${smoothness}` : FORMS[model]
}

/** Most structures beside the nugget. */
export const MOST_STRUCTURES = 2

/** Limits of the numbers: of a structure, of the nugget and of the direction. */
export const NUMBERS = {
  nugget: [0, Infinity],
  sill: [0, Infinity],
  range: [Number.MIN_VALUE, 1e9],
  smoothness: [0.1, 10],
  azimuth: [-360, 360],
  ratio: [0.001, 1],
} as const

/** A model with a structure changed; a smoothness goes with Matérn alone. */
export function withStructure(
  variogram: Variogram,
  at: number,
  change: Partial<Structure>,
): Variogram {
  const structures = variogram.structures.map((structure, i) => {
    if (i !== at) return structure
    const { model, sill, range, smoothness } = { ...structure, ...change }
    if (model !== 'matern') return { model, sill, range }
    return { model, sill, range, smoothness: smoothness ?? DEFAULT_SMOOTHNESS }
  })
  return { ...variogram, structures }
}

/**
 * A model with one structure more, and the sill as it was. It stands first and is the shorter one:
 * spherical, half of the last one's sill at a fifth of its range. The handles of the plot move the
 * last. Of a model that is all nugget half becomes the first structure.
 *
 * @param range of a first structure, working units
 */
export function withOneMore(variogram: Variogram, range: number): Variogram {
  const last = variogram.structures.at(-1)
  if (!last) {
    const half = rounded(variogram.nugget / 2)
    const structure = { model: 'spherical' as const, sill: variogram.nugget - half, range }
    return { ...variogram, nugget: half, structures: [structure] }
  }
  const half = rounded(last.sill / 2)
  const shorter = { model: 'spherical' as const, sill: half, range: rounded(last.range / 5) }
  const others = variogram.structures.slice(0, -1)
  return { ...variogram, structures: [...others, shorter, { ...last, sill: last.sill - half }] }
}

/** A model without a structure, whose sill the one that stays takes over. */
export function withoutStructure(variogram: Variogram, at: number): Variogram {
  const gone = variogram.structures[at]
  const rest = variogram.structures.filter((_, i) => i !== at)
  const structures = rest.map((structure, i) =>
    i === rest.length - 1 ? { ...structure, sill: structure.sill + gone.sill } : structure,
  )
  return { ...variogram, structures }
}

/** A model whose longest range lies in a direction; with a ratio of 1 it has none. */
export function withDirection(
  { nugget, structures }: Variogram,
  azimuth: number,
  ratio: number,
): Variogram {
  return ratio < 1 ? { nugget, structures, azimuth, ratio } : { nugget, structures }
}

/** What is wrong with a number that was written, and what to do; empty where nothing is. */
export function numberTrouble(what: keyof typeof NUMBERS, value: number): string {
  const [least, most] = NUMBERS[what]
  if (value >= least && value <= most && Number.isFinite(value)) return ''
  if (what === 'range') return 'A range must be above 0; the model stays as it was.'
  const limits = most === Infinity ? `${least} or more` : `between ${least} and ${most}`
  return `The ${what} must be ${limits}; the model stays as it was.`
}

/** Four digits, as people write numbers and as the plot's handles keep them. */
export function rounded(value: number): number {
  return Number(value.toPrecision(4))
}
