/** Everything that a worker can be asked to do, by name. */
import { loadEpsgTable, needsEpsgTable } from '../places/crs'
import type { Reference } from '../minerals/reference'
import type { Boundaries } from '../surfaces/boundaries'
import { drawStretch, type Drawn, type Stretch } from '../surfaces/chance'
import {
  compareMethod,
  type Compared,
  type ComparedName,
  type Comparing,
} from '../surfaces/compare'
import { planSurface, type SurfacePlan } from '../surfaces/compute'
import { warpToMercator, type WarpedSurface } from '../surfaces/mercator'
import type { Grid, Points, SurfaceBands, SurfaceRule } from '../surfaces/model'
import type { Part, TilesDone } from '../surfaces/tiles'
import { transformedPoints } from '../surfaces/transforms'
import type { TrendDegree } from '../surfaces/trend'
import { variogramView, type VariogramView } from '../surfaces/variogram-view'
import { chooseRoute, type ChooseInput, type Chosen } from '../traverse/choose-route'
import type { Layout } from '../traverse/layout'
import type { WalkGrid } from '../traverse/walk-grid'
import { openDrift, type DriftInput } from './drift-raster'
import { estimateSteps, type EstimateInput, type StepEstimates } from './estimate-steps'
import { examinePacked, type ExamineInput, type PackedExamination } from './examine'
import { packedBuffers } from './packed-records'
import { mapFrame } from './map-frame'
import { finishSurface, type Finished } from './finish-surface'
import { linesOnMap, type LinesInput, type LinesOnMap } from './lines-on-map'
import { read, type Platform, type ReadInput, type ReadOutput } from './read'
import { fitScans, type FitInput } from './fit'
import { measureStandards, type StandardsInput, type StandardsOutput } from './standards'
import { timedTiles } from './timed-tiles'
import { surfacePicture, type PictureInput, type SurfacePicture } from './surface-picture'
import {
  layOutWalk,
  walkFrom,
  walkLeg,
  type TraverseInput,
  type WalkedLeg,
  type WalkFromInput,
  type WalkLegInput,
} from './traverse'
import { prepareReferences, type PreparedReferences, type References } from './references'

/** A task's result and the buffers in it that are handed over rather than copied. */
export interface Transferred<T> {
  readonly output: T
  readonly transfer: readonly ArrayBuffer[]
}

type Provided = ReadonlyMap<string, unknown>

/** What was provided under a key. @throws Error where nothing was */
function providedAs<T>(provided: Provided, key: string): T {
  const found = provided.get(key) as T | undefined
  if (found === undefined) throw new Error(`There is no ‘${key}’ in this worker.`)
  return found
}

interface Task<I, O> {
  (input: I, provided: Provided): Transferred<O> | Promise<Transferred<O>>
}

export interface PlanInput {
  readonly rule: SurfaceRule
  readonly points: Points
  readonly grid: Grid | null
  readonly boundaries?: Boundaries | null
  /** The raster that the mean follows; null or absent for none. */
  readonly drift?: DriftInput | null
  /** Side of the blocks that are left out in testing; null or absent for the suggested one. */
  readonly blockSide?: number | null
}

export interface CompareInput {
  readonly name: ComparedName
  readonly points: Points
  readonly comparing: Comparing
}

export interface ViewInput {
  readonly points: Points
  readonly trend: TrendDegree
  /** The values' pairs are those of so transformed ones; absent for as they are. */
  readonly transform?: SurfaceRule['transform']
  /** Whether crowded stations count less in normal scores. */
  readonly declustered?: boolean
  /** Pairs that these part are not counted; null or absent for none. */
  readonly barriers?: Float64Array | null
}

export interface FinishInput {
  readonly bands: SurfaceBands
  /** Nodes that differ by less than this are nearly the same. */
  readonly evenBelow: number
  /** Between contours; absent for the usual ones. */
  readonly interval?: number
}

export interface TileInput {
  /** The key under which the plan was provided. */
  readonly plan: string
  readonly part: Part
  /** A coarser grid to compute on; absent for the plan's own. */
  readonly grid?: Grid
}

export interface StretchInput {
  /** The key under which the plan was provided. */
  readonly plan: string
  readonly stretch: Stretch
  /** As the stretch before gave them; null for a batch's first. */
  readonly fields: readonly Float32Array<ArrayBuffer>[] | null
}

export interface WarpInput {
  readonly grid: Grid
  readonly values: Float64Array | Float32Array
  readonly crs: string
  /** Of what is drawn, working units; matters for local grids alone. */
  readonly centre: readonly [x: number, y: number]
  readonly maxSize: number
  /** Whether values are numbers that stand for names, which no mean can be taken of. */
  readonly nearest?: boolean
}

/** Under this key the pool provides the references. */
export const REFERENCES = 'references'
/** Under this key a worker itself provides what its platform can do. */
export const PLATFORM = 'platform'

const prepared = new WeakMap<References, PreparedReferences>()

/** The provided references, prepared once a worker. */
function preparedSet(provided: Provided): PreparedReferences | null {
  const references = provided.get(REFERENCES) as References | undefined
  if (!references) return null
  let ready = prepared.get(references)
  if (!ready) {
    ready = prepareReferences(references)
    prepared.set(references, ready)
  }
  return ready
}

/** Prepares what was provided before a task asks for it. */
export function prepareAhead(provided: Provided): void {
  preparedSet(provided)
}

const readTask: Task<ReadInput, ReadOutput> = async (input, provided) => {
  const output = await read(input, provided.get(PLATFORM) as Platform | undefined)
  const ground = output.ground.map(({ bytes }) => bytes)
  return { output, transfer: buffers(output.values, ...output.axes, ...ground) }
}

const examineTask: Task<ExamineInput, PackedExamination> = (input, provided) => {
  const output = examinePacked(input, preparedSet(provided))
  const { measures, identifications, leaves, values } = output
  const columns = buffers(leaves.values, leaves.errors, leaves.states, values)
  const transfer = [...packedBuffers(measures), ...packedBuffers(identifications), ...columns]
  return { output, transfer }
}

const estimateTask: Task<EstimateInput, StepEstimates[]> = (input) => ({
  output: estimateSteps(input),
  transfer: [],
})

const fitTask: Task<FitInput, Reference[]> = (input) => ({ output: fitScans(input), transfer: [] })

const standardsTask: Task<StandardsInput, StandardsOutput> = (input) => ({
  output: measureStandards(input),
  transfer: [],
})

const planTask: Task<PlanInput, SurfacePlan> = async (input) => {
  const { rule, points, grid, boundaries, blockSide } = input
  const drift = input.drift ? await openDrift(input.drift) : null
  const options = { ...(grid ? { grid } : {}), boundaries, drift, blockSide }
  const output = planSurface(rule, points, options)
  return { output, transfer: buffers(output.drift?.nodes) }
}

const compareTask: Task<CompareInput, Compared> = ({ name, points, comparing }) => ({
  output: compareMethod(name, points, comparing),
  transfer: [],
})

const viewTask: Task<ViewInput, VariogramView> = (input) => {
  const { points, trend, transform, declustered, barriers } = input
  const values = transform
    ? transformedPoints(transform, points, 'The surface', declustered).points
    : points
  return { output: variogramView(values, trend, barriers), transfer: [] }
}

const tileTask: Task<TileInput, TilesDone> = ({ plan, part, grid }, provided) => {
  const found = providedAs<SurfacePlan>(provided, plan)
  const output = timedTiles(found, part, grid, () => performance.now())
  const bands = output.tiles.flatMap(({ estimate, variance }) => [estimate, variance])
  return { output, transfer: buffers(...bands) }
}

const stretchTask: Task<StretchInput, Drawn> = ({ plan, stretch, fields }, provided) => {
  const output = drawStretch(providedAs<SurfacePlan>(provided, plan), stretch, fields)
  return { output, transfer: buffers(...output.fields) }
}

const finishTask: Task<FinishInput, Finished> = ({ bands, evenBelow, interval }) => {
  const output = finishSurface(bands, evenBelow, interval)
  const { contours, spread } = output
  const lines = contours.flatMap(({ x, y }) => [x, y])
  return { output, transfer: buffers(...lines, spread.estimate, spread.error) }
}

const pictureTask: Task<PictureInput, SurfacePicture> = async (input) => {
  if (needsEpsgTable(input.crs)) await loadEpsgTable()
  const output = surfacePicture(input)
  return { output, transfer: [output.pixels.buffer] }
}

const linesTask: Task<LinesInput, LinesOnMap> = async (input) => {
  if (needsEpsgTable(input.crs)) await loadEpsgTable()
  const output = linesOnMap(input)
  return { output, transfer: buffers(output.degrees, output.levels) }
}

const warpTask: Task<WarpInput, WarpedSurface> = async (input) => {
  const { grid, values, crs, centre, maxSize, nearest } = input
  if (needsEpsgTable(crs)) await loadEpsgTable()
  const { toDegrees, fromDegrees } = mapFrame(crs, centre)
  const nowhere = [NaN, NaN] as const
  const output = warpToMercator(
    grid,
    values,
    (x, y) => toDegrees(x, y) ?? nowhere,
    (longitude, latitude) => fromDegrees(longitude, latitude) ?? nowhere,
    maxSize,
    nearest,
  )
  return { output, transfer: buffers(output.values) }
}

const layOutTask: Task<TraverseInput, Layout> = async (input) => ({
  output: await layOutWalk(input),
  transfer: [],
})

const walkFromTask: Task<WalkFromInput, Float64Array> = (input, provided) => ({
  output: walkFrom(providedAs<WalkGrid>(provided, input.ground), input),
  transfer: [],
})

const walkLegTask: Task<WalkLegInput, WalkedLeg> = (input, provided) => ({
  output: walkLeg(providedAs<WalkGrid>(provided, input.ground), input),
  transfer: [],
})

const chooseTask: Task<ChooseInput, Chosen | null> = (input) => ({
  output: chooseRoute(input),
  transfer: [],
})

/** The tasks by name; a worker runs them one at a time. */
export const tasks = {
  read: readTask,
  examine: examineTask,
  'estimate steps': estimateTask,
  'fit references': fitTask,
  'measure standards': standardsTask,
  'plan surface': planTask,
  'compare method': compareTask,
  'surface tile': tileTask,
  'view variogram': viewTask,
  'draw stretch': stretchTask,
  'finish surface': finishTask,
  'surface picture': pictureTask,
  'lines on map': linesTask,
  warp: warpTask,
  'lay out walk': layOutTask,
  'walk from': walkFromTask,
  'walk leg': walkLegTask,
  'choose walk': chooseTask,
}

type Tasks = typeof tasks
export type TaskName = keyof Tasks
export type TaskInput<K extends TaskName> = Parameters<Tasks[K]>[0]
export type TaskOutput<K extends TaskName> =
  Awaited<ReturnType<Tasks[K]>> extends Transferred<infer O> ? O : never

function buffers(
  ...arrays: readonly (Float32Array | Float64Array | Uint8Array | null | undefined)[]
): ArrayBuffer[] {
  const list = new Set<ArrayBuffer>()
  for (const array of arrays) {
    // A view on part of a buffer is copied: handing the buffer over would take the rest with it.
    if (
      array &&
      array.buffer instanceof ArrayBuffer &&
      array.byteLength === array.buffer.byteLength
    )
      list.add(array.buffer)
  }
  return [...list]
}
