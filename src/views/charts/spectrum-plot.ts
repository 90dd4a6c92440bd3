/** What a spectrum plot shows, and where its labels stand. */
import type { Scale } from './axis'

export interface Curve {
  /** Empty for one of many that are not told apart. */
  readonly label: string
  /** nm, ascending. */
  readonly wavelengths: ArrayLike<number>
  readonly values: ArrayLike<number>
  readonly role: 'scan' | 'sibling' | 'model' | 'reference' | 'residual'
}

export interface FeatureMark {
  /** nm */
  readonly position: number
  readonly error: number | null
  readonly label: string
}

/** A curve's label beside its end. */
export interface EndLabel {
  readonly text: string
  readonly role: Curve['role']
  /** px, where the curve ends and where the label stands. */
  readonly endX: number
  readonly endY: number
  readonly y: number
}

/** Longest label beside a curve, letters; the rest is cut, and the whole shown on hover. */
export const LONGEST_LABEL = 15

/** A label cut to what fits beside a plot. */
export function shortLabel(label: string): string {
  return label.length > LONGEST_LABEL ? `${label.slice(0, LONGEST_LABEL - 1)}…` : label
}

/** Feature labels in rows above each other, so that none lies on another. */
export function labelRows(
  marks: readonly FeatureMark[],
  x: Scale,
  letterWidth: number,
): { mark: FeatureMark; row: number }[] {
  const ends: number[] = []
  return [...marks]
    .sort((a, b) => a.position - b.position)
    .map((mark) => {
      const half = (mark.label.length * letterWidth) / 2
      const left = x(mark.position) - half
      let row = ends.findIndex((end) => end + 6 <= left)
      if (row < 0) row = ends.length
      ends[row] = x(mark.position) + half
      return { mark, row }
    })
}

/**
 * Labels at the ends of curves, pushed apart so that none lies on another.
 *
 * @param room the lowest and highest y of a label, px; the first is above
 * @param apart least distance between two labels, px
 */
export function endLabels(
  curves: readonly Curve[],
  x: Scale,
  y: Scale,
  room: readonly [top: number, bottom: number],
  apart: number,
): EndLabel[] {
  const labels = curves.flatMap(({ label, role, wavelengths, values }) => {
    if (label === '') return []
    const last = lastInside(wavelengths, values, x)
    if (last < 0) return []
    const endY = Math.min(Math.max(y(values[last]), room[0]), room[1])
    return [{ text: label, role, endX: x(wavelengths[last]), endY, y: endY }]
  })
  labels.sort((a, b) => a.endY - b.endY)
  for (let i = 1; i < labels.length; i++) {
    labels[i].y = Math.max(labels[i].y, labels[i - 1].y + apart)
  }
  let floor = room[1]
  for (let i = labels.length - 1; i >= 0; i--) {
    labels[i].y = Math.min(labels[i].y, floor)
    floor = labels[i].y - apart
  }
  return labels
}

/** The last channel of a curve that is shown and has a value, or −1. */
function lastInside(wavelengths: ArrayLike<number>, values: ArrayLike<number>, x: Scale): number {
  for (let i = wavelengths.length - 1; i >= 0; i--) {
    if (wavelengths[i] > x.to) continue
    if (wavelengths[i] < x.from) return -1
    if (!Number.isNaN(values[i])) return i
  }
  return -1
}
