/** How sure a part of stations is, where neighbours go together. */

/**
 * One standard error of the part of stations for which something holds, by leaving out a block of
 * them at a time (the jackknife of Quenouille and Tukey; Efron and Stein 1981, Ann. Statist. 9,
 * 586): errors of neighbours go together, so that blocks and not stations are what was sampled.
 *
 * @param holds 1 where it does, 0 where not, NaN for stations that do not count
 * @param blocks the number of each station's block
 * @returns null where the stations that count lie in fewer than two blocks
 */
export function blockedPartError(holds: Float64Array, blocks: Int32Array): number | null {
  const counts = new Map<number, { all: number; held: number }>()
  let [all, held] = [0, 0]
  holds.forEach((each, station) => {
    if (Number.isNaN(each)) return
    const block = counts.get(blocks[station]) ?? { all: 0, held: 0 }
    counts.set(blocks[station], { all: block.all + 1, held: block.held + each })
    all++
    held += each
  })
  if (counts.size < 2) return null
  const without = [...counts.values()].map((block) => (held - block.held) / (all - block.all))
  const mean = without.reduce((sum, part) => sum + part, 0) / without.length
  const squares = without.reduce((sum, part) => sum + (part - mean) ** 2, 0)
  return Math.sqrt(((without.length - 1) / without.length) * squares)
}
