/** Remembers what was made from the same ingredients, so that a change redoes only what it must. */

import type { Piecework } from '../spectra/piecework'
import { paced } from './pace'

/** Keeps the last thing made. Ingredients are compared by identity. */
export class Memo<T> {
  #ingredients: readonly unknown[] | null = null
  #made: T | undefined

  /** What was made from these ingredients last time, else what `make` makes of them. */
  get(ingredients: readonly unknown[], make: () => T): T {
    return this.#has(ingredients) ? (this.#made as T) : this.#keep(ingredients, make())
  }

  /** The same for what is made in pieces; what is stopped before its end is not remembered. */
  async getPaced(
    ingredients: readonly unknown[],
    make: () => Piecework<T>,
    signal: AbortSignal,
  ): Promise<T> {
    if (this.#has(ingredients)) return this.#made as T
    return this.#keep(ingredients, await paced(make(), signal))
  }

  /** The same for what others make; what fails is not remembered. */
  async getLater(ingredients: readonly unknown[], make: () => Promise<T>): Promise<T> {
    return this.#has(ingredients) ? (this.#made as T) : this.#keep(ingredients, await make())
  }

  /** What was made last, of whatever ingredients; undefined before the first. */
  get last(): T | undefined {
    return this.#made
  }

  #has(ingredients: readonly unknown[]): boolean {
    const known = this.#ingredients
    return (
      known?.length === ingredients.length &&
      ingredients.every((ingredient, i) => Object.is(ingredient, known[i]))
    )
  }

  #keep(ingredients: readonly unknown[], made: T): T {
    this.#made = made
    this.#ingredients = ingredients
    return made
  }
}
