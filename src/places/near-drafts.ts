/** Drafts found again by where they lie. */
import { apart, type Draft } from './drafts'

type Plane = Draft['anchor']

/** Drafts by key and cell of the plane. */
export class NearDrafts {
  readonly #byKey = new Map<string, Map<number, Draft[]>>()

  /**
   * @param reach no farther than this is looked, in working units
   * @param most drafts that a cell as wide keeps; the oldest are forgotten
   */
  constructor(
    private readonly reach: number,
    private readonly most = Infinity,
  ) {}

  /** Keeps a draft by its key and its anchor. */
  add(key: string, draft: Draft): void {
    let cells = this.#byKey.get(key)
    if (cells === undefined) this.#byKey.set(key, (cells = new Map()))
    const cell = this.#cell(draft.anchor, 0, 0)
    const list = cells.get(cell)
    if (list === undefined) cells.set(cell, [draft])
    else if (list.push(draft) > this.most) list.shift()
  }

  /**
   * The nearest draft of a key that may be taken.
   *
   * @param may whether a draft that far off may, the distance in working units
   */
  nearest(
    key: string,
    at: Plane,
    may: (draft: Draft, distance: number) => boolean,
  ): Draft | undefined {
    const cells = this.#byKey.get(key)
    if (cells === undefined) return undefined
    let best: Draft | undefined
    let least = Infinity
    for (let north = -1; north <= 1; north++) {
      for (let east = -1; east <= 1; east++) {
        for (const draft of cells.get(this.#cell(at, east, north)) ?? []) {
          const distance = apart(draft.anchor, at)
          if (distance < least && may(draft, distance)) [best, least] = [draft, distance]
        }
      }
    }
    return best
  }

  /** The number of a cell; two may share one where they are far apart, which distance then tells. */
  #cell({ easting, northing }: Plane, east: number, north: number): number {
    const column = Math.floor(easting / this.reach) + east
    const row = Math.floor(northing / this.reach) + north
    return column * 2 ** 25 + row
  }
}
