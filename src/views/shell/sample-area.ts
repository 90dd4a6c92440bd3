/** The sample area as it is shipped with the app: one archive beside the page. */
import { unzipSync } from 'fflate'
import type { InputSource } from '../../project/reading'
import { parseRecipe, type Recipe } from '../../project/recipe'

export interface SampleArea {
  readonly name: string
  readonly statement: string
  readonly recipe: Recipe
  readonly sources: readonly InputSource[]
}

/**
 * Fetches the sample area from the app's own folder.
 *
 * @throws Error where it is not there
 */
export async function fetchSampleArea(): Promise<SampleArea> {
  const response = await fetch(new URL('sample-area.zip', document.baseURI))
  if (!response.ok) throw new Error('The sample area is not where the app was installed.')
  const files = unzipSync(new Uint8Array(await response.arrayBuffer()))
  const text = (path: string) => new TextDecoder().decode(files[path])
  const about = JSON.parse(text('about.json')) as { name: string; statement: string }
  const sources = Object.entries(files)
    .filter(([path]) => /^(scans|places|ground)\/./.test(path) && !path.endsWith('/'))
    .map(([path, bytes]) => ({ path, size: bytes.length, read: () => Promise.resolve(bytes) }))
  return { ...about, recipe: parseRecipe(text('recipe.json')), sources }
}
