/** Starts the workspace in the window: workers, references, what was saved last or the sample area. */
import { startWindowPool } from '../../jobs/window-pool'
import { loadBuiltInSet } from '../../minerals/built-in'
import { browserShelf } from '../../project/browser-shelf'
import { ShelfKeeper } from '../../project/keeper'
import { startingRecipe } from '../../project/starting-recipe'
import { Workspace } from '../../project/workspace'
import { fetchSampleArea } from './sample-area'

/** A workspace with nothing in it yet. */
export async function startWorkspace(): Promise<Workspace> {
  const references = { sets: [await loadBuiltInSet()], measured: [], off: [], ranges: {} }
  return new Workspace(startWindowPool(), references, new ShelfKeeper(browserShelf()))
}

/** Brings back what was saved last, else opens the sample area. */
export async function openFirst(workspace: Workspace): Promise<void> {
  if (!(await workspace.restore())) await openSampleArea(workspace)
}

/**
 * Opens the sample area as a project of its own.
 *
 * @throws Error in words where its archive cannot be fetched
 */
export async function openSampleArea(workspace: Workspace): Promise<void> {
  const { name, statement, recipe, sources } = await fetchSampleArea()
  await workspace.open({ name, statement, recipe }, sources)
}

/** An empty project, with indices and classes to begin with. */
export async function openEmpty(workspace: Workspace): Promise<void> {
  await workspace.open({ name: 'New project', statement: null, recipe: startingRecipe() }, [])
}
