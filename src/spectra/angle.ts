/** The spectral angle (Kruse et al. 1993, Remote Sens. Environ. 44, 145). */

/**
 * The angle between two spectra on the same channels, in radians: the arccosine of their
 * normalised dot product. Channels that are a gap in either are left out.
 *
 * @returns null where no channel is left, or one of the two is nought throughout
 * @throws RangeError where the lengths differ
 */
export function spectralAngle(
  a: Float32Array | Float64Array,
  b: Float32Array | Float64Array,
): number | null {
  if (a.length !== b.length) throw new RangeError(`${a.length} channels against ${b.length}`)
  let ab = 0
  let aa = 0
  let bb = 0
  for (let i = 0; i < a.length; i++) {
    if (Number.isNaN(a[i]) || Number.isNaN(b[i])) continue
    ab += a[i] * b[i]
    aa += a[i] * a[i]
    bb += b[i] * b[i]
  }
  if (!(aa > 0 && bb > 0)) return null
  return Math.acos(Math.min(1, Math.max(-1, ab / Math.sqrt(aa * bb))))
}
