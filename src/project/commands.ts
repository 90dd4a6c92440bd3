/** Commands: every change to a project, as plain data, each with its inverse. */
import type { ClassRule } from '../classes/rule'
import type { IndexRule } from '../indices/rule'
import type { Average } from '../indices/station-values'
import type { ReferenceSet } from '../minerals/reference'
import type { GroupingChoice } from '../places/grouping'
import type { PlaceRule, Target } from '../places/station'
import type { Correction } from '../readers/correction'
import type { SurfaceRule } from '../surfaces/model'
import type { Decision, Decisions } from './decisions'
import type { MapLayer } from './map-order'
import type { Project } from './project'
import type { Recipe, ReferenceChoice } from './recipe'
import type { CheckChoice } from './recipe-check'
import type { TraverseRule } from './recipe-traverse'

/** Sets one part of the recipe. */
type RecipeCommand =
  | { readonly do: 'set crs'; readonly crs: string }
  | { readonly do: 'set places'; readonly places: readonly PlaceRule[] }
  | { readonly do: 'set grouping'; readonly grouping: GroupingChoice | undefined }
  | { readonly do: 'set targets'; readonly targets: readonly Target[] }
  | { readonly do: 'set average'; readonly average: Average | undefined }
  | { readonly do: 'set indices'; readonly indices: readonly IndexRule[] }
  | { readonly do: 'set classes'; readonly classes: readonly ClassRule[] }
  | { readonly do: 'set surfaces'; readonly surfaces: readonly SurfaceRule[] }
  | { readonly do: 'set references'; readonly references: ReferenceChoice | undefined }
  | { readonly do: 'set check'; readonly check: CheckChoice | undefined }
  | { readonly do: 'set layouts'; readonly layouts: readonly Correction[] | undefined }
  | { readonly do: 'set traverse'; readonly traverse: TraverseRule | undefined }

export type Command =
  | RecipeCommand
  | { readonly do: 'rename'; readonly name: string }
  | { readonly do: 'set recipe'; readonly recipe: Recipe }
  | { readonly do: 'decide'; readonly decisions: readonly Decision[] }
  | { readonly do: 'set decisions'; readonly decisions: Decisions }
  | { readonly do: 'set sets'; readonly sets: readonly ReferenceSet[]; readonly builtIn: boolean }
  | { readonly do: 'hide files'; readonly paths: readonly string[] }
  | { readonly do: 'set hidden'; readonly hidden: readonly string[] }
  | { readonly do: 'set layer order'; readonly order: readonly MapLayer[] }

export interface Applied {
  readonly project: Project
  /** The command that takes it back. */
  readonly inverse: Command
}

/** The project after a command, and the command that takes it back. */
export function apply(project: Project, command: Command): Applied {
  switch (command.do) {
    case 'rename':
      return {
        project: { ...project, name: command.name },
        inverse: { do: 'rename', name: project.name },
      }
    case 'set sets':
      return {
        project: { ...project, sets: command.sets, builtIn: command.builtIn },
        inverse: { do: 'set sets', sets: project.sets, builtIn: project.builtIn },
      }
    case 'set recipe':
      return {
        project: { ...project, recipe: command.recipe },
        inverse: { do: 'set recipe', recipe: project.recipe },
      }
    case 'decide':
      return withDecisions(project, {
        decisions: 1,
        list: [...project.decisions.list, ...command.decisions],
      })
    case 'set decisions':
      return withDecisions(project, command.decisions)
    case 'hide files':
      return withHidden(project, [...new Set([...project.hidden, ...command.paths])])
    case 'set hidden':
      return withHidden(project, command.hidden)
    case 'set layer order':
      return {
        project: { ...project, layerOrder: command.order },
        inverse: { do: 'set layer order', order: project.layerOrder },
      }
    default:
      return withRecipePart(project, command)
  }
}

function withRecipePart(project: Project, command: RecipeCommand): Applied {
  const { recipe } = project
  const set = (change: Partial<Recipe>, inverse: RecipeCommand): Applied => ({
    project: { ...project, recipe: { ...recipe, ...change } },
    inverse,
  })
  switch (command.do) {
    case 'set crs':
      return set({ crs: command.crs }, { do: 'set crs', crs: recipe.crs })
    case 'set places':
      return set({ places: command.places }, { do: 'set places', places: recipe.places })
    case 'set grouping':
      return set({ grouping: command.grouping }, { do: 'set grouping', grouping: recipe.grouping })
    case 'set targets':
      return set({ targets: command.targets }, { do: 'set targets', targets: recipe.targets })
    case 'set average':
      return set({ average: command.average }, { do: 'set average', average: recipe.average })
    case 'set indices':
      return set({ indices: command.indices }, { do: 'set indices', indices: recipe.indices })
    case 'set classes':
      return set({ classes: command.classes }, { do: 'set classes', classes: recipe.classes })
    case 'set surfaces':
      return set({ surfaces: command.surfaces }, { do: 'set surfaces', surfaces: recipe.surfaces })
    case 'set references':
      return set(
        { references: command.references },
        { do: 'set references', references: recipe.references },
      )
    case 'set check':
      return set({ check: command.check }, { do: 'set check', check: recipe.check })
    case 'set layouts':
      return set({ layouts: command.layouts }, { do: 'set layouts', layouts: recipe.layouts })
    case 'set traverse':
      return set({ traverse: command.traverse }, { do: 'set traverse', traverse: recipe.traverse })
  }
}

function withDecisions(project: Project, decisions: Decisions): Applied {
  return {
    project: { ...project, decisions },
    inverse: { do: 'set decisions', decisions: project.decisions },
  }
}

function withHidden(project: Project, hidden: readonly string[]): Applied {
  return {
    project: { ...project, hidden },
    inverse: { do: 'set hidden', hidden: project.hidden },
  }
}
