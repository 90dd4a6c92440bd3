/** Which nodes have the same set of points: sets as bits, each kept once, in a hash table. */

/** Collects a block's sets, then lists its nodes by set. Used again for block after block. */
export class SetTable {
  setCount = 0
  /** Nodes of set s are `nodes[starts[s] … starts[s + 1])`, once listed. */
  starts = new Int32Array(0)
  nodes = new Int32Array(0)
  /** The current set as bits, to be written by the caller. */
  words = new Int32Array(8)
  private wordCount = 0
  private setWords = new Int32Array(0)
  private setOf = new Int32Array(0)
  /** Hash table of sets, emptied by a new generation. */
  private table = new Int32Array(0)

  /** Begins a block of at most `nodes` nodes whose sets are taken from `candidates` points. */
  begin(nodes: number, candidates: number): void {
    this.wordCount = (candidates + 31) >> 5
    if (this.words.length < this.wordCount) this.words = new Int32Array(2 * this.wordCount)
    if (this.setOf.length < nodes) {
      this.setOf = new Int32Array(nodes)
      this.nodes = new Int32Array(nodes)
      this.starts = new Int32Array(nodes + 1)
      // At most half full.
      this.table = new Int32Array(2 << (32 - Math.clz32(nodes)))
    }
    if (this.setWords.length < nodes * this.wordCount)
      this.setWords = new Int32Array(nodes * this.wordCount)
    this.table.fill(0)
    this.words.fill(0)
    this.setCount = 0
  }

  /** Puts a candidate into the current set, or takes it out. */
  toggle(candidate: number): void {
    this.words[candidate >> 5] ^= 1 << (candidate & 31)
  }

  /** Gives a node the set of a number; −1 for none. */
  assign(node: number, set: number): void {
    this.setOf[node] = set
  }

  /** The number of the current set, a new one where it has not been met in this block. */
  currentSet(): number {
    const { words, wordCount, setWords, table } = this
    let hash = 0
    for (let w = 0; w < wordCount; w++)
      hash = Math.imul(hash ^ words[w], 0x9e3779b1) ^ (hash >>> 15)
    const mask = table.length - 1
    for (let slot = (hash ^ (hash >>> 16)) & mask; ; slot = (slot + 1) & mask) {
      const set = table[slot] - 1
      if (set < 0) {
        table[slot] = this.setCount + 1
        for (let w = 0; w < wordCount; w++) setWords[this.setCount * wordCount + w] = words[w]
        return this.setCount++
      }
      let same = true
      for (let w = 0; same && w < wordCount; w++) same = setWords[set * wordCount + w] === words[w]
      if (same) return set
    }
  }

  /** Writes a set's members as positions among the candidates, ascending; gives their number. */
  membersOf(set: number, out: Int32Array): number {
    const { setWords, wordCount } = this
    let size = 0
    for (let w = 0; w < wordCount; w++) {
      let word = setWords[set * wordCount + w]
      while (word !== 0) {
        const bit = 31 - Math.clz32(word & -word)
        out[size++] = 32 * w + bit
        word &= word - 1
      }
    }
    return size
  }

  /** Lists nodes by set, in order within each; those of no set are left out. */
  listNodes(count: number): void {
    const { starts, setOf, nodes, setCount } = this
    starts.fill(0, 0, setCount + 1)
    for (let node = 0; node < count; node++) if (setOf[node] >= 0) starts[setOf[node] + 1]++
    for (let set = 0; set < setCount; set++) starts[set + 1] += starts[set]
    const listed = starts[setCount]
    for (let node = count - 1; node >= 0; node--)
      if (setOf[node] >= 0) nodes[--starts[setOf[node] + 1]] = node
    // Each start now stands one place late.
    for (let set = 0; set < setCount; set++) starts[set] = starts[set + 1]
    starts[setCount] = listed
  }
}
