/** All layers as one zip, the same bytes whenever and wherever it is made. */
import { zipSync, type Zippable } from 'fflate'

/** The first day that a zip's clock can tell, local on both sides so that no time zone shows. */
const NO_TIME = new Date(1980, 0, 1, 12)
/** Rasters and pictures are compressed already. */
const STORED = /\.(tif|jpg|gpkg|zip)$/i

/** A zip of named files in the order given. */
export function zipLayers(
  files: ReadonlyMap<string, Uint8Array> | Readonly<Record<string, Uint8Array>>,
): Uint8Array {
  const entries: Iterable<[string, Uint8Array]> =
    files instanceof Map ? files.entries() : Object.entries(files)
  const zippable: Zippable = {}
  for (const [name, bytes] of entries) {
    zippable[name] = [bytes, { level: STORED.test(name) ? 0 : 6 }]
  }
  return zipSync(zippable, { mtime: NO_TIME })
}
