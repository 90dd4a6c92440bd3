/** One array for portions on one axis, each of which brings its own copy. */

/** The axis of the scans before: what was worked out for it serves the next ones on it. */
let lastAxis: Float64Array = new Float64Array(0)

/** The axis as the portion before had it, where the two are alike to the last bit; nm. */
export function sharedAxis(wavelengths: Float64Array): Float64Array {
  const isSame =
    wavelengths.length === lastAxis.length && wavelengths.every((nm, i) => nm === lastAxis[i])
  if (!isSame) lastAxis = wavelengths
  return lastAxis
}
