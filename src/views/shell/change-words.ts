/** What an undo or redo changed, in words. */
import type { DecisionAbout } from '../../project/decisions'
import type { Project } from '../../project/project'
import type { Recipe } from '../../project/recipe'
import { named } from './steps'

const OF_DECISIONS: Readonly<Record<DecisionAbout['kind'], string>> = {
  verdict: 'verdict',
  place: 'place',
  mineral: 'mineral',
  accepted: 'accepted minerals',
  ranges: 'ranges of comparison',
  station: 'station',
  target: 'target',
  support: 'support',
  'step correction': 'step correction',
  origin: 'origin',
  note: 'note',
  field: 'field',
  record: 'record',
  'minerals seen': 'minerals seen',
  structures: 'structures',
  photos: 'photos',
}

const OF_RECIPE: Readonly<Partial<Record<keyof Recipe, string>>> = {
  crs: 'working coordinate system',
  places: 'how places are read',
  grouping: 'how scans are grouped',
  targets: 'targets that count',
  average: 'how scans are averaged',
  indices: 'indices',
  classes: 'classes',
  surfaces: 'surfaces',
  references: 'references that are used',
  check: 'limits of the check',
  layouts: 'how numbers are read',
  traverse: 'walk',
}

/** Such as `verdict of 3 scans`, `classes`; empty where the two are alike. */
export function changeWords(before: Project, after: Project): string {
  if (before.decisions !== after.decisions) return decisionWords(before, after)
  if (before.recipe !== after.recipe) return recipeWords(before.recipe, after.recipe)
  if (before.name !== after.name) return 'name of the project'
  if (before.hidden !== after.hidden) return 'files that count'
  if (before.layerOrder !== after.layerOrder) return 'order of the layers'
  return before === after ? '' : 'reference sets'
}

function decisionWords(before: Project, after: Project): string {
  const lists = [before.decisions.list, after.decisions.list]
  const [short, long] = lists.sort((a, b) => a.length - b.length)
  const changed = long.slice(short.length)
  const kinds = new Set(changed.map(({ about }) => OF_DECISIONS[about.kind]))
  const scans = new Set(changed.map(({ file, scan }) => `${file}\u0000${scan}`))
  // A file of decisions that was loaded stands in place of all before.
  if (kinds.size !== 1 || short.some((decision, i) => decision !== long[i])) return 'decisions'
  return `${[...kinds][0]} of ${scans.size === 1 ? changed[0].scan : named(scans.size, 'scan')}`
}

function recipeWords(before: Recipe, after: Recipe): string {
  const keys = Object.keys(OF_RECIPE) as (keyof Recipe)[]
  const changed = keys.filter((key) => before[key] !== after[key])
  return (changed.length === 1 && OF_RECIPE[changed[0]]) || 'recipe'
}
