/** A formula's trouble as one line, for a report without a screen. */
import type { FormulaTrouble } from './results'

/** What was left out, where in its text the mistake stands (from 1), and what is wrong. */
export function troubleWords({ name, part, message, from }: FormulaTrouble): string {
  return `Left out: ${part} of ‘${name}’, at character ${from + 1}. ${message}`
}
