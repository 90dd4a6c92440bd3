/** How transforms of values are called on the screen. */
import type { SurfaceRule } from '../../surfaces/model'

export const TRANSFORMS: Readonly<Record<NonNullable<SurfaceRule['transform']>, string>> = {
  log: 'logarithms',
  'normal-score': 'normal scores',
  rank: 'ranks',
}
