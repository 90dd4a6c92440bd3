/**
 * Copies the references that the area is made of out of the built-in set, as they are today:
 * npx tsx sample-area/make/take-references.ts, then npm run sample-area. It changes every scan.
 */
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { jsonText } from './json'
import { EXCERPT, RECORDS } from './references'

const BUILT_IN = join(import.meta.dirname, '../../src/minerals/reference-set/built-in.json')

interface SetFile {
  readonly references: readonly { readonly record: string }[]
}

const set = JSON.parse(readFileSync(BUILT_IN, 'utf8')) as SetFile
const wanted = new Set(Object.values(RECORDS))
const references = set.references.filter(({ record }) => wanted.has(record))
writeFileSync(EXCERPT, jsonText({ ...set, references }))
console.log(`${references.length} of ${wanted.size} references`)
