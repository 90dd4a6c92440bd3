/** A figure that is itself not known better than to two digits, such as an error. */

/** Beyond these powers of ten a figure is written with one. */
const LARGEST = 9
const SMALLEST = -5

/** A number in two digits, a zero at its end among them (`1.0`, `0.94`, `390`). */
export function inTwoDigits(value: number): string {
  if (value === 0 || !Number.isFinite(value)) return String(value)
  const rounded = Number(value.toPrecision(2))
  const power = Math.floor(Math.log10(Math.abs(rounded)))
  if (power > LARGEST || power < SMALLEST) return rounded.toExponential(1)
  return rounded.toFixed(Math.max(0, 1 - power))
}
