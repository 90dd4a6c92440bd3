/** The sample area as it is shipped with the app: one archive beside the page. */
import type { InputSource } from '../../project/reading'
import { parseRecipe, type Recipe } from '../../project/recipe'
import { zipEntries, type ZipEntry } from '../../readers/zip'

export interface SampleArea {
  readonly name: string
  readonly statement: string
  readonly recipe: Recipe
  readonly sources: readonly InputSource[]
}

/**
 * Fetches the sample area from the app's own folder. Its files stay packed: workers unpack them.
 *
 * @throws Error where it is not there, or not whole
 */
export async function fetchSampleArea(): Promise<SampleArea> {
  const response = await fetch(new URL('sample-area.zip', document.baseURI))
  if (!response.ok) throw new Error('The sample area is not where the app was installed.')
  const entries = zipEntries(new Uint8Array(await response.arrayBuffer()))
  if (typeof entries === 'string') throw new Error(`The sample area cannot be opened: ${entries}.`)
  const text = (path: string) => {
    const entry = entries.find(({ name }) => name === path)
    return new TextDecoder().decode(entry ? whole(entry.name, entry.read()) : undefined)
  }
  const about = JSON.parse(text('about.json')) as { name: string; statement: string }
  const sources = entries
    .filter(({ name }) => /^(scans|places|ground)\/./.test(name))
    .map(sourceOfEntry)
  return { ...about, recipe: parseRecipe(text('recipe.json')), sources }
}

function sourceOfEntry({ name, size, read, packed }: ZipEntry): InputSource {
  return {
    path: name,
    size,
    at: whole(name, packed()),
    read: () => Promise.resolve(whole(name, read())),
  }
}

/** What is whole, for the app's own archive is trusted to be. @throws Error where it is not */
function whole<T>(name: string, read: T | string): T {
  if (typeof read === 'string') throw new Error(`${name} of the sample area is damaged: ${read}.`)
  return read
}
