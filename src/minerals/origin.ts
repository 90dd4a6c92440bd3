/** Where a mineral came from: the geologist's word, never the program's. */

export const ORIGINS = ['unknown', 'hypogene', 'supergene'] as const
export type Origin = (typeof ORIGINS)[number]
