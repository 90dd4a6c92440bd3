/** Which stations a surface uses at a place, to show them. */
import { NeighbourChooser, placedBlock, type Choice } from './chosen-neighbours'
import { prepareField, toPlaneU, toPlaneV } from './kriging-field'
import type { Points, Variogram } from './model'
import { NeighbourIndex } from './neighbours'

/** What a surface was computed with, as far as it decides on stations. */
export interface UsedSetting {
  /** Stations, those on one spot made one. */
  readonly points: Points
  /** Null where distance is plain. */
  readonly variogram: Variogram | null
  /** Nearest stations that a node uses; null for all. */
  readonly neighbours: number | null
  readonly choice: Choice | null
}

/** No weight, no model: distances in the plane as it is. */
const PLAIN: Variogram = { nugget: 1, structures: [] }

/** Finds stations for one place after another. */
export class UsedStations {
  readonly #setting: UsedSetting
  readonly #field: ReturnType<typeof prepareField>
  #index: NeighbourIndex | null = null
  #chooser: NeighbourChooser | null = null

  constructor(setting: UsedSetting) {
    this.#setting = setting
    this.#field = prepareField(setting.points, setting.variogram ?? PLAIN)
  }

  /** Numbers of the stations that a node at a place uses; null where it uses all of them. */
  at(x: number, y: number): readonly number[] | null {
    const { neighbours, choice } = this.#setting
    if (choice) return this.#chosen(choice, x, y)
    if (neighbours === null) return null
    const field = this.#field
    this.#index ??= new NeighbourIndex(field.u, field.v)
    const found = new Int32Array(neighbours)
    const count = this.#index.nearest(
      toPlaneU(field, x, y),
      toPlaneV(field, x, y),
      neighbours,
      found,
      new Float64Array(neighbours),
    )
    return [...found.subarray(0, count)]
  }

  #chosen(choice: Choice, x: number, y: number): number[] {
    const { u, v, points } = this.#field
    this.#chooser ??= new NeighbourChooser({ x: points.x, y: points.y, u, v }, choice)
    const block = placedBlock(1)
    block.x[0] = x
    block.y[0] = y
    block.u[0] = toPlaneU(this.#field, x, y)
    block.v[0] = toPlaneV(this.#field, x, y)
    block.count = 1
    const found: number[] = []
    this.#chooser.visit(block, { least: 1, reach: Infinity }, (sets) => {
      if (sets.setCount === 0) return
      const members = new Int32Array(this.#chooser?.most ?? 0)
      const count = sets.membersOf(0, members)
      for (let i = 0; i < count; i++) found.push(sets.candidates[members[i]])
    })
    return found
  }
}
