/**
 * A recipe from the window names files from the dropped folder on (`field/samples.csv`), while paths
 * on the command line begin inside the folder that is named. This says its names anew.
 */
import { ALL_FILES, fits } from '../places/rules'
import type { PlaceRule } from '../places/station'
import type { Recipe } from '../project/recipe'

/** A file of this run. */
export interface InFolder {
  readonly path: string
  /** The name of the folder that its path begins in. */
  readonly folder: string
}

/**
 * The recipe with each name of a file that fits none as it stands, but one with its folder before
 * it, put as this run has it. What fits already, or nothing at all, stays.
 */
export function recipeInFolders(recipe: Recipe, files: readonly InFolder[]): Recipe {
  const named = (name: string): string => nameHere(name, files)
  const standard = recipe.check?.standard
  const { traverse } = recipe
  return {
    ...recipe,
    places: recipe.places.flatMap((rule) => rulesHere(rule, files)),
    surfaces: recipe.surfaces.map((rule) => ({
      ...rule,
      ...(rule.drift === undefined ? {} : { drift: named(rule.drift) }),
      ...(rule.within === undefined ? {} : { within: named(rule.within) }),
      ...(rule.barriers === undefined ? {} : { barriers: named(rule.barriers) }),
    })),
    ...(traverse
      ? {
          traverse: {
            ...traverse,
            ...(traverse.terrain === undefined ? {} : { terrain: named(traverse.terrain) }),
            ...(traverse.avoid === undefined ? {} : { avoid: named(traverse.avoid) }),
          },
        }
      : {}),
    ...(standard?.record === undefined
      ? {}
      : { check: { ...recipe.check, standard: { ...standard, record: named(standard.record) } } }),
  }
}

function fullOf({ folder, path }: InFolder): string {
  return `${folder}/${path}`
}

function nameHere(name: string, files: readonly InFolder[]): string {
  if (files.some(({ path }) => fits(path, name))) return name
  const found = files.filter((file) => fits(fullOf(file), name))
  return found.length === 1 ? found[0].path : name
}

/** A rule for one file, or for a folder: all files where the folder is the only one named. */
function rulesHere(rule: PlaceRule, files: readonly InFolder[]): PlaceRule[] {
  const { file } = rule
  if (!file.endsWith('/')) return [{ ...rule, file: nameHere(file, files) }]
  if (files.some(({ path }) => fits(path, file))) return [rule]
  const inside = files.filter((each) => fits(fullOf(each), file))
  if (inside.length === 0) return [rule]
  if (inside.length === files.length) return [{ ...rule, file: ALL_FILES }]
  return inside.map(({ path }) => ({ ...rule, file: path }))
}
