/** Holdings made for tests, as reading gives them. */
import { recognise } from '../../src/readers/recognise'
import type { Holdings, ScanHead } from '../../src/project/project'
import { appendScans } from '../../src/spectra/scan-store'
import type { Spectrum } from '../../src/spectra/spectrum'

export interface MadeScan extends Spectrum {
  readonly name: string
  readonly file: string
  readonly metadata?: Readonly<Record<string, string>>
}

/** The holdings with scans added, each in a file of its own. */
export function withScans(holdings: Holdings, scans: readonly MadeScan[]): Holdings {
  const first = holdings.heads.length
  const heads = scans.map(({ name, file, metadata = {} }): ScanHead => {
    return { name, file, metadata, known: recognise(metadata) }
  })
  const files = scans.map(({ file }, i) => ({
    path: file,
    kind: 'scans' as const,
    size: 1,
    sha256: '',
    layout: null,
    firstScan: first + i,
    scanCount: 1,
    problems: [],
  }))
  return {
    ...holdings,
    heads: [...holdings.heads, ...heads],
    files: [...holdings.files, ...files],
    scans: appendScans(holdings.scans, scans),
  }
}
