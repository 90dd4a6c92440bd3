/** The limits in a rule's text that can be moved with a slider. */
import { tokens, type Token } from '../../indices/tokens'

export interface Limit {
  /** Offsets of the number in the rule's text. */
  readonly from: number
  readonly to: number
  readonly value: number
}

const COMPARISONS = new Set(['<', '<=', '>', '>=', '=', '!='])

/** Numbers that stand right after a comparison. A text that cannot be read has none. */
export function limitsOf(text: string): Limit[] {
  let list: Token[]
  try {
    list = tokens(text)
  } catch {
    return []
  }
  return list.flatMap(({ kind, value, from, to }, i): Limit[] => {
    const before = list[i - 1]
    const compared = before?.kind === 'sign' && COMPARISONS.has(before.text)
    return kind === 'number' && compared ? [{ from, to, value }] : []
  })
}

/** A rule's text with one number replaced. */
export function withLimit(text: string, { from, to }: Limit, value: number): string {
  return text.slice(0, from) + String(Number(value.toPrecision(6))) + text.slice(to)
}

/** A range around a limit that a slider runs over, and its step: 0 to 1 for shares, else a tenth to each side. */
export function rangeOf(value: number): { min: number; max: number; step: number } {
  if (value >= 0 && value <= 1) return { min: 0, max: 1, step: 0.01 }
  if (value > 300 && value < 2600) return { min: value - 20, max: value + 20, step: 0.5 }
  const reach = Math.abs(value) || 1
  return { min: value - reach, max: value + reach, step: Number((reach / 50).toPrecision(1)) }
}
