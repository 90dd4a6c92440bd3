/** Spectra of files that were read anew since: they take room and are asked for by nobody. */
import { withoutBlocks } from '../spectra/scan-store'
import type { Holdings } from './project'

/**
 * The holdings without spectra that belong to no file any more. Only for a project that is being
 * opened: results that are shown may still speak of them.
 */
export function withoutOldReadings(holdings: Holdings): Holdings {
  const kept = new Uint8Array(holdings.heads.length)
  for (const { firstScan, scanCount } of holdings.files) {
    kept.fill(1, firstScan, firstScan + scanCount)
  }
  const scans = withoutBlocks(holdings.scans, (scan) => kept[scan] === 1)
  return scans === holdings.scans ? holdings : { ...holdings, scans }
}
