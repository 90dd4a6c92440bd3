/** What is wrong in a file, told row by row as long as that helps. */
import type { Problem } from '../readers/input'

/** The most rows of one kind of trouble that are told one by one. */
const TOLD = 20

/** Collects a table's problems, and sums them up where there are many of a kind. */
export class Troubles {
  readonly list: Problem[] = []
  private readonly counts = new Map<string, number>()

  constructor(private readonly file: string) {}

  /**
   * Notes a problem; of each kind the first twenty are told one by one.
   *
   * @param done what was done about it and what the reader can do
   */
  add(kind: string, line: number | null, problem: string, done: string): void {
    const count = (this.counts.get(kind) ?? 0) + 1
    this.counts.set(kind, count)
    if (count <= TOLD) this.list.push({ file: this.file, line, problem, done })
  }

  /** All problems; more than twenty of a kind are counted in one line. */
  all(): Problem[] {
    const sums = [...this.counts].filter(([, count]) => count > TOLD)
    return [
      ...this.list,
      ...sums.map(([kind, count]) => ({
        file: this.file,
        line: null,
        problem: `${count - TOLD} more rows with the same trouble: ${kind}`,
        done: 'treated as the ones above',
      })),
    ]
  }
}
