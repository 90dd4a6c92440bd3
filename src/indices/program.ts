/**
 * A formula as a list of steps, each reading earlier ones. Running it is one loop
 * forward; the error of a result is one loop back. Equal steps are kept once, so that a
 * leaf used twice is one variable, and indices of a set share what they have in common.
 */
import type { Curve } from './functions'
import type { SpectralLeaf } from './leaves'
import type { Comparison } from './syntax'

/** Where a leaf's value comes from. */
export type LeafSource = 'spectrum' | 'share' | 'group' | 'fit' | 'index'

/** One step. `a`, `b`, `c` are the places of earlier steps in the list. */
export type Step =
  | { readonly op: 'number'; readonly value: number }
  | { readonly op: 'text'; readonly value: string }
  | { readonly op: 'leaf'; readonly source: LeafSource; readonly key: string }
  | { readonly op: 'column'; readonly name: string }
  | { readonly op: 'cell to number' | 'cell to text'; readonly a: number }
  | { readonly op: 'negate' | 'not' | Curve; readonly a: number }
  | {
      readonly op: '+' | '-' | '*' | '/' | '^' | 'min' | 'max'
      readonly a: number
      readonly b: number
    }
  | { readonly op: 'and' | 'or'; readonly a: number; readonly b: number }
  | {
      readonly op: 'compare numbers'
      readonly relation: Comparison
      readonly a: number
      readonly b: number
    }
  | {
      readonly op: 'compare texts'
      readonly equal: boolean
      readonly a: number
      readonly b: number
    }
  | { readonly op: 'if'; readonly a: number; readonly b: number; readonly c: number }
  /** `b` where `a` is true, missing elsewhere: the `where` of an index. */
  | { readonly op: 'gate'; readonly a: number; readonly b: number }

/** Steps under construction. */
export class ProgramBuilder {
  readonly steps: Step[] = []
  private readonly places = new Map<string, number>()
  private readonly spectral = new Map<string, SpectralLeaf>()
  /** For each step, whether anything below it is read off a scan. */
  private readonly scanned: boolean[] = []

  /** The place of a step, added where it is not yet there. */
  add(step: Step): number {
    const identity = JSON.stringify(step)
    const there = this.places.get(identity)
    if (there !== undefined) return there
    const place = this.steps.push(step) - 1
    this.places.set(identity, place)
    this.scanned.push(step.op === 'leaf' || operands(step).some((at) => this.scanned[at]))
    return place
  }

  /** The place of a spectral leaf. */
  addSpectral(leaf: SpectralLeaf): number {
    this.spectral.set(leaf.key, leaf)
    return this.add({ op: 'leaf', source: 'spectrum', key: leaf.key })
  }

  /** Whether the step's value depends on a scan, not on tables and numbers alone. */
  needsScan(place: number): boolean {
    return this.scanned[place]
  }

  /** Every spectral leaf met so far. */
  leaves(): SpectralLeaf[] {
    return [...this.spectral.values()]
  }
}

/** The earlier steps that a step reads. */
function operands(step: Step): number[] {
  const list: number[] = []
  if ('a' in step) list.push(step.a)
  if ('b' in step) list.push(step.b)
  if ('c' in step) list.push(step.c)
  return list
}
