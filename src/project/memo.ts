/** Remembers what was made from the same ingredients, so that a change redoes only what it must. */

/** Keeps the last thing made. Ingredients are compared by identity. */
export class Memo<T> {
  #ingredients: readonly unknown[] | null = null
  #made: T | undefined

  /** What was made from these ingredients last time, else what `make` makes of them. */
  get(ingredients: readonly unknown[], make: () => T): T {
    const known = this.#ingredients
    if (
      known === null ||
      known.length !== ingredients.length ||
      ingredients.some((ingredient, i) => !Object.is(ingredient, known[i]))
    ) {
      this.#made = make()
      this.#ingredients = ingredients
    }
    return this.#made as T
  }
}
