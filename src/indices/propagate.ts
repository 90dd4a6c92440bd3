/** First-order errors by reverse accumulation over a run. */
import type { Run } from './evaluate'
import type { Curve } from './functions'
import type { Step } from './program'

/**
 * One standard error of the number at a step, its leaves taken as independent.
 *
 * @returns null where the number depends smoothly on no leaf, or on one whose own error
 *   is unknown: an error that left something out would promise too much.
 */
export function propagate(steps: readonly Step[], run: Run, result: number): number | null {
  const slope = new Float64Array(result + 1)
  const reached = new Uint8Array(result + 1)
  slope[result] = 1
  reached[result] = 1
  let variance = 0
  let leaves = 0
  for (let at = result; at >= 0; at--) {
    if (reached[at] === 0) continue
    const step = steps[at]
    if (step.op === 'leaf' || step.op === 'column') {
      variance += (slope[at] * run.errors[at]) ** 2
      leaves++
    } else passBack(step, at, run.values, slope, reached)
  }
  const error = Math.sqrt(variance)
  return leaves > 0 && Number.isFinite(error) ? error : null
}

/** Adds to each operand's slope what reaches the result through this step. */
function passBack(
  step: Step,
  at: number,
  values: Float64Array,
  slope: Float64Array,
  reached: Uint8Array,
): void {
  const s = slope[at]
  const give = (to: number, amount: number): void => {
    slope[to] += amount
    reached[to] = 1
  }
  switch (step.op) {
    case 'cell to number':
      return give(step.a, s)
    case 'negate':
      return give(step.a, -s)
    case '+':
    case '-':
      give(step.a, s)
      return give(step.b, step.op === '+' ? s : -s)
    case '*':
      give(step.a, s * values[step.b])
      return give(step.b, s * values[step.a])
    case '/':
      give(step.a, s / values[step.b])
      return give(step.b, (-s * values[at]) / values[step.b])
    case '^':
      give(step.a, s * values[step.b] * values[step.a] ** (values[step.b] - 1))
      return give(step.b, values[at] === 0 ? 0 : s * values[at] * Math.log(values[step.a]))
    case 'min':
    case 'max':
      return give(values[step.a] === values[at] ? step.a : step.b, s)
    case 'gate':
      return give(step.b, s)
    case 'if':
      return give(values[step.a] === 1 ? step.b : step.c, s)
    // Conditions and texts move in jumps or not at all: no slope goes through them.
    case 'number':
    case 'text':
    case 'leaf':
    case 'column':
    case 'cell to text':
    case 'not':
    case 'and':
    case 'or':
    case 'compare numbers':
    case 'compare texts':
      return
    default:
      return give(step.a, curveSlope(step.op, s, values[step.a], values[at]))
  }
}

/** The slope `s` of a function's value `f`, passed back to the number `a` that it is of. */
function curveSlope(op: Curve, s: number, a: number, f: number): number {
  switch (op) {
    case 'abs':
      return a < 0 ? -s : s
    case 'log':
      return s / a
    case 'log10':
      return s / (a * Math.LN10)
    case 'exp':
      return s * f
    case 'sqrt':
      return s / (2 * f)
  }
}
