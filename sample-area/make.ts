/** Makes the sample area: `npm run sample-area`. The same bytes on every run. */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { makeSampleArea } from './make/area'

const ROOT = import.meta.dirname
/** What this script owns: emptied first, so that no file of an earlier run stays. */
const OWNED = ['scans', 'places', 'ground', 'truth']

for (const folder of OWNED) rmSync(join(ROOT, folder), { recursive: true, force: true })
const files = makeSampleArea()
let bytes = 0
for (const { path, content } of files) {
  const target = join(ROOT, path)
  mkdirSync(dirname(target), { recursive: true })
  writeFileSync(target, content)
  bytes += content.length
}
console.log(`${files.length} files, ${(bytes / 1e6).toFixed(2)} MB`)
