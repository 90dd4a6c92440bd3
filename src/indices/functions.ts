/** The functions of the formula language: their names, arguments and what they give. */

/** What can be read off an absorption. */
export type FeatureQuantity = 'position' | 'depth' | 'width' | 'area' | 'asymmetry'

/** Functions of one number. */
export type Curve = 'abs' | 'log' | 'log10' | 'exp' | 'sqrt'

/** How a function takes its arguments. */
export type FunctionKind =
  | 'feature'
  | 'channels'
  | 'reflectance'
  | 'identification'
  | 'column'
  | 'origin'
  | 'curve'
  | 'extreme'
  | 'choice'

export interface FormulaFunction {
  readonly name: string
  readonly kind: FunctionKind
  /** Numbers of arguments that it takes; `Infinity` last means that many or more of the one before. */
  readonly counts: readonly number[]
  /** As it is written, with the arguments' names. */
  readonly form: string
  /** What it gives, with the unit. */
  readonly meaning: string
}

const RANGES = '(from, to) or (from, to, hull from, hull to)'

/** Every function, in the order in which they are listed to the user. */
export const FUNCTIONS: readonly FormulaFunction[] = [
  feature('position', 'wavelength of the lowest continuum-removed reflectance, nm'),
  feature('depth', 'depth of the absorption under its hull, 0 to 1'),
  feature('width', 'full width at half depth, nm'),
  feature('area', 'area between the hull at 1 and the continuum-removed reflectance, nm'),
  feature('asymmetry', 'area right of the minimum over area left of it'),
  {
    name: 'reflectance',
    kind: 'reflectance',
    counts: [1],
    form: 'reflectance(nm)',
    meaning: 'reflectance at a wavelength, a fraction',
  },
  channels('mean', 'mean reflectance of the channels in a range, a fraction'),
  channels('slope', 'slope of reflectance against wavelength in a range, per 1000 nm'),
  identification('share', 'mineral', 'part of the absorption that a mineral explains, 0 to 1'),
  identification('group', 'group', 'part of the absorption that a group explains, 0 to 1'),
  identification('fit', 'mineral', "how well a mineral's own features match, 0 to 1"),
  {
    name: 'column',
    kind: 'column',
    counts: [1],
    form: 'column("name")',
    meaning: "a cell of the station's row in the sample table: a number or text",
  },
  {
    name: 'origin',
    kind: 'origin',
    counts: [1],
    form: 'origin("mineral")',
    meaning: 'where a person says that a mineral came from: "hypogene", "supergene" or "unknown"',
  },
  {
    name: 'if',
    kind: 'choice',
    counts: [3],
    form: 'if(condition, a, b)',
    meaning: 'a where the condition is true, b where it is false',
  },
  extreme('min', 'the smallest of its values'),
  extreme('max', 'the largest of its values'),
  curve('abs', 'the value without its sign'),
  curve('log', 'natural logarithm'),
  curve('log10', 'logarithm to the base 10'),
  curve('exp', 'e to the power of a value'),
  curve('sqrt', 'square root'),
]

/** The function of a name, or undefined. */
export function functionNamed(name: string): FormulaFunction | undefined {
  return BY_NAME.get(name)
}

const BY_NAME = new Map(FUNCTIONS.map((entry) => [entry.name, entry]))

function feature(name: FeatureQuantity, meaning: string): FormulaFunction {
  return { name, kind: 'feature', counts: [2, 4], form: `${name}${RANGES}`, meaning }
}

function channels(name: 'mean' | 'slope', meaning: string): FormulaFunction {
  return { name, kind: 'channels', counts: [2], form: `${name}(from, to)`, meaning }
}

function identification(
  name: 'share' | 'group' | 'fit',
  of: string,
  meaning: string,
): FormulaFunction {
  return { name, kind: 'identification', counts: [1], form: `${name}("${of}")`, meaning }
}

function extreme(name: 'min' | 'max', meaning: string): FormulaFunction {
  return { name, kind: 'extreme', counts: [2, Infinity], form: `${name}(a, b, …)`, meaning }
}

function curve(name: Curve, meaning: string): FormulaFunction {
  return { name, kind: 'curve', counts: [1], form: `${name}(a)`, meaning }
}
