/**
 * Scans that a broken copy cut short. Each line of such a file may be whole, so that its reader
 * finds nothing wrong; only beside the others of its folder is it seen to break off.
 */
import type { Problem } from '../readers/input'
import type { ScanStore } from '../spectra/scan-store'
import type { Holdings } from './project'

/** Whole scans that a folder must hold before one that breaks off is called broken. */
const LEAST_WHOLE = 10
/** A range that more than this part of the folder's scans has is an instrument's own. */
const MOST_SHORT = 0.1

export interface CutShort {
  /** Scan numbers of the store. */
  readonly scans: ReadonlySet<number>
  readonly problems: readonly Problem[]
}

/** The scans among `numbers` whose channels are the beginning or the end of their folder's. */
export function findCutShort(holdings: Holdings, numbers: Iterable<number>): CutShort {
  const { heads, scans: store } = holdings
  const axisOf = axesOf(store)
  const folders = new Map<string, number[]>()
  for (const scan of numbers) {
    const folder = folderOf(heads[scan].file)
    const list = folders.get(folder)
    if (list) list.push(scan)
    else folders.set(folder, [scan])
  }
  const found = new Set<number>()
  const problems: Problem[] = []
  for (const scans of folders.values()) {
    const byAxis = new Map<number, number[]>()
    for (const scan of scans) {
      const list = byAxis.get(axisOf[scan])
      if (list) list.push(scan)
      else byAxis.set(axisOf[scan], [scan])
    }
    const [commonest, whole] = [...byAxis].reduce((a, b) => (b[1].length > a[1].length ? b : a))
    if (whole.length < LEAST_WHOLE) continue
    for (const [axis, short] of byAxis) {
      if (short.length > MOST_SHORT * whole.length) continue
      const [part, all] = [store.axes[axis], store.axes[commonest]]
      if (!isPart(part, all)) continue
      for (const scan of short) {
        found.add(scan)
        problems.push(problemOf(heads[scan].file, part, all))
      }
    }
  }
  return { scans: found, problems }
}

/** The axis of each scan by its number. */
function axesOf(store: ScanStore): Int32Array {
  const axes = new Int32Array(store.count)
  for (const { axis, count, scans } of store.blocks) {
    for (let row = 0; row < count; row++) axes[scans[row]] = axis
  }
  return axes
}

/** Whether channels are a proper beginning or end of others. */
function isPart(part: Float64Array, all: Float64Array): boolean {
  const missing = all.length - part.length
  if (missing <= 0) return false
  return part.every((nm, i) => nm === all[i]) || part.every((nm, i) => nm === all[i + missing])
}

function problemOf(file: string, part: Float64Array, all: Float64Array): Problem {
  const range = (axis: Float64Array) => `${axis[0]} to ${axis[axis.length - 1]} nm`
  return {
    file,
    line: null,
    problem: `it breaks off: ${part.length} channels from ${range(part)}, where the others of its folder have ${all.length} from ${range(all)}`,
    done: 'left out; copy it again from the instrument, or put it in a folder of its own if it is whole',
  }
}

function folderOf(path: string): string {
  return path.slice(0, path.lastIndexOf('/') + 1)
}
