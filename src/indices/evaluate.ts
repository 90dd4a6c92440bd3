/**
 * Steps to values: forward for the value, back for its error.
 *
 * Null is NaN for numbers and truths (1, 0), and null for texts. It spreads; `and`, `or`
 * and `not` follow Kleene's strong three-valued logic (Kleene 1952, Introduction to
 * Metamathematics, section 64). The error is of first order, Σ (∂f/∂leaf · error)² over
 * the leaves taken as independent (JCGM 100:2008, 5.1.2), by reverse accumulation, so
 * that a leaf used twice is one variable.
 */
import type { CompiledFormula, ValueType } from './compile'
import type { ValueContext } from './context'
import type { Step } from './program'
import { MISSING, type FormulaValue, type Measured, type Missing } from './rule'
import { propagate } from './propagate'

const CODE = new Map<Missing | undefined, number>(MISSING.map((word, i) => [word, i + 1]))
const NO_ANSWER = CODE.get('no mathematical answer') ?? 0
const CONDITION_FALSE = CODE.get('condition false') ?? 0
const NO_CELL = CODE.get('no such cell') ?? 0
const NOT_A_NUMBER = CODE.get('text, not a number') ?? 0

/** The values of each step of one evaluation. */
export interface Run {
  /** Numbers, and truths as 1 and 0; NaN where null or text. */
  readonly values: Float64Array
  /** Texts; null elsewhere. */
  readonly texts: (string | null)[]
  /** One standard error of each leaf; NaN where unknown. */
  readonly errors: Float64Array
  /** 1 + the index into MISSING of the reason; 0 where there is a value. */
  readonly reasons: Uint8Array
}

/** Evaluates a formula on one scan or station. */
export function evaluate(formula: CompiledFormula, context: ValueContext): FormulaValue {
  const run = runSteps(formula.steps, context)
  return resultOf(formula.steps, run, formula.result, formula.type)
}

/** The result at one step of a run. */
function resultOf(steps: readonly Step[], run: Run, at: number, type: ValueType): FormulaValue {
  const text = run.texts[at]
  if (text !== null) return { value: text, error: null }
  const number = run.values[at]
  if (Number.isNaN(number)) return { value: null, error: null, missing: reasonOf(run, at) }
  if (type === 'boolean') return { value: number === 1, error: null }
  return { value: number, error: propagate(steps, run, at) }
}

/** The number at one step of a run, with its error. */
export function measuredAt(steps: readonly Step[], run: Run, at: number): Measured {
  const value = run.values[at]
  if (Number.isNaN(value)) return { value: null, error: null, missing: reasonOf(run, at) }
  return { value, error: propagate(steps, run, at) }
}

/** Whether the condition at one step of a run holds; null where that cannot be told. */
export function holdsAt(run: Run, at: number): boolean | null {
  const value = run.values[at]
  return Number.isNaN(value) ? null : value === 1
}

/** Why the value at a step is missing. */
export function reasonOf(run: Run, at: number): Missing {
  return MISSING[Math.max(0, run.reasons[at] - 1)]
}

/** Runs every step once. */
export function runSteps(steps: readonly Step[], context: ValueContext): Run {
  const run = emptyRun(steps.length)
  continueRun(steps, run, 0, steps.length, context)
  return run
}

/** A run in which no step has a value yet. */
export function emptyRun(length: number): Run {
  return {
    values: new Float64Array(length),
    texts: new Array<string | null>(length).fill(null),
    errors: new Float64Array(length),
    reasons: new Uint8Array(length),
  }
}

/**
 * Runs the steps from `start` up to and without `end`; those before `start` have been run.
 * Whatever an earlier use of the run left at these steps is overwritten.
 */
export function continueRun(
  steps: readonly Step[],
  run: Run,
  start: number,
  end: number,
  context: ValueContext,
): void {
  for (let at = start; at < end; at++) runStep(steps[at], at, run, context)
}

function runStep(step: Step, at: number, run: Run, context: ValueContext): void {
  const { values, texts, reasons } = run
  texts[at] = null
  reasons[at] = 0
  switch (step.op) {
    case 'number':
      values[at] = step.value
      return
    case 'text':
      values[at] = NaN
      texts[at] = step.value
      return
    case 'leaf':
      return readLeaf(leafOf(step.source, step.key, context), at, run)
    case 'column':
      return readCell(step.name, at, run, context)
    case 'cell to number':
      values[at] = values[step.a]
      reasons[at] = texts[step.a] === null ? reasons[step.a] : NOT_A_NUMBER
      return
    case 'cell to text':
      // A cell that reads as a number is compared with text as its shortest decimal form.
      texts[at] = texts[step.a] ?? (Number.isNaN(values[step.a]) ? null : String(values[step.a]))
      values[at] = NaN
      reasons[at] = reasons[step.a]
      return
    case 'and':
    case 'or':
      return runLogic(step.op, step.a, step.b, at, run)
    case 'compare texts': {
      const a = texts[step.a]
      const b = texts[step.b]
      if (a === null || b === null) return miss(at, run, reasons[step.a] || reasons[step.b])
      values[at] = (a === b) === step.equal ? 1 : 0
      return
    }
    case 'if':
    case 'gate':
      return runChoice(step, at, run)
    default:
      return runNumeric(step, at, run)
  }
}

type NumericStep = Exclude<
  Step,
  {
    op:
      | 'number'
      | 'text'
      | 'leaf'
      | 'column'
      | 'cell to number'
      | 'cell to text'
      | 'and'
      | 'or'
      | 'compare texts'
      | 'if'
      | 'gate'
  }
>

/** A step that is missing wherever one of its numbers is. */
function runNumeric(step: NumericStep, at: number, run: Run): void {
  const { values, reasons } = run
  const a = values[step.a]
  const b = 'b' in step ? values[step.b] : 0
  if (Number.isNaN(a) || Number.isNaN(b)) {
    return miss(at, run, reasons[step.a] || ('b' in step ? reasons[step.b] : NO_ANSWER))
  }
  const value =
    step.op === 'compare numbers' ? compare(step.relation, a, b) : compute(step.op, a, b)
  if (Number.isFinite(value)) values[at] = value
  else miss(at, run, NO_ANSWER)
}

function compare(relation: string, a: number, b: number): number {
  switch (relation) {
    case '=':
      return a === b ? 1 : 0
    case '!=':
      return a !== b ? 1 : 0
    case '<':
      return a < b ? 1 : 0
    case '<=':
      return a <= b ? 1 : 0
    case '>':
      return a > b ? 1 : 0
    default:
      return a >= b ? 1 : 0
  }
}

function compute(op: Exclude<NumericStep['op'], 'compare numbers'>, a: number, b: number): number {
  switch (op) {
    case '+':
      return a + b
    case '-':
      return a - b
    case '*':
      return a * b
    case '/':
      return a / b
    case '^':
      return a ** b
    case 'min':
      return Math.min(a, b)
    case 'max':
      return Math.max(a, b)
    case 'negate':
      return -a
    case 'not':
      return 1 - a
    case 'abs':
      return Math.abs(a)
    case 'log':
      return Math.log(a)
    case 'log10':
      return Math.log10(a)
    case 'exp':
      return Math.exp(a)
    case 'sqrt':
      return Math.sqrt(a)
  }
}

/** Kleene: false settles `and`, true settles `or`, whatever the other side is. */
function runLogic(op: 'and' | 'or', a: number, b: number, at: number, run: Run): void {
  const { values, reasons } = run
  const settling = op === 'and' ? 0 : 1
  if (values[a] === settling || values[b] === settling) values[at] = settling
  else if (reasons[a] || reasons[b]) miss(at, run, reasons[a] || reasons[b])
  else values[at] = 1 - settling
}

function runChoice(step: Extract<Step, { op: 'if' | 'gate' }>, at: number, run: Run): void {
  const { values, texts, reasons } = run
  const condition = values[step.a]
  if (Number.isNaN(condition)) return miss(at, run, reasons[step.a])
  if (condition === 0 && step.op === 'gate') return miss(at, run, CONDITION_FALSE)
  const chosen = condition === 0 && step.op === 'if' ? step.c : step.b
  values[at] = values[chosen]
  texts[at] = texts[chosen]
  reasons[at] = reasons[chosen]
}

function leafOf(source: string, key: string, context: ValueContext): Measured {
  switch (source) {
    case 'spectrum':
      return context.leaf(key)
    case 'share':
      return context.share(key)
    case 'group':
      return context.group(key)
    case 'fit':
      return context.fit(key)
    default:
      return context.index(key)
  }
}

function readLeaf(measured: Measured, at: number, run: Run): void {
  run.errors[at] = measured.error ?? NaN
  if (measured.value === null || Number.isNaN(measured.value)) {
    miss(at, run, CODE.get(measured.missing) ?? NO_ANSWER)
  } else run.values[at] = measured.value
}

function readCell(name: string, at: number, run: Run, context: ValueContext): void {
  const cell = context.column(name)
  run.errors[at] = NaN
  if (typeof cell === 'number' && Number.isFinite(cell)) run.values[at] = cell
  else if (typeof cell === 'string') {
    run.values[at] = NaN
    run.texts[at] = cell.normalize('NFC')
  } else miss(at, run, NO_CELL)
}

function miss(at: number, run: Run, reason: number): void {
  run.values[at] = NaN
  run.reasons[at] = reason
}
