/** Hillshade from an elevation model, in warm greys, for the ground under the stations. */

/** Elevations on a grid, row 0 the northernmost; NaN where there is none. */
export interface Elevations {
  readonly columns: number
  readonly rows: number
  readonly values: Float32Array
  /** Ground metres between columns and rows. */
  readonly cellX: number
  readonly cellY: number
}

/**
 * Illumination of each cell, 0 to 1, by Horn's gradient (Horn 1981, Proc. IEEE 69, 14) and a
 * Lambertian surface lit from the northwest, as is usual in maps; NaN where a neighbour is
 * missing.
 *
 * @param exaggeration multiplies slopes
 */
export function shade(elevations: Elevations, exaggeration = 1.6): Float32Array {
  const { columns, rows, values, cellX, cellY } = elevations
  const out = new Float32Array(columns * rows).fill(NaN)
  const azimuth = (315 * Math.PI) / 180
  const altitude = (45 * Math.PI) / 180
  const light = [
    Math.sin(azimuth) * Math.cos(altitude),
    Math.cos(azimuth) * Math.cos(altitude),
    Math.sin(altitude),
  ]
  for (let row = 0; row < rows; row++) {
    const up = Math.max(row - 1, 0) * columns
    const here = row * columns
    const down = Math.min(row + 1, rows - 1) * columns
    for (let column = 0; column < columns; column++) {
      // Horn's gradient looks past the cell itself.
      if (Number.isNaN(values[here + column])) continue
      const l = Math.max(column - 1, 0)
      const r = Math.min(column + 1, columns - 1)
      const east =
        values[up + r] +
        2 * values[here + r] +
        values[down + r] -
        (values[up + l] + 2 * values[here + l] + values[down + l])
      const north =
        values[up + l] +
        2 * values[up + column] +
        values[up + r] -
        (values[down + l] + 2 * values[down + column] + values[down + r])
      const dx = (exaggeration * east) / (8 * cellX)
      const dy = (exaggeration * north) / (8 * cellY)
      const length = Math.hypot(dx, dy, 1)
      out[here + column] = Math.max(0, (-dx * light[0] - dy * light[1] + light[2]) / length)
    }
  }
  return out
}

/**
 * Shade as RGBA pixels between two paper tones; clear where there is none.
 *
 * @param dark RGB of full shadow
 * @param bright RGB of full light
 */
export function shadePixels(
  shades: Float32Array,
  dark: readonly [number, number, number],
  bright: readonly [number, number, number],
): Uint8ClampedArray<ArrayBuffer> {
  const pixels = new Uint8ClampedArray(4 * shades.length)
  for (let i = 0; i < shades.length; i++) {
    const t = Math.min(1, shades[i])
    if (Number.isNaN(t)) continue
    for (let c = 0; c < 3; c++) pixels[4 * i + c] = dark[c] + t * (bright[c] - dark[c])
    pixels[4 * i + 3] = 255
  }
  return pixels
}
