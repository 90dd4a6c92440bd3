/** References made ready for comparing: each on the working grid, with what is said about it. */
import type { Spectrum } from '../spectra/spectrum'
import { factsOf, mineralOfRecord, sampleOfRecord } from './catalogue'
import { energyOf, productsOf, sumOf, type Energy } from './likeness'
import { modelReflectance } from './model'
import type { Reference, ReferenceSet } from './reference'
import { coarseShapeOf, compress, NODE_WEIGHTS, shapeOf } from './shape'
import { bridge, EVERYWHERE, GRID, toGrid } from './work-grid'

/** A shape at one scale, as it is matched. */
export interface PreparedShape {
  /** Weighted shape; 0 where the reference is not known. */
  readonly linear: Float64Array
  /** Weighted compressed shape; 0 where the reference is not known. */
  readonly compressed: Float64Array
  /** The weighted compressed coarse shape; 0 where the reference is not known. */
  readonly coarse: Float64Array
  /** The linear shape's product with itself. */
  readonly linearEnergy: number
  /** Of the compressed shapes. */
  readonly compressedEnergy: Energy
  readonly coarseEnergy: Energy
}

/** What is said about a reference. */
interface About {
  readonly mineral: string
  readonly variety: string | null
  readonly group: string
  readonly record: string
  readonly silent: boolean
  readonly fibrous: boolean
  readonly diagnostic: Reference['diagnostic']
  readonly confusedWith: readonly string[]
}

/** One reference, ready. */
export interface PreparedReference extends About {
  /** Records of one sample share this name. */
  readonly sample: string
  /** ln reflectance on the grid. */
  readonly log: Float64Array
  /** 1 where the reference has values. */
  readonly known: Uint8Array
  /** Whether it has a diagnostic absorption beyond 2060 nm. */
  readonly telling: boolean
  /** Its shape at a scale, worked out when first asked for. */
  readonly shapeAt: (scale: number) => PreparedShape
}

/** References ready to identify against. */
export interface PreparedSet {
  readonly references: readonly PreparedReference[]
}

/** A measured spectrum with its record's name. */
export interface NamedSpectrum extends Spectrum {
  readonly name: string
}

/** The part of each diagnostic range that a reference must cover to be of use. */
const COVERED = 0.7

/** Step at which band tables are drawn before they are averaged onto the grid, nm. */
const DRAWN_STEP = 2

/** A set of band tables made ready. A reference that does not cover its ranges is left out. */
export function prepareSet(set: ReferenceSet): PreparedSet {
  // References of one range share an axis, for which the averaging onto the grid is kept.
  const axes = new Map<string, Float64Array>()
  const references = set.references.map((reference) => {
    const [from, to] = reference.range
    const length = Math.floor((to - from) / DRAWN_STEP) + 1
    const wavelengths =
      axes.get(`${from} ${to}`) ?? Float64Array.from({ length }, (_, i) => from + DRAWN_STEP * i)
    axes.set(`${from} ${to}`, wavelengths)
    const spectrum = { wavelengths, reflectance: modelReflectance(reference, wavelengths) }
    return prepare(spectrum, { ...reference, silent: reference.silent ?? false })
  })
  return { references: references.filter((reference) => reference !== null) }
}

/**
 * Measured spectra made ready as references; their names say which mineral each is
 * (`Alunite_HS295.1B…` is alunite). A name the catalogue does not know is a group of its own.
 * A record that does not cover its mineral's diagnostic ranges is left out.
 */
export function referencesFromScans(scans: Iterable<NamedSpectrum>): PreparedSet {
  const references: PreparedReference[] = []
  for (const scan of scans) {
    const entry = mineralOfRecord(scan.name)
    const facts = factsOf(entry)
    const reference = prepare(scan, {
      mineral: entry.mineral,
      variety: null,
      group: entry.group,
      record: scan.name,
      silent: facts.silent,
      fibrous: entry.fibrous,
      diagnostic: facts.diagnostic,
      confusedWith: facts.confusedWith,
    })
    if (reference) references.push(reference)
  }
  return { references }
}

/** Several sets as one, less the records that are switched off. */
export function joinSets(
  sets: readonly PreparedSet[],
  off: ReadonlySet<string> = new Set(),
): PreparedSet {
  return {
    references: sets
      .flatMap((set) => set.references)
      .filter((reference) => !off.has(reference.record)),
  }
}

function prepare(spectrum: Spectrum, about: About): PreparedReference | null {
  const onGrid = toGrid(spectrum)
  if (!onGrid || !covers(onGrid.known, about.diagnostic, COVERED)) return null
  return {
    mineral: about.mineral,
    variety: about.variety,
    group: about.group,
    record: about.record,
    silent: about.silent,
    fibrous: about.fibrous,
    diagnostic: about.diagnostic,
    confusedWith: about.confusedWith,
    sample: sampleOfRecord(about.record),
    telling: about.diagnostic.some(([from]) => from >= 2060),
    log: onGrid.log,
    known: onGrid.known,
    shapeAt: keptByScale(onGrid.log, onGrid.known),
  }
}

/** The part of one of its diagnostic ranges that a scan must cover for a mineral to be named. */
const SEEN = 0.5

/** What is kept of sets, and of references in any set, as scans with gaps see them. */
const seenSets = new WeakMap<PreparedSet, WeakMap<Uint8Array, PreparedSet>>()
const seenReferences = new WeakMap<PreparedReference, WeakMap<Uint8Array, PreparedReference>>()

/** What is kept for a mask of a set or reference, made when first asked for. */
function keptFor<T extends object>(
  all: WeakMap<T, WeakMap<Uint8Array, T>>,
  owner: T,
  mask: Uint8Array,
  make: (owner: T, mask: Uint8Array) => T,
): T {
  const byMask = all.get(owner) ?? new WeakMap<Uint8Array, T>()
  all.set(owner, byMask)
  const found = byMask.get(mask) ?? make(owner, mask)
  byMask.set(mask, found)
  return found
}

/**
 * A set as a scan with gaps would have measured it: each reference bridged where the scan is, so
 * that gap and bridge make the same shape in both. A mineral none of whose diagnostic ranges the
 * scan covers is left out: it could be named by its impurities alone.
 *
 * @param known 1 at the nodes that the scan has; one array for all scans alike (`toGrid`)
 */
export function setAsSeen(set: PreparedSet, known: Uint8Array): PreparedSet {
  return known === EVERYWHERE ? set : keptFor(seenSets, set, known, coveredBy)
}

function coveredBy({ references }: PreparedSet, known: Uint8Array): PreparedSet {
  const covered = references.filter(
    ({ diagnostic }) =>
      diagnostic.length === 0 || diagnostic.some((range) => covers(known, [range], SEEN)),
  )
  return {
    references: covered.map((one) => keptFor(seenReferences, one, known, referenceAsSeen)),
  }
}

function referenceAsSeen(reference: PreparedReference, mask: Uint8Array): PreparedReference {
  const log = reference.log.slice()
  bridge(log, mask)
  const known = reference.known.map((value, node) => value & mask[node])
  return { ...reference, log, known, shapeAt: keptByScale(log, known) }
}

/** A reference's shapes, each scale worked out once and what they share kept. */
function keptByScale(log: Float64Array, known: Uint8Array): (scale: number) => PreparedShape {
  const kept: PreparedShape[] = []
  return (scale) => (kept[scale] ??= weightedShape(log, known, scale, kept.find(Boolean)))
}

/** Whether a known mask covers `part` of each range; ranges beyond the grid do not count. */
function covers(known: Uint8Array, ranges: Reference['diagnostic'], part: number): boolean {
  return ranges.every(([from, to]) => {
    let nodes = 0
    let covered = 0
    GRID.forEach((nm, node) => {
      if (nm < from || nm > to) return
      nodes++
      covered += known[node]
    })
    return covered >= part * nodes
  })
}

/** A reference's shapes ready for matching; `other` is the same at another scale, if there. */
function weightedShape(
  log: Float64Array,
  known: Uint8Array,
  scale: number,
  other?: PreparedShape,
): PreparedShape {
  const linear = weighted(shapeOf(log, scale), known)
  if (other) return { ...other, ...fineShape(linear) }
  return shapeFrom(linear, weighted(coarseShapeOf(log), known))
}

/** Weighted shapes of ln reflectance, 0 where not known, before they are compressed. */
export function linearShapes(
  log: Float64Array,
  known: Uint8Array,
  scale: number,
): { linear: Float64Array; coarseLinear: Float64Array } {
  return {
    linear: weighted(shapeOf(log, scale), known),
    coarseLinear: weighted(coarseShapeOf(log), known),
  }
}

/** Weighted shapes made ready for matching. */
export function shapeFrom(linear: Float64Array, coarseLinear: Float64Array): PreparedShape {
  const coarse = compressedShape(coarseLinear)
  return { ...fineShape(linear), coarse, coarseEnergy: energyOf(productsOf(coarse, coarse, null)) }
}

function fineShape(linear: Float64Array): Omit<PreparedShape, 'coarse' | 'coarseEnergy'> {
  const compressed = compressedShape(linear)
  return {
    linear,
    compressed,
    linearEnergy: sumOf(productsOf(linear, linear, null)),
    compressedEnergy: energyOf(productsOf(compressed, compressed, null)),
  }
}

function weighted(shape: Float64Array, known: Uint8Array): Float64Array {
  return shape.map((value, node) => value * NODE_WEIGHTS[node] * known[node])
}

/**
 * The compressed twin of a weighted shape.
 *
 * @param out an array as long to write it to; a new one where absent
 */
export function compressedShape(
  linear: Float64Array,
  out: Float64Array = new Float64Array(linear.length),
): Float64Array {
  for (let node = 0; node < out.length; node++) {
    const weight = NODE_WEIGHTS[node]
    out[node] = compress(linear[node] / weight) * weight
  }
  return out
}
