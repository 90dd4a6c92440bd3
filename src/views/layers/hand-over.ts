/** Hands files to the user: the browser saves them, nothing goes anywhere else. */
import type { PlannedFile } from '../../layers/export-input'
import { zipLayers } from '../../layers/bundle'

const KINDS: Readonly<Record<string, string>> = {
  csv: 'text/csv',
  geojson: 'application/geo+json',
  json: 'application/json',
  gpx: 'application/gpx+xml',
  sld: 'application/vnd.ogc.sld+xml',
  tif: 'image/tiff',
}

/** Saves bytes under a name. */
export function hand(name: string, bytes: Uint8Array, type?: string): void {
  const kind = type ?? KINDS[name.split('.').at(-1) ?? ''] ?? 'application/octet-stream'
  const url = URL.createObjectURL(new Blob([bytes.slice()], { type: kind }))
  const link = document.createElement('a')
  link.href = url
  link.download = name
  link.click()
  // The browser has taken the blob once the click is handled; a turn later it may go.
  setTimeout(() => URL.revokeObjectURL(url), 60_000)
}

/** A file that has to be fetched first; null where it is not to be had. */
export interface FetchedFile {
  readonly file: string
  readonly fetch: () => Promise<Uint8Array | null>
}

/** Writes files one a frame, so that the window answers, then what is fetched, and packs them. */
export async function zipInTurn(
  planned: readonly PlannedFile[],
  fetched: readonly FetchedFile[],
  progress: (done: number) => void,
): Promise<Uint8Array> {
  const files = new Map<string, Uint8Array>()
  for (const { file, write } of planned) {
    await new Promise((resolve) => requestAnimationFrame(resolve))
    files.set(file, write())
    progress(files.size)
  }
  for (const { file, fetch } of fetched) {
    const bytes = await fetch()
    if (bytes !== null) files.set(file, bytes)
    progress(files.size)
  }
  return zipLayers(files)
}
