/** Nodes by the time at which they are reached: a binary heap in which a node may stand twice. */
export class TimeQueue {
  #nodes: number[] = []
  #times: number[] = []
  /** The time of the node that was taken out last. */
  poppedAt = 0

  /** Puts a node in under its time. */
  push(node: number, time: number): void {
    let at = this.#nodes.length
    while (at > 0) {
      const parent = (at - 1) >> 1
      if (this.#times[parent] <= time) break
      this.#nodes[at] = this.#nodes[parent]
      this.#times[at] = this.#times[parent]
      at = parent
    }
    this.#nodes[at] = node
    this.#times[at] = time
  }

  /** The node with the least time; -1 where none is left. */
  pop(): number {
    const count = this.#nodes.length
    if (count === 0) return -1
    const first = this.#nodes[0]
    this.poppedAt = this.#times[0]
    const node = this.#nodes.pop() as number
    const time = this.#times.pop() as number
    if (count === 1) return first
    let at = 0
    for (;;) {
      let child = 2 * at + 1
      if (child >= count - 1) break
      if (child + 1 < count - 1 && this.#times[child + 1] < this.#times[child]) child++
      if (this.#times[child] >= time) break
      this.#nodes[at] = this.#nodes[child]
      this.#times[at] = this.#times[child]
      at = child
    }
    this.#nodes[at] = node
    this.#times[at] = time
    return first
  }
}
