/** What a spectrum plot shows. */
import type { Scale } from './axis'

export interface Curve {
  readonly label: string
  /** nm, ascending. */
  readonly wavelengths: ArrayLike<number>
  readonly values: ArrayLike<number>
  readonly role: 'scan' | 'sibling' | 'model' | 'reference'
}

export interface FeatureMark {
  /** nm */
  readonly position: number
  readonly error: number | null
  readonly label: string
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
