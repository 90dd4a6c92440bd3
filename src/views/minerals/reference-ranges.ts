/** Ranges of comparison as a person writes them: `2120–2250, 2290–2410`. */
import type { Reference } from '../../minerals/reference'

type Range = readonly [from: number, to: number]

/** Ranges as text. */
export function writeRanges(ranges: readonly Range[]): string {
  return ranges.map(([from, to]) => `${from}–${to}`).join(', ')
}

/** Ranges from text, or what is wrong with it. An empty text means the reference's own. */
export function readRanges(text: string): readonly Range[] | string {
  const ranges: Range[] = []
  for (const part of text.split(/[,;]/)) {
    if (part.trim() === '') continue
    const found = /^\s*(\d+(?:\.\d+)?)\s*(?:[-–—]|to)\s*(\d+(?:\.\d+)?)\s*$/.exec(part)
    if (!found) return `‘${part.trim()}’ is not a range such as 2120–2250.`
    const [from, to] = [Number(found[1]), Number(found[2])]
    if (!(from < to)) return `${part.trim()}: the shorter wavelength comes first.`
    if (from < 350 || to > 2500) return `${part.trim()} reaches outside 350–2500 nm.`
    if (to - from < 20) return `${part.trim()} is narrower than 20 nm: too little to compare.`
    ranges.push([from, to])
  }
  return ranges
}

/** The choice of ranges with one mineral's replaced; its own ranges again where none are given. */
export function rangesOf(
  all: Readonly<Record<string, readonly Range[]>>,
  reference: Reference,
  ranges: readonly Range[],
): Record<string, readonly Range[]> {
  const next = { ...all }
  const own = writeRanges(reference.diagnostic) === writeRanges(ranges)
  if (ranges.length === 0 || own) delete next[reference.mineral]
  else next[reference.mineral] = ranges
  return next
}
