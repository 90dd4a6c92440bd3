/** What a person says of files alike where the readers misread them. */
import type { Encoding, Layout } from './input'
import type { DateOrder } from './time'

/** Units of wavelength as they are written in a recipe, and as a layout has them. */
export const WAVELENGTH_UNITS = { nm: 'nm', um: 'µm', 'cm-1': 'cm⁻¹' } as const satisfies Record<
  string,
  Layout['wavelengthUnit']
>
export type WavelengthUnitKey = keyof typeof WAVELENGTH_UNITS

export const REFLECTANCE_UNITS = [
  'fraction',
  'percent',
  'per 10000',
] as const satisfies readonly Layout['reflectanceUnit'][]

export const DATE_ORDERS = ['day first', 'month first'] as const satisfies readonly DateOrder[]
export const DECIMAL_SIGNS = ['.', ','] as const

/** An entry of the recipe's `layouts`; what it does not say is found as ever. */
export interface Correction {
  /** The `like` of the files' look. */
  readonly like: string
  readonly wavelength_unit?: WavelengthUnitKey
  readonly reflectance?: Layout['reflectanceUnit']
  /** The column taken for reflectance: its heading, or `column n`, counted from 1. */
  readonly column?: string
  readonly decimal?: Layout['decimal']
  readonly encoding?: Encoding
  /** How dates such as `05/03/2024` are meant. */
  readonly date_order?: DateOrder
}

/** The correction for a look, if there is one. */
export function correctionFor(
  like: string | undefined,
  corrections: readonly Correction[],
): Correction | undefined {
  return like === undefined ? undefined : corrections.find((each) => each.like === like)
}

/** A correction as the readers take it. */
export function overridesOf(correction: Correction): Partial<Layout> {
  const { wavelength_unit: unit, reflectance, column, decimal, encoding } = correction
  return {
    ...(unit === undefined ? {} : { wavelengthUnit: WAVELENGTH_UNITS[unit] }),
    ...(reflectance === undefined ? {} : { reflectanceUnit: reflectance }),
    ...(column === undefined ? {} : { column }),
    ...(decimal === undefined ? {} : { decimal }),
    ...(encoding === undefined ? {} : { encoding }),
  }
}

/** Whether two corrections say the same. */
export function sameCorrection(a: Correction | undefined, b: Correction | undefined): boolean {
  if (a === undefined || b === undefined) return a === b
  return (
    a.like === b.like &&
    a.wavelength_unit === b.wavelength_unit &&
    a.reflectance === b.reflectance &&
    a.column === b.column &&
    a.decimal === b.decimal &&
    a.encoding === b.encoding &&
    a.date_order === b.date_order
  )
}
