/** Reads the recipe's surfaces. */
import { SUPPORTS } from '../places/station'
import { METHODS, type Structure, type SurfaceRule, type Variogram } from '../surfaces/model'
import { NO_RANKS_WITH_MEAN } from '../surfaces/transforms'
import { BELOW_DETECTION } from './below-detection'
import { RecipeError, type Cursor } from './json-cursor'

const MODELS = ['spherical', 'exponential', 'gaussian', 'matern'] as const
const KEYS = [
  'name',
  'value',
  'class',
  'group',
  'classes',
  'groups',
  'method',
  'cell',
  'neighbours',
  'power',
  'variogram',
  'reach',
  'error_at_most',
  'hull',
  'mask',
  'doubt_at_most',
  'support',
  'trend',
  'octants',
  'stations_at_least',
  'within',
  'barriers',
  'below_detection',
  'composite',
  'transform',
  'declustered',
  'drift',
  'above',
  'realisations',
  'contour_interval',
]

/**
 * One surface of a recipe.
 *
 * @throws RecipeError with its place
 */
export function readSurface(surface: Cursor): SurfaceRule {
  surface.allow(KEYS)
  const method = surface.at('method').oneOf(METHODS)
  const subject = readSubject(surface, method)
  return {
    name: surface.at('name').filledText(),
    value: surface.optional('value')?.text(),
    class: surface.optional('class')?.text(),
    group: surface.optional('group')?.text(),
    ...readOutcomes(surface),
    method,
    cell: surface.optional('cell')?.between(1e-6, 1e7),
    neighbours: surface.optional('neighbours')?.whole(1, 1000),
    power: surface.optional('power')?.between(0.1, 10),
    trend: readTrend(surface, method),
    transform: readTransform(surface, method),
    declustered: readDeclustered(surface, method),
    drift: readDrift(surface, method),
    octants: surface.optional('octants')?.whole(1, 100),
    stations_at_least: surface.optional('stations_at_least')?.whole(1, 1000),
    within: surface.optional('within')?.filledText(),
    barriers: surface.optional('barriers')?.filledText(),
    below_detection: readBelowDetection(surface, subject),
    composite: surface.optional('composite')?.between(0.01, 1e4),
    ...readChance(surface, method),
    variogram: readVariogram(surface.optional('variogram')),
    reach: surface.optional('reach')?.between(0, 1e8),
    error_at_most: readErrorAtMost(surface, method),
    contour_interval: readContourInterval(surface, method),
    hull: surface.optional('hull')?.between(0, 1e8),
    mask: readMask(surface.optional('mask')),
    doubt_at_most: readDoubtAtMost(surface, method),
    support: surface.optional('support')
      ? surface.list('support').map((support) => support.oneOf(SUPPORTS))
      : undefined,
  }
}

const SUBJECTS = ['value', 'class', 'group', 'classes', 'groups'] as const

/** What goes with what: one subject, and of the kind that the method takes. */
function readSubject(surface: Cursor, method: SurfaceRule['method']): string {
  const subjects = SUBJECTS.filter((key) => surface.optional(key))
  if (subjects.length !== 1) {
    const of = method === 'likeliest-class' ? 'classes and groups' : 'value, class and group'
    throw new RecipeError(surface.path, `exactly one of ${of} is expected`)
  }
  const [subject] = subjects
  const [kind, wanted] =
    method === 'likeliest-class'
      ? [['classes', 'groups'], 'takes classes ("all" or a list) or groups']
      : method === 'class-probability'
        ? [['class', 'group'], 'takes a class or a group, not a value']
        : [['value'], 'takes a value; a class or group goes with class-probability']
  if (!kind.includes(subject)) throw new RecipeError(surface.path, `${method} ${wanted}`)
  return subject
}

/** More classes could not be told apart on a map. */
const MOST_OUTCOMES = 40

function readOutcomes(surface: Cursor): Pick<SurfaceRule, 'classes' | 'groups'> {
  const classes = surface.optional('classes')
  if (classes?.value === 'all') return { classes: 'all' }
  if (typeof classes?.value === 'string') {
    throw new RecipeError(classes.path, '"all" or a list of class names is expected')
  }
  for (const key of ['classes', 'groups'] as const) {
    if (!surface.optional(key)) continue
    const names = surface.list(key).map((name) => name.filledText())
    const path = `${surface.path}.${key}`
    if (names.length < 2 || names.length > MOST_OUTCOMES) {
      throw new RecipeError(path, `2 to ${MOST_OUTCOMES} names are expected`)
    }
    const twice = names.find((name, at) => names.indexOf(name) !== at)
    if (twice !== undefined) throw new RecipeError(path, `‘${twice}’ stands there twice`)
    return { [key]: names }
  }
  return {}
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

function readErrorAtMost(surface: Cursor, method: SurfaceRule['method']): number | undefined {
  const limit = surface.optional('error_at_most')
  if (limit && method !== 'kriging' && method !== 'class-probability') {
    const what = `${method} has no standard error; krige, or limit it by reach, hull or within`
    throw new RecipeError(limit.path, what)
  }
  return limit?.between(Number.MIN_VALUE, Number.MAX_VALUE)
}

function readContourInterval(surface: Cursor, method: SurfaceRule['method']): number | undefined {
  const interval = surface.optional('contour_interval')
  if (interval && method === 'likeliest-class') {
    throw new RecipeError(interval.path, 'likeliest-class has classes and no contours')
  }
  return interval?.between(Number.MIN_VALUE, Number.MAX_VALUE)
}

function readDoubtAtMost(surface: Cursor, method: SurfaceRule['method']): number | undefined {
  const limit = surface.optional('doubt_at_most')
  if (limit && method !== 'likeliest-class') {
    throw new RecipeError(limit.path, 'doubt_at_most goes with likeliest-class alone')
  }
  return limit?.between(0, 1)
}

const TRANSFORMS = ['log', 'normal-score', 'rank'] as const

function readDrift(surface: Cursor, method: SurfaceRule['method']): string | undefined {
  const drift = surface.optional('drift')
  if (drift && method !== 'kriging') {
    throw new RecipeError(drift.path, 'a drift goes with kriging alone')
  }
  return drift?.filledText()
}

function readTransform(surface: Cursor, method: SurfaceRule['method']): SurfaceRule['transform'] {
  const transform = surface.optional('transform')
  if (!transform) return undefined
  if (method !== 'kriging') {
    throw new RecipeError(transform.path, 'a transform goes with kriging alone')
  }
  const kind = transform.oneOf(TRANSFORMS)
  const hasMean = (surface.optional('trend')?.value ?? 0) !== 0 || surface.optional('drift')
  if (kind === 'rank' && hasMean) throw new RecipeError(transform.path, NO_RANKS_WITH_MEAN)
  return kind
}

function readDeclustered(surface: Cursor, method: SurfaceRule['method']): boolean | undefined {
  const declustered = surface.optional('declustered')
  const scored =
    method === 'chance-above' || surface.optional('transform')?.value === 'normal-score'
  if (declustered && !scored) {
    const what = 'declustered goes with the transform "normal-score" and with chance-above alone'
    throw new RecipeError(declustered.path, what)
  }
  return declustered?.truth()
}

function readMask(mask: Cursor | undefined): SurfaceRule['mask'] {
  if (!mask) return undefined
  mask.allow(['surface', 'at_least', 'at_most', 'classes', 'doubt_at_most'])
  const byClass = mask.optional('classes') ?? mask.optional('doubt_at_most')
  if (byClass && (mask.optional('at_least') ?? mask.optional('at_most'))) {
    const what = 'classes have no least and no most; take at_least and at_most out'
    throw new RecipeError(byClass.path, what)
  }
  const classes = mask.optional('classes')
    ? mask.list('classes').map((name) => name.filledText())
    : undefined
  if (classes?.length === 0) {
    throw new RecipeError(`${mask.path}.classes`, 'one class at least is expected')
  }
  return {
    surface: mask.at('surface').filledText(),
    at_least: mask.optional('at_least')?.number(),
    at_most: mask.optional('at_most')?.number(),
    classes,
    doubt_at_most: mask.optional('doubt_at_most')?.between(0, 1),
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
