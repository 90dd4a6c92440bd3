/** Reads the recipe's surfaces. */
import { SUPPORTS } from '../places/station'
import type { Structure, SurfaceRule, Variogram } from '../surfaces/model'
import { BELOW_DETECTION } from './below-detection'
import { RecipeError, type Cursor } from './json-cursor'

const METHODS = [
  'kriging',
  'inverse-distance',
  'nearest',
  'class-probability',
  'chance-above',
] as const
const MODELS = ['spherical', 'exponential', 'gaussian', 'matern'] as const
const KEYS = [
  'name',
  'value',
  'class',
  'group',
  'method',
  'cell',
  'neighbours',
  'power',
  'variogram',
  'reach',
  'mask',
  'support',
  'trend',
  'octants',
  'within',
  'barriers',
  'below_detection',
  'above',
  'realisations',
]

/**
 * One surface of a recipe.
 *
 * @throws RecipeError with its place
 */
export function readSurface(surface: Cursor): SurfaceRule {
  surface.allow(KEYS)
  const method = surface.at('method').oneOf(METHODS)
  const subjects = ['value', 'class', 'group'].filter((key) => surface.optional(key))
  if (subjects.length !== 1) {
    throw new RecipeError(surface.path, 'exactly one of value, class and group is expected')
  }
  if ((method === 'class-probability') === (subjects[0] === 'value')) {
    throw new RecipeError(
      surface.path,
      method === 'class-probability'
        ? 'a class-probability takes a class or a group, not a value'
        : `${method} takes a value; a class or group goes with class-probability`,
    )
  }
  return {
    name: surface.at('name').filledText(),
    value: surface.optional('value')?.text(),
    class: surface.optional('class')?.text(),
    group: surface.optional('group')?.text(),
    method,
    cell: surface.optional('cell')?.between(1e-6, 1e7),
    neighbours: surface.optional('neighbours')?.whole(1, 1000),
    power: surface.optional('power')?.between(0.1, 10),
    trend: readTrend(surface, method),
    octants: surface.optional('octants')?.whole(1, 100),
    within: surface.optional('within')?.filledText(),
    barriers: surface.optional('barriers')?.filledText(),
    below_detection: readBelowDetection(surface, subjects[0]),
    ...readChance(surface, method),
    variogram: readVariogram(surface.optional('variogram')),
    reach: surface.optional('reach')?.between(0, 1e8),
    mask: readMask(surface.optional('mask')),
    support: surface.optional('support')
      ? surface.list('support').map((support) => support.oneOf(SUPPORTS))
      : undefined,
  }
}

function readBelowDetection(surface: Cursor, subject: string): SurfaceRule['below_detection'] {
  const rule = surface.optional('below_detection')
  if (rule && subject !== 'value') {
    throw new RecipeError(rule.path, 'a rule for cells below detection goes with a value alone')
  }
  return rule?.oneOf(BELOW_DETECTION)
}

function readChance(
  surface: Cursor,
  method: SurfaceRule['method'],
): Pick<SurfaceRule, 'above' | 'realisations'> {
  if (method === 'chance-above') {
    return {
      above: surface.at('above').number(),
      realisations: surface.optional('realisations')?.whole(20, 2000),
    }
  }
  for (const key of ['above', 'realisations']) {
    if (surface.optional(key)) {
      throw new RecipeError(`${surface.path}.${key}`, `${key} goes with chance-above alone`)
    }
  }
  return {}
}

function readTrend(surface: Cursor, method: SurfaceRule['method']): SurfaceRule['trend'] {
  const degree = surface.optional('trend')?.whole(0, 2)
  if (degree === undefined) return undefined
  if (method !== 'kriging') {
    throw new RecipeError(`${surface.path}.trend`, 'a trend goes with kriging alone')
  }
  return degree === 0 ? 0 : degree === 1 ? 1 : 2
}

function readMask(mask: Cursor | undefined): SurfaceRule['mask'] {
  if (!mask) return undefined
  mask.allow(['surface', 'at_least', 'at_most'])
  return {
    surface: mask.at('surface').filledText(),
    at_least: mask.optional('at_least')?.number(),
    at_most: mask.optional('at_most')?.number(),
  }
}

function readVariogram(variogram: Cursor | undefined): SurfaceRule['variogram'] {
  if (!variogram) return undefined
  if (variogram.value === 'fit') return 'fit'
  if (typeof variogram.value === 'string') {
    throw new RecipeError(variogram.path, '"fit" or an object { nugget, structures } is expected')
  }
  variogram.allow(['nugget', 'structures', 'azimuth', 'ratio'])
  const structures = variogram.list('structures').map(readStructure)
  const nugget = variogram.at('nugget').between(0, Number.MAX_VALUE)
  if (nugget === 0 && structures.every(({ sill }) => sill === 0)) {
    throw new RecipeError(variogram.path, 'nugget and sills are all 0')
  }
  const model: Variogram = {
    nugget,
    structures,
    azimuth: variogram.optional('azimuth')?.between(-360, 360),
    ratio: variogram.optional('ratio')?.between(0.001, 1),
  }
  return model
}

function readStructure(structure: Cursor): Structure {
  structure.allow(['model', 'sill', 'range', 'smoothness'])
  return {
    model: structure.at('model').oneOf(MODELS),
    sill: structure.at('sill').between(0, Number.MAX_VALUE),
    range: structure.at('range').between(Number.MIN_VALUE, 1e9),
    smoothness: structure.optional('smoothness')?.between(0.05, 20),
  }
}
