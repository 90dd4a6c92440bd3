/** A shelf in memory that clones what it is given, counts its commits, and fails when told to. */
import type { Shelf } from '../../src/project/keeper'

export class MemoryShelf implements Shelf {
  readonly parts = new Map<string, unknown>()
  /** The keys put and deleted by each commit that was begun. */
  readonly commits: { puts: string[]; deletes: string[] }[] = []
  /** Errors for the commits to come, the next one first; null lets one pass. */
  failures: (Error | null)[] = []
  #held: (() => void)[] | null = null

  get(key: string): Promise<unknown> {
    return Promise.resolve(structuredClone(this.parts.get(key)))
  }

  getMany(keys: readonly string[]): Promise<unknown[]> {
    return Promise.all(keys.map((key) => this.get(key)))
  }

  async commit(
    puts: readonly (readonly [key: string, value: unknown])[],
    deletes: readonly string[],
  ): Promise<void> {
    this.commits.push({ puts: puts.map(([key]) => key), deletes: [...deletes] })
    const copies = puts.map(([key, value]) => [key, structuredClone(value)] as const)
    if (this.#held) await new Promise<void>((resolve) => this.#held?.push(resolve))
    const failure = this.failures.shift()
    if (failure) throw failure
    for (const [key, value] of copies) this.parts.set(key, value)
    for (const key of deletes) this.parts.delete(key)
  }

  /** Commits wait from now on until they are let go. */
  hold(): void {
    this.#held = []
  }

  letGo(): void {
    const held = this.#held ?? []
    this.#held = null
    for (const go of held) go()
  }
}
