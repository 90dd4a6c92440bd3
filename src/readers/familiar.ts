/**
 * Files that differ from one read before in nothing but the digits of their values: the next scan
 * of the same instrument. What a head says, and all that follows from head and axis, is settled by
 * the first of them; of the others the digits are read and the unit of reflectance is decided.
 *
 * It gives what the patient way gives, sooner: a head of the same bytes over a body that fits the
 * same stencil is parted into the same lines and cells. A folder is as a rule read once, by workers
 * that have just been started, and then what counts is how little code a file passes through.
 */
import { assembleOn, type RawScans, type SettledAxis } from './assemble'
import type { InputFile, Look, ReadResult } from './input'
import { stemOf } from './result'
import { readThrough, type Stencil } from './stencil'

/** What files alike have in common. */
export interface Form {
  /** All that stands before the first row. */
  readonly head: Uint8Array
  readonly stencil: Stencil
  /** The scan as it was read; its name is used where `isNamedByFile` is not set. */
  readonly raw: RawScans
  readonly settled: SettledAxis
  readonly isNamedByFile: boolean
  readonly look: Look
}

/** Forms that are kept: as many as instruments and settings that a folder mixes. */
const KEPT = 4
/** A longer head belongs to one file. */
const LONGEST_HEAD = 20_000

/** The last forms, the newest first. They change how fast a file is read, never what it gives. */
let kept: readonly Form[] = []

/** Keeps what files alike have in common. */
export function keepForm(form: Form): void {
  if (form.head.length > LONGEST_HEAD) return
  kept = [{ ...form, head: form.head.slice() }, ...kept.slice(0, KEPT - 1)]
}

/** What a file gives that is like one read before; null where it is not. */
export function readFamiliar({ path, bytes }: InputFile): ReadResult | null {
  for (const form of kept) {
    const { head, stencil } = form
    if (bytes.length !== head.length + stencil.length || !beginsWith(bytes, head)) continue
    if (readThrough(stencil, bytes, head.length)) return familiarResult(form, path)
  }
  return null
}

function beginsWith(bytes: Uint8Array, head: Uint8Array): boolean {
  for (let i = 0; i < head.length; i++) if (bytes[i] !== head[i]) return false
  return true
}

function familiarResult(form: Form, file: string): ReadResult {
  const { raw, settled, stencil, look, isNamedByFile } = form
  const [first] = raw.scans
  const name = isNamedByFile ? stemOf(file) : first.name
  const scan = { ...first, name, values: stencil.room }
  const scans = { ...raw, file, scans: [scan] }
  return { ...assembleOn({ ...settled, raw: scans }, scans, {}, []), look }
}
