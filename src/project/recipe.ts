/** The recipe: how places are read, and the indices, classes and surfaces of a project. */
import { SYMBOLS, type ClassRule, type SymbolShape } from '../classes/rule'
import type { IndexRule } from '../indices/rule'
import { AVERAGES, type Average } from '../indices/station-values'
import type { GroupingChoice } from '../places/grouping'
import { TARGETS, type PlaceRule, type Target } from '../places/station'
import { RULE_COLUMNS } from '../places/table-columns'
import type { SurfaceRule } from '../surfaces/model'
import type { Correction } from '../readers/correction'
import { parseJson, readRange, RecipeError, type Cursor } from './json-cursor'
import { readCheck, type CheckChoice } from './recipe-check'
import { readGrouping } from './recipe-grouping'
import { readLayouts } from './recipe-layouts'
import { readSurface } from './recipe-surfaces'
import { readTraverse, type TraverseRule } from './recipe-traverse'

export interface Recipe {
  readonly recipe: 1
  /** `auto`, `EPSG:n` or `local:m|km|ft`. */
  readonly crs: string
  readonly places: readonly PlaceRule[]
  /** Limits of grouping scans into stations that differ from the program's own. */
  readonly grouping?: GroupingChoice
  readonly targets: readonly Target[]
  /** How a station's scans are averaged; absent for the plain mean. */
  readonly average?: Average
  readonly indices: readonly IndexRule[]
  readonly classes: readonly ClassRule[]
  readonly surfaces: readonly SurfaceRule[]
  /** What was changed about the references; absent where nothing was. */
  readonly references?: ReferenceChoice
  /** Limits of the check, and what the days are checked with; absent where all is as it comes. */
  readonly check?: CheckChoice
  /** The walk that is planned next; absent for none. */
  readonly traverse?: TraverseRule
  /** How numbers are to be understood in files alike; absent where all is as found. */
  readonly layouts?: readonly Correction[]
}

/** Which references count, and where they are compared. */
export interface ReferenceChoice {
  /** Records that are not used. */
  readonly off: readonly string[]
  /** Ranges in which a mineral is compared in place of its own, nm, by mineral. */
  readonly ranges: Readonly<Record<string, readonly (readonly [from: number, to: number])[]>>
}

export const EMPTY_RECIPE: Recipe = {
  recipe: 1,
  crs: 'auto',
  places: [],
  targets: ['matrix'],
  indices: [],
  classes: [],
  surfaces: [],
}

const MEMBERS = [
  'recipe',
  'crs',
  'places',
  'grouping',
  'targets',
  'average',
  'indices',
  'classes',
  'surfaces',
  'references',
  'check',
  'layouts',
  'traverse',
]

/** Entries that a recipe may have: more than anyone writes, and no more than can be worked with. */
const MOST = { places: 10_000, indices: 1000, classes: 1000, surfaces: 500 }

/** A recipe file may not be larger than this, bytes. */
export const MAX_RECIPE_BYTES = 4_000_000

/**
 * Reads a recipe from its JSON text.
 *
 * @throws RecipeError that names the place in the file, what is wrong and what was expected
 */
export function parseRecipe(text: string): Recipe {
  const root = parseJson(text, MAX_RECIPE_BYTES)
  root.allow(MEMBERS)
  const version = root.at('recipe').number()
  if (version !== 1) throw new RecipeError('recipe', `version ${version} is not known here, only 1`)
  const check = root.optional('check')
  const layouts = root.optional('layouts')
  const grouping = root.optional('grouping')
  const traverse = root.optional('traverse')
  const recipe: Recipe = {
    recipe: 1,
    crs: root.optional('crs')?.text() ?? 'auto',
    places: root.list('places', MOST.places).map(readPlace),
    ...(grouping ? { grouping: readGrouping(grouping) } : {}),
    targets: root.optional('targets')
      ? root.list('targets').map((target) => target.oneOf(TARGETS))
      : ['matrix'],
    ...(root.optional('average') ? { average: root.at('average').oneOf(AVERAGES) } : {}),
    indices: root.list('indices', MOST.indices).map(readIndex),
    classes: root.list('classes', MOST.classes).map(readClass),
    surfaces: root.list('surfaces', MOST.surfaces).map(readSurface),
    ...readReferences(root.optional('references')),
    ...(check ? { check: readCheck(check) } : {}),
    ...(traverse ? { traverse: readTraverse(traverse) } : {}),
    ...(layouts ? { layouts: readLayouts(root.list('layouts')) } : {}),
  }
  checkCrs(recipe.crs)
  refuseRepeats(recipe.indices, 'indices')
  refuseRepeats(recipe.classes, 'classes')
  refuseRepeats(recipe.surfaces, 'surfaces')
  return recipe
}

/** The recipe as the JSON text of its file, two blanks deep. */
export function writeRecipe(recipe: Recipe): string {
  return JSON.stringify(recipe, null, 2) + '\n'
}

function checkCrs(crs: string): void {
  if (!/^(auto|EPSG:\d{1,6}|local:(m|km|ft))$/.test(crs)) {
    throw new RecipeError('crs', `‘${crs}’ is none of auto, EPSG:n, local:m, local:km, local:ft`)
  }
}

function refuseRepeats(entries: readonly { readonly name: string }[], list: string): void {
  const seen = new Set<string>()
  entries.forEach(({ name }, position) => {
    if (seen.has(name)) {
      throw new RecipeError(`${list}[${position}].name`, `‘${name}’ stands in the list twice`)
    }
    seen.add(name)
  })
}

function readReferences(choice: Cursor | undefined): Pick<Recipe, 'references'> {
  if (!choice) return {}
  choice.allow(['off', 'ranges'])
  const ranges = choice.optional('ranges')
  return {
    references: {
      off: choice.list('off').map((record) => record.text()),
      ranges: Object.fromEntries(
        (ranges?.keys() ?? []).map((mineral) => [
          mineral,
          ranges?.list(mineral).map(readRange) ?? [],
        ]),
      ),
    },
  }
}

function readPlace(place: Cursor): PlaceRule {
  place.allow(['file', 'crs', ...RULE_COLUMNS, 'clock_offset_s', 'gap_s'])
  const crs = place.optional('crs')?.text()
  if (crs !== undefined && !/^(EPSG:\d{1,6}|local:(m|km|ft))$/.test(crs)) {
    throw new RecipeError(`${place.path}.crs`, `‘${crs}’ is neither EPSG:n nor local:m, km or ft`)
  }
  return {
    file: place.at('file').text(),
    crs,
    x: place.optional('x')?.text(),
    y: place.optional('y')?.text(),
    position: place.optional('position')?.text(),
    z: place.optional('z')?.text(),
    name: place.optional('name')?.text(),
    clock_offset_s: place.optional('clock_offset_s')?.number(),
    hole: place.optional('hole')?.text(),
    from: place.optional('from')?.text(),
    to: place.optional('to')?.text(),
    depth: place.optional('depth')?.text(),
    support: place.optional('support')?.text(),
    target: place.optional('target')?.text(),
    azimuth: place.optional('azimuth')?.text(),
    dip: place.optional('dip')?.text(),
    gap_s: place.optional('gap_s')?.between(1, 86_400),
  }
}

function readIndex(index: Cursor): IndexRule {
  index.allow(['name', 'formula', 'unit', 'where'])
  return {
    name: index.at('name').filledText(),
    formula: index.at('formula').filledText(),
    unit: index.optional('unit')?.text(),
    where: index.optional('where')?.filledText(),
  }
}

function readClass(rule: Cursor): ClassRule {
  rule.allow(['name', 'when', 'colour', 'symbol'])
  const colour = rule.at('colour').text()
  if (!/^#[0-9a-f]{6}$/i.test(colour)) {
    throw new RecipeError(`${rule.path}.colour`, `‘${colour}’ is not #rrggbb`)
  }
  const symbol: SymbolShape = rule.at('symbol').oneOf(SYMBOLS)
  return { name: rule.at('name').filledText(), when: rule.at('when').filledText(), colour, symbol }
}
