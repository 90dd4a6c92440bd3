/** How the screen looks: at a desk, in the sun with gloves, on a projector. */
export const LOOKS = ['desk', 'daylight', 'projector'] as const
export type Look = (typeof LOOKS)[number]
