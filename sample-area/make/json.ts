/** JSON as the repo's formatter leaves it, so that made files pass its check. */

const WIDTH = 100

/** The text of a JSON file: objects a key a line, short arrays on one line, pairs one a line. */
export function jsonText(value: unknown): string {
  return written(value, 0, 0) + '\n'
}

/**
 * @param indent blanks before the line that the value's closing bracket stands on
 * @param before characters already on the value's first line
 */
function written(value: unknown, indent: number, before: number): string {
  if (Array.isArray(value)) return writtenArray(value, indent, before)
  if (typeof value === 'object' && value !== null) return writtenObject(value, indent)
  return JSON.stringify(value)
}

function writtenObject(value: object, indent: number): string {
  const entries = Object.entries(value).filter(([, entry]) => entry !== undefined)
  if (entries.length === 0) return '{}'
  const inner = ' '.repeat(indent + 2)
  const lines = entries.map(([key, entry]) => {
    const head = `${inner}${JSON.stringify(key)}: `
    return head + written(entry, indent + 2, head.length)
  })
  return `{\n${lines.join(',\n')}\n${' '.repeat(indent)}}`
}

function writtenArray(value: readonly unknown[], indent: number, before: number): string {
  const nested =
    value.length > 1 && value.every((entry) => Array.isArray(entry) && entry.length > 1)
  if (!nested) {
    const line = `[${value.map((entry) => written(entry, 0, 0)).join(', ')}]`
    if (!line.includes('\n') && before + line.length < WIDTH) return line
  }
  const inner = ' '.repeat(indent + 2)
  const lines = value.map((entry) => inner + written(entry, indent + 2, indent + 2))
  return `[\n${lines.join(',\n')}\n${' '.repeat(indent)}]`
}
