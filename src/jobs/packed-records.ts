/**
 * Plain records on their way between threads, and as they are kept: all their numbers in one
 * array, how they are built told once for all that are built alike. Ten thousand records of a
 * hundred numbers are then a few arrays, rather than a million objects to copy and keep.
 */

/** Records of one type, packed. Numbers, NaN among them, come back to the last bit. */
export interface PackedRecords<T> {
  /** How records are built: JSON in which 0 stands for a number and 1 for a text; no two alike. */
  readonly builds: readonly string[]
  /** Each record's build. */
  readonly build: Uint16Array
  /** Where each record's numbers begin. */
  readonly starts: Uint32Array
  /** Numbers, and for texts their place in `texts`, in the order in which a build has them. */
  readonly numbers: Float64Array
  /** No two alike. */
  readonly texts: readonly string[]
  /** Only for the compiler: the type that was packed. */
  readonly type?: T
}

/** How a record, or a part of it, is built. */
type Build =
  | 'number'
  | 'text'
  | { readonly same: boolean | null }
  | { readonly items: readonly Build[] }
  | { readonly names: readonly string[]; readonly parts: readonly Build[] }

/**
 * Records packed, in their order: numbers, texts, truths and null, in lists and in objects. A
 * field that is undefined is left out.
 *
 * @throws TypeError where a record holds anything else
 */
export function packRecords<T extends object>(records: readonly T[]): PackedRecords<T> {
  const packing = new Packing()
  const build = new Uint16Array(records.length)
  const starts = new Uint32Array(records.length)
  records.forEach((record, i) => {
    starts[i] = packing.numbers.length
    build[i] = packing.builds.placeOf(packing.take(record))
  })
  const { numbers, builds, texts } = packing
  const all = Float64Array.from(numbers)
  return { builds: builds.list, build, starts, numbers: all, texts: texts.list }
}

/**
 * One record as it was before it was packed.
 *
 * @throws RangeError where there is no such record
 */
export function unpackRecord<T>(packed: PackedRecords<T>, record: number): T {
  if (!(record >= 0 && record < packed.build.length)) {
    throw new RangeError(`there is no record ${record} among ${packed.build.length}`)
  }
  const { numbers, texts } = packed
  let next = packed.starts[record]
  const made = (build: Build): unknown => {
    if (build === 'number') return numbers[next++]
    if (build === 'text') return texts[numbers[next++]]
    if ('same' in build) return build.same
    if ('items' in build) return build.items.map(made)
    const fields: Record<string, unknown> = {}
    for (let i = 0; i < build.names.length; i++) fields[build.names[i]] = made(build.parts[i])
    return fields
  }
  return made(buildOf(packed.builds[packed.build[record]])) as T
}

/** All of them, in order. */
export function unpackRecords<T>(packed: PackedRecords<T>): T[] {
  return Array.from(packed.build, (_, record) => unpackRecord(packed, record))
}

/** The buffers of packed records, to be handed over rather than copied. */
export function packedBuffers({ build, starts, numbers }: PackedRecords<unknown>): ArrayBuffer[] {
  return [build, starts, numbers].flatMap(({ buffer }) =>
    buffer instanceof ArrayBuffer ? [buffer] : [],
  )
}

/** A list of texts in which each stands once. */
class Texts {
  readonly list: string[] = []
  readonly #places = new Map<string, number>()

  placeOf(text: string): number {
    let place = this.#places.get(text)
    if (place === undefined) {
      place = this.list.push(text) - 1
      this.#places.set(text, place)
    }
    return place
  }
}

class Packing {
  readonly numbers: number[] = []
  readonly builds = new Texts()
  readonly texts = new Texts()

  /** Takes a value's numbers and texts. @returns how it is built */
  take(value: unknown): string {
    if (typeof value === 'number') {
      this.numbers.push(value)
      return '0'
    }
    if (typeof value === 'string') {
      this.numbers.push(this.texts.placeOf(value))
      return '1'
    }
    if (value === null) return 'null'
    if (typeof value === 'boolean') return String(value)
    if (Array.isArray(value)) return `[${value.map((item) => this.take(item)).join(',')}]`
    if (typeof value !== 'object') throw new TypeError(`a ${typeof value} cannot be packed`)
    if (ArrayBuffer.isView(value)) throw new TypeError('a typed array cannot be packed')
    let build = ''
    for (const [name, part] of Object.entries(value)) {
      if (part === undefined) continue
      build += `${build ? ',' : ''}${JSON.stringify(name)}:${this.take(part)}`
    }
    return `{${build}}`
  }
}

const known = new Map<string, Build>()

/** A build read from its JSON, once. */
function buildOf(json: string): Build {
  let build = known.get(json)
  if (build === undefined) {
    build = readBuild(JSON.parse(json))
    known.set(json, build)
  }
  return build
}

function readBuild(told: unknown): Build {
  if (told === 0) return 'number'
  if (told === 1) return 'text'
  if (Array.isArray(told)) return { items: told.map(readBuild) }
  if (typeof told !== 'object' || told === null) return { same: told as boolean | null }
  return { names: Object.keys(told), parts: Object.values(told).map(readBuild) }
}
