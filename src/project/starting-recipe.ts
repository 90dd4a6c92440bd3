/** What a new project, and a command line without a recipe, begins with. */
import { DEFAULT_CLASSES, DEFAULT_INDICES } from '../classes/default-classes'
import { EMPTY_RECIPE, type Recipe } from './recipe'

/** Starting indices and classes, no places and no surfaces. */
export function startingRecipe(): Recipe {
  return { ...EMPTY_RECIPE, indices: DEFAULT_INDICES, classes: DEFAULT_CLASSES }
}
