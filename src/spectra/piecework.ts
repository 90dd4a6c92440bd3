/**
 * Long work on one thread, cut into pieces: it stops between them, and whoever has it done says
 * how many pieces at once. So the window can answer in between, and what is computed is the same.
 */
export type Piecework<T> = Generator<undefined, T, undefined>

/** Does all pieces one after another. */
export function atOnce<T>(work: Piecework<T>): T {
  for (;;) {
    const { done, value } = work.next()
    if (done) return value
  }
}

/** Entries in a piece: enough that stopping between pieces costs nothing beside them. */
const ENTRIES = 16

/** A list's entries mapped piece by piece. */
export function* mapPiecewise<T, U>(
  list: readonly T[],
  map: (entry: T, index: number) => U,
): Piecework<U[]> {
  const mapped: U[] = []
  for (let i = 0; i < list.length; i++) {
    mapped.push(map(list[i], i))
    if (i % ENTRIES === ENTRIES - 1) yield
  }
  return mapped
}
