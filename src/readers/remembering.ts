/** Remembers what a function made of short texts: those of files alike are the same few. */

const MOST = 1000
const LONGEST = 200

/** The function, which no longer works a short text out twice. `make` must depend on nothing else. */
export function remembering<T>(make: (text: string) => T): (text: string) => T {
  const known = new Map<string, { readonly made: T }>()
  return (text) => {
    if (text.length > LONGEST) return make(text)
    let entry = known.get(text)
    if (entry === undefined) {
      entry = { made: make(text) }
      if (known.size >= MOST) known.clear()
      known.set(text, entry)
    }
    return entry.made
  }
}
