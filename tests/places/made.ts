/** Small inputs for placing, written as people write them. */
import type { ScanHead } from '../../src/places/header'
import { placeScans, type PlaceInput, type Placement } from '../../src/places/place-scans'
import type { Table } from '../../src/readers/input'

/** A table out of comma-separated lines; the header is line 1. */
export function table(file: string, ...lines: string[]): Table {
  const cells = lines.map((line) => line.split(',').map((cell) => cell.trim()))
  return {
    file,
    header: cells[0],
    rows: cells.slice(1),
    lines: lines.slice(1).map((_, i) => i + 2),
  }
}

export function scan(name: string, metadata: Record<string, string> = {}, file = ''): ScanHead {
  return { name, file: file || `scans/${name}.txt`, metadata }
}

export function place(input: Partial<PlaceInput>): Placement {
  return placeScans({ scans: [], tables: [], tracks: [], rules: [], crs: 'auto', ...input })
}

/** The station of a scan, or null while it is unplaced. */
export function stationOf(placement: Placement, index: number) {
  const { station } = placement.scans[index]
  return station === null ? null : placement.stations[station]
}
