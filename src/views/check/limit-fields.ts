/** Limits of the check as fields: fractions are shown in percent. */
import { DEFAULT_LIMITS, LIMIT_KINDS, type CheckLimits } from '../../check/limits'
import type { CheckChoice } from '../../project/recipe-check'

export interface LimitField {
  readonly name: keyof CheckLimits
  readonly words: string
  readonly unit: string
  /** All as shown. */
  readonly value: number
  readonly usual: number
  readonly low: number
  readonly high: number
}

/** A field for each limit, in order. */
export function limitFields({ limits = {} }: CheckChoice): LimitField[] {
  return (Object.keys(LIMIT_KINDS) as (keyof CheckLimits)[]).map((name) => {
    const { words, unit, low, high } = LIMIT_KINDS[name]
    const shown = (value: number) => Number((value * scaleOf(name)).toPrecision(9))
    return {
      name,
      words,
      unit: unit === 'fraction' ? '%' : unit,
      value: shown(limits[name] ?? DEFAULT_LIMITS[name]),
      usual: shown(DEFAULT_LIMITS[name]),
      low: shown(low),
      high: shown(high),
    }
  })
}

/** The choice with one limit as shown in its field; with none, the limit is the usual one again. */
export function withLimit(
  { limits, ...rest }: CheckChoice,
  name: keyof CheckLimits,
  shown: number | null,
): CheckChoice | undefined {
  const others = Object.fromEntries(Object.entries(limits ?? {}).filter(([key]) => key !== name))
  const value = shown === null ? DEFAULT_LIMITS[name] : shown / scaleOf(name)
  const isUsual = Number(value.toPrecision(9)) === DEFAULT_LIMITS[name]
  const next = isUsual ? others : { ...others, [name]: Number(value.toPrecision(9)) }
  return orNothing({ ...rest, ...(Object.keys(next).length > 0 ? { limits: next } : {}) })
}

/** A choice in which nothing is chosen is none. */
export function orNothing(choice: CheckChoice): CheckChoice | undefined {
  return Object.values(choice).some((part) => part !== undefined) ? choice : undefined
}

/** The positions written in a field, nm; null where it does not hold positions alone. */
export function readPositions(text: string): number[] | null {
  const numbers = text
    .split(/[\s,;]+/)
    .filter(Boolean)
    .map(Number)
  return numbers.length > 0 && numbers.every((nm) => nm >= 350 && nm <= 2500) ? numbers : null
}

function scaleOf(name: keyof CheckLimits): number {
  return LIMIT_KINDS[name].unit === 'fraction' ? 100 : 1
}
