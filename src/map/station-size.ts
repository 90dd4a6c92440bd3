/** How large stations are drawn: smaller where they crowd, so that the ground between them shows. */

/** A symbol's radius over the distance to the next station, at most. */
const PART_OF_SPACING = 0.3
/** and never smaller than this part of the look's own radius, so that shapes can be told apart. */
const SMALLEST = 0.55
/** Distances are looked up for about this many stations, whatever their number. */
const SAMPLED = 200

/**
 * The median distance from a station to its nearest neighbour.
 *
 * @param places x and y in turn, any unit; stations on one spot count once
 * @returns in that unit; Infinity where there are no two spots
 */
export function medianSpacing(places: ArrayLike<number>): number {
  const count = places.length / 2
  const step = Math.max(1, Math.ceil(count / SAMPLED))
  const nearest: number[] = []
  for (let i = 0; i < count; i += step) {
    let least = Infinity
    for (let k = 0; k < count; k++) {
      const dx = places[2 * k] - places[2 * i]
      const dy = places[2 * k + 1] - places[2 * i + 1]
      const square = dx * dx + dy * dy
      if (square > 0 && square < least) least = square
    }
    nearest.push(Math.sqrt(least))
  }
  nearest.sort((a, b) => a - b)
  return nearest.length === 0 ? Infinity : nearest[Math.floor(nearest.length / 2)]
}

/**
 * The part of the look's own size at which stations are drawn, 0.55 to 1.
 *
 * @param radius the look's, CSS px
 * @param spacing median distance to the next station on the screen, CSS px
 */
export function sizeFor(radius: number, spacing: number): number {
  return Math.min(1, Math.max(SMALLEST, (PART_OF_SPACING * spacing) / radius))
}
