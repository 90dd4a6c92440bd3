/** Walks a parsed JSON value and says exactly where it is not what it should be. */

/** Something wrong in a recipe or decisions file, with its place. */
export class RecipeError extends Error {
  constructor(
    readonly path: string,
    readonly what: string,
  ) {
    super(path ? `at ${path}: ${what}` : what)
    this.name = 'RecipeError'
  }
}

/** Lists longer than this are refused. */
const MAX_ENTRIES = 100_000
/** Of a longer key only the beginning is told. */
const LONGEST_KEY = 80

/**
 * The whole of a JSON text, with a byte order mark or without.
 *
 * @throws RecipeError where it is longer than `most` or no JSON
 */
export function parseJson(text: string, most: number): Cursor {
  if (text.length > most) throw new RecipeError('', `the file is larger than ${most / 1e6} MB`)
  try {
    return new Cursor(JSON.parse(text.replace(/^\uFEFF/, '')) as unknown, '')
  } catch (error) {
    throw new RecipeError('', `it is not JSON (${(error as Error).message})`)
  }
}

/** One value of a JSON file and the path to it. */
export class Cursor {
  constructor(
    readonly value: unknown,
    readonly path: string,
  ) {}

  /** Refuses keys that are not in the list: a misspelt key would otherwise be passed over. */
  allow(keys: readonly string[]): void {
    for (const key of Object.keys(this.object())) {
      if (!keys.includes(key)) {
        throw new RecipeError(this.child(key), `no such key; known here: ${keys.join(', ')}`)
      }
    }
  }

  /** The value under a key that must be there. */
  at(key: string): Cursor {
    const found = this.optional(key)
    if (!found) throw new RecipeError(this.path, `‘${key}’ is missing`)
    return found
  }

  /** The value under a key, or undefined where it is absent or null. */
  optional(key: string): Cursor | undefined {
    const object = this.object()
    if (!Object.hasOwn(object, key) || object[key] === null) return undefined
    return new Cursor(object[key], this.child(key))
  }

  /** The entries of a list under a key, at most `most`; none where the key is absent. */
  list(key: string, most = MAX_ENTRIES): Cursor[] {
    const found = this.optional(key)
    if (!found) return []
    if (!Array.isArray(found.value)) throw new RecipeError(found.path, 'a list is expected')
    if (found.value.length > most) {
      throw new RecipeError(found.path, `more than ${most} entries`)
    }
    return found.value.map((entry, index) => new Cursor(entry, `${found.path}[${index}]`))
  }

  /** The keys of an object. */
  keys(): string[] {
    return Object.keys(this.object())
  }

  /** The numbers of a list. */
  numbers(): number[] {
    if (!Array.isArray(this.value) || this.value.length > MAX_ENTRIES) {
      throw new RecipeError(this.path, 'a list of numbers is expected')
    }
    return this.value.map((entry, index) => new Cursor(entry, `${this.path}[${index}]`).number())
  }

  /** A text of at most 10,000 characters, which may be empty. */
  text(): string {
    if (typeof this.value !== 'string') throw new RecipeError(this.path, 'text is expected')
    if (this.value.length > 10_000) throw new RecipeError(this.path, 'the text is too long')
    return this.value
  }

  /** A text that is more than blanks. */
  filledText(): string {
    const text = this.text()
    if (text.trim() === '') throw new RecipeError(this.path, 'the text is empty')
    return text
  }

  /** A finite number. */
  number(): number {
    if (typeof this.value !== 'number' || !Number.isFinite(this.value)) {
      throw new RecipeError(this.path, 'a number is expected')
    }
    return this.value
  }

  /** A number within bounds, both included. */
  between(low: number, high: number): number {
    const value = this.number()
    if (value < low || value > high) {
      throw new RecipeError(this.path, `${value} is not between ${low} and ${high}`)
    }
    return value
  }

  /** A whole number within bounds, both included. */
  whole(low: number, high: number): number {
    const value = this.between(low, high)
    if (!Number.isInteger(value)) {
      throw new RecipeError(this.path, `${value} is no whole number`)
    }
    return value
  }

  /** True or false. */
  truth(): boolean {
    if (typeof this.value !== 'boolean') {
      throw new RecipeError(this.path, 'true or false is expected')
    }
    return this.value
  }

  /** One of some words, letter by letter. */
  oneOf<T extends string>(words: readonly T[]): T {
    const text = this.text()
    const found = words.find((word) => word === text)
    if (found === undefined)
      throw new RecipeError(this.path, `‘${text}’ is none of ${words.join(', ')}`)
    return found
  }

  private object(): Record<string, unknown> {
    if (typeof this.value !== 'object' || this.value === null || Array.isArray(this.value)) {
      throw new RecipeError(this.path, 'an object { … } is expected')
    }
    return this.value as Record<string, unknown>
  }

  private child(key: string): string {
    const name = key.length > LONGEST_KEY ? `${key.slice(0, LONGEST_KEY)}…` : key
    return this.path ? `${this.path}.${name}` : name
  }
}

/** A range [from, to] in nm. @throws RecipeError where it is none */
export function readRange(range: Cursor): readonly [number, number] {
  const ends = range.numbers()
  if (ends.length !== 2 || !(ends[0] < ends[1])) {
    throw new RecipeError(range.path, 'a range [from, to] in nm is expected, the lower end first')
  }
  return [ends[0], ends[1]]
}
