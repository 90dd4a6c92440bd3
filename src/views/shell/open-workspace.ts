/** Starts the workspace in the window: workers, references, what was saved last or the sample area. */
import type { GrowingPool } from '../../jobs/pool'
import { startWindowPool } from '../../jobs/window-pool'
import { loadBuiltInSet } from '../../minerals/built-in'
import { browserShelf } from '../../project/browser-shelf'
import { ShelfKeeper } from '../../project/keeper'
import { startingRecipe } from '../../project/starting-recipe'
import { Workspace } from '../../project/workspace'
import { fetchSampleArea } from './sample-area'

/** A workspace with nothing in it yet, and its workers. */
export async function startWorkspace(): Promise<{ workspace: Workspace; pool: GrowingPool }> {
  const pool = startWindowPool()
  const references = { sets: [await loadBuiltInSet()], measured: [], off: [], ranges: {} }
  const keeper = new ShelfKeeper(browserShelf())
  return { workspace: new Workspace(pool, references, keeper), pool }
}

/** Brings back what was saved last, else opens the sample area; then has all workers ready. */
export async function openFirst(workspace: Workspace, pool: GrowingPool): Promise<void> {
  if (!(await workspace.restore())) await openSampleArea(workspace)
  await workspace.settled()
  pool.fill()
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
