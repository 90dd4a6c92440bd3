/** Work that depends on wavelengths alone, done once for all scans that share them. */

/**
 * The function, with what it gave remembered for each axis and key as long as the axis is in use.
 *
 * Axes are told apart by identity, so they must never be written to; the store and the workers
 * share one array among all scans on an axis.
 *
 * @param work must depend on nothing else; its keys must be few, for none is forgotten
 */
export function onceAnAxis<K extends string | number, T>(
  work: (wavelengths: Float64Array, key: K) => T,
): (wavelengths: Float64Array, key: K) => T {
  const known = new WeakMap<Float64Array, Map<K, T>>()
  return (wavelengths, key) => {
    let ofAxis = known.get(wavelengths)
    if (ofAxis === undefined) known.set(wavelengths, (ofAxis = new Map<K, T>()))
    let result = ofAxis.get(key)
    if (result === undefined) ofAxis.set(key, (result = work(wavelengths, key)))
    return result
  }
}
