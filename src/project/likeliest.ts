/** The likeliest of several classes or groups at every node, from a chance of each. */
import { UNCLASSIFIED } from '../classes/rule'
import type { SurfacePlan } from '../surfaces/compute'
import {
  consistentChances,
  likeliestOf,
  likeliestSentence,
  NONE_OF_THESE,
  testLikeliest,
  type Likeliest,
  type LikeliestTesting,
} from '../surfaces/likeliest'
import type { Points, SurfaceBands, SurfaceRule } from '../surfaces/model'
import { classShares, groupPresence } from './class-shares'
import { holdsGroup, stationsWhere, type SurfaceInput } from './surface-points'

/** A class's place in a surface of the likeliest class. */
export interface LikeliestClass {
  /** Its number in band 1: 0 for "none of these", then the classes in the recipe's order. */
  readonly code: number
  readonly name: string
  /** Stations that are rather of it than of any other. */
  readonly stations: number
  /** Nodes at which it is the likeliest. */
  readonly nodes: number
}

/** What a surface of the likeliest class has besides its codes. */
export interface LikeliestResult extends Omit<Likeliest, 'code'> {
  /** Part of the nodes that a limit on doubt left blank; null without one. */
  readonly blank: number | null
  readonly classes: readonly LikeliestClass[]
  /** Each station left out, and whole blocks of them; null where it could not be tested. */
  readonly single: LikeliestTesting | null
  readonly blocked: LikeliestTesting | null
}

/** The outcomes of a rule and how surely each station is of them. */
export interface OutcomePoints {
  /** By code, "none of these" first. */
  readonly names: readonly string[]
  /** An array an outcome; each station's sum to 1. */
  readonly indicators: readonly Float64Array[]
  readonly points: Points
  readonly farOff: number
  readonly lengthUnit: string
  /** Composites left out because too little of their length is known. */
  readonly partial: number
}

/**
 * A rule's stations and their indicators.
 *
 * @returns null with a sentence where a class or group is unknown
 */
export function outcomePoints(
  rule: SurfaceRule,
  input: SurfaceInput,
): OutcomePoints | { readonly failure: string } {
  const asked = rule.groups ?? (rule.classes === 'all' ? input.classNames : (rule.classes ?? []))
  const sharesOf = rule.groups ? groupShares(rule.groups, input) : namedShares(asked, input)
  if ('failure' in sharesOf) return sharesOf
  const { at } = sharesOf
  const names = [NONE_OF_THESE, ...asked]
  const found = names.map((_, code) =>
    stationsWhere(rule, input, (station) => {
      const shares = at(station)
      return shares && { value: shares[code], error: null }
    }),
  )
  const { points, farOff, partial, lengthUnit } = found[0]
  return {
    names,
    indicators: found.map((each) => each.points.value),
    points,
    farOff,
    partial,
    lengthUnit,
  }
}

/** "None of these" and each name's part at a station, which sum to 1. */
interface Shares {
  at(station: number): readonly number[] | null
}

function namedShares(
  names: readonly string[],
  input: SurfaceInput,
): Shares | { readonly failure: string } {
  if (names.length === 0) return { failure: 'There is no class that works; define one first.' }
  const unknown = names.find((name) => !input.classNames.includes(name))
  if (unknown !== undefined) {
    return { failure: `There is no working class ‘${unknown}’; see whether its name is right.` }
  }
  const shares = classShares(input)
  return {
    at: (station) => {
      const found = shares(station)
      return found && withNone(names.map((name) => found.get(name) ?? 0))
    },
  }
}

function groupShares(
  groups: readonly string[],
  input: SurfaceInput,
): Shares | { readonly failure: string } {
  const absent = groups.find((group) => !holdsGroup(input, group))
  if (absent !== undefined) {
    return { failure: `No station holds the group ‘${absent}’; see whether its name is right.` }
  }
  const presences = groups.map((group) => groupPresence(input, group))
  return {
    at: (station) => {
      const found = presences.flatMap((presence) => presence(station) ?? [])
      return found.length === groups.length ? withNone(found) : null
    },
  }
}

/** Groups can stand side by side: where they sum to more than 1 they are scaled to it. */
function withNone(parts: readonly number[]): readonly number[] {
  const sum = parts.reduce((a, b) => a + b, 0)
  return sum > 1 ? [0, ...parts.map((part) => part / sum)] : [1 - sum, ...parts]
}

/** The rule by which one outcome's chance is kriged. */
export function outcomeRule(rule: SurfaceRule, name: string): SurfaceRule {
  const common = { ...rule, classes: undefined, groups: undefined, mask: undefined }
  return { ...common, class: name, method: 'class-probability' }
}

/** An outcome that was kriged; its plan's points are the stations, those on one spot made one. */
export interface KrigedOutcome {
  readonly plan: SurfacePlan
  readonly bands: SurfaceBands
}

/**
 * Joins kriged outcomes.
 *
 * @param names of all outcomes, by code
 * @param kriged one a code; null where no station is of it, so that it is likely nowhere
 * @param doubtAtMost nodes with a larger doubt are blank; absent for no limit
 */
export function joinOutcomes(
  names: readonly string[],
  kriged: readonly (KrigedOutcome | null)[],
  doubtAtMost?: number,
): { bands: SurfaceBands; result: LikeliestResult } {
  const there = names.map((_, code) => code).filter((code) => kriged[code] !== null)
  const outcomes = there.flatMap((code) => kriged[code] ?? [])
  // "None of these" always has a place, and is at 0 where every station is of a class.
  const codes = there[0] === 0 ? there : [0, ...there]
  const joint = (arrays: readonly Float64Array[]) =>
    consistentChances(there[0] === 0 ? [arrays[0], ...arrays.slice(1)] : [null, ...arrays])
  const { likeliest, blank } = within(
    likeliestOf(joint(outcomes.map(({ bands }) => bands.estimate))),
    doubtAtMost ?? null,
  )
  const { code, probability, second, doubt } = likeliest
  const decoded = (places: Float64Array) => places.map((place) => codes[place] ?? NaN)
  const observedArrays = outcomes.map(({ plan }) => plan.points.value)
  const observed = there[0] === 0 ? observedArrays : [zeros(observedArrays), ...observedArrays]
  const tested = (residuals: readonly (Float64Array | null)[]) => {
    const predicted = residuals.flatMap((residual, k) =>
      residual ? [residual.map((rest, i) => observedArrays[k][i] - rest)] : [],
    )
    return predicted.length === outcomes.length
      ? testLikeliest(observed, joint(predicted), doubtAtMost)
      : null
  }
  const truth = likeliestOf(observed).code
  const estimate = decoded(code)
  return {
    bands: { grid: outcomes[0].bands.grid, estimate, variance: null },
    result: {
      classes: names.map((name, at) => ({
        code: at,
        name,
        stations: count(truth, codes.indexOf(at)),
        nodes: count(estimate, at),
      })),
      blank,
      probability,
      second: decoded(second),
      doubt,
      single: recoded(tested(outcomes.map(({ plan }) => plan.residual)), codes),
      blocked: recoded(tested(outcomes.map(({ plan }) => plan.blockedResidual)), codes),
    },
  }
}

/** Blanks nodes whose doubt is above a limit, and tells their part of all that are known. */
function within(
  likeliest: Likeliest,
  most: number | null,
): { likeliest: Likeliest; blank: number | null } {
  if (most === null) return { likeliest, blank: null }
  const { doubt } = likeliest
  const known = doubt.reduce((sum, each) => sum + (Number.isNaN(each) ? 0 : 1), 0)
  const above = doubt.reduce((sum, each) => sum + (each > most ? 1 : 0), 0)
  const kept = (values: Float64Array) => values.map((value, i) => (doubt[i] <= most ? value : NaN))
  const { code, probability, second } = likeliest
  return {
    likeliest: {
      code: kept(code),
      probability: kept(probability),
      second: kept(second),
      doubt: kept(doubt),
    },
    blank: known > 0 ? above / known : 0,
  }
}

function zeros([first]: readonly Float64Array[]): Float64Array {
  return new Float64Array(first.length)
}

function count(values: Float64Array, wanted: number): number {
  return values.reduce((sum, value) => sum + (value === wanted ? 1 : 0), 0)
}

function recoded(
  tested: LikeliestTesting | null,
  codes: readonly number[],
): LikeliestTesting | null {
  return tested && { ...tested, commonestOutcome: codes[tested.commonestOutcome] }
}

/** Outcomes that no station is of, and what the testing says, in words. */
export function likeliestWords(
  result: LikeliestResult,
  { groups, doubt_at_most: doubtAtMost }: Pick<SurfaceRule, 'groups' | 'doubt_at_most'>,
): string {
  const { classes, single, blocked, blank } = result
  const left =
    blank === null || doubtAtMost === undefined
      ? ''
      : ` Its doubt is above ${doubtAtMost} over ${Math.round(100 * blank)} % of the ground in reach, which is left blank.`
  const absent = classes.slice(1).filter(({ stations, nodes }) => stations === 0 && nodes === 0)
  const missing =
    absent.length === 0
      ? ''
      : ` No station is of ${absent.map(({ name }) => `‘${name}’`).join(', ')}.`
  const tested = blocked ?? single
  if (!single || !tested) return `Too few stations to test it.${left}${missing}`
  const commonest = classes[tested.commonestOutcome]
  const name = commonest.code === 0 ? UNCLASSIFIED : commonest.name
  return likeliestSentence(single, blocked, name, groups ? 'group' : 'class') + left + missing
}
