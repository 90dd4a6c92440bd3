/** How long walking takes. */

/** A pace for ground without a path, as a part of the speed on one (Tobler 1993, from memory: 3/5). */
export const OFF_PATH = 0.6

/**
 * Walking speed on a path, m/s (Tobler 1993: 6 exp(−3.5 |S + 0.05|) km/h).
 *
 * @param slope rise over run in the direction of walking; negative downhill
 */
export function toblerSpeed(slope: number): number {
  return (6 * Math.exp(-3.5 * Math.abs(slope + 0.05))) / 3.6
}

/**
 * Walking time by the rule of Naismith 1892, to compare with: 5 km/h and an hour for each 600 m
 * climbed; s.
 *
 * @param distance m
 * @param climb all that is climbed, m
 */
export function naismithSeconds(distance: number, climb: number): number {
  return (distance / 5000 + climb / 600) * 3600
}
