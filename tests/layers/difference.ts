/**
 * The first place where two arrays differ, in words, or null: a matcher that walks them as objects
 * takes seconds for a raster.
 */
export function firstDifference(read: ArrayLike<number>, wanted: ArrayLike<number>): string | null {
  if (read.length !== wanted.length) return `${read.length} values for ${wanted.length}`
  for (let i = 0; i < wanted.length; i++) {
    if (!Object.is(read[i], wanted[i])) return `at ${i}: ${read[i]} for ${wanted[i]}`
  }
  return null
}
