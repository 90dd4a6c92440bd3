/** Values of stations in bins of equal, round width. */

export interface Bins {
  readonly from: number
  readonly to: number
  readonly step: number
  /** Numbers of the stations in each bin. */
  readonly stations: readonly (readonly number[])[]
}

/**
 * Stations by their value.
 *
 * @param most no more bins than this
 * @returns null where no station has a value
 */
export function binned(values: readonly (number | null)[], most: number): Bins | null {
  const known = values.flatMap((value) => (value !== null && Number.isFinite(value) ? [value] : []))
  if (known.length === 0) return null
  const low = known.reduce((a, b) => Math.min(a, b))
  const high = known.reduce((a, b) => Math.max(a, b))
  const step = roundStep((high - low || Math.abs(high) || 1) / most)
  const from = Math.floor(low / step) * step
  const count = Math.max(1, Math.floor((high - from) / step + 1e-9) + 1)
  const stations: number[][] = Array.from({ length: count }, () => [])
  values.forEach((value, station) => {
    if (value === null || !Number.isFinite(value)) return
    stations[Math.min(count - 1, Math.floor((value - from) / step + 1e-9))].push(station)
  })
  return { from, to: from + count * step, step, stations }
}

/** The next of 1, 2, 5 times a power of ten. */
function roundStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least))
  return ([1, 2, 5].find((part) => part * power >= least) ?? 10) * power
}
