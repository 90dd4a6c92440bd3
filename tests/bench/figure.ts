/** A figure of the bench: a JSON line, beside a peer's where there is one. */

export interface Figure {
  readonly name: string
  readonly value: number
  readonly unit: string
  readonly threads: number
  /** null where there is none or it is not installed. */
  readonly peer: string | null
  readonly peer_value: number | null
  /** How many times better than the peer. */
  readonly ratio: number | null
  /** One standard error of the value, and of the ratio, where what was measured is a sample. */
  readonly value_error?: number
  readonly ratio_error?: number
}

/** A peer's value in the figure's unit; null where it is not installed or failed. */
export interface Peer {
  readonly name: string
  readonly value: number | null
}

/** A figure of speed: more is better, so the ratio is ours over the peer's. */
export function speed(
  name: string,
  value: number,
  unit: string,
  threads: number,
  peer: Peer | null = null,
): Figure {
  const other = peer?.value ?? null
  return {
    name,
    value: rounded(value),
    unit,
    threads,
    peer: other === null ? null : (peer?.name ?? null),
    peer_value: other === null ? null : rounded(other),
    ratio: other === null ? null : rounded(value / other),
  }
}

/** A figure of time: less is better, so the ratio is the peer's over ours. */
export function duration(
  name: string,
  seconds: number,
  threads: number,
  peer: Peer | null = null,
): Figure {
  const figure = speed(name, seconds, 's', threads, peer)
  const other = peer?.value ?? null
  return { ...figure, ratio: other === null ? null : rounded(other / seconds) }
}

/** A measured figure that has no peer. */
export function measured(name: string, value: number, unit: string, threads: number): Figure {
  return speed(name, value, unit, threads)
}

/** To three significant digits, whole from a hundred on. */
export function rounded(value: number): number {
  return Math.abs(value) >= 100 ? Math.round(value) : Number(value.toPrecision(3))
}

/** The middle value, or the mean of the two middle ones. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b)
  const middle = sorted.length >> 1
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2
}
