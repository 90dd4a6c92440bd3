/**
 * Colours for classes, told apart under the common kinds of colour blindness: M. Okabe and
 * K. Ito 2008, "Color universal design", whose table gives these values in 8-bit RGB.
 */
export const OKABE_ITO = [
  { name: 'black', colour: '#000000' },
  { name: 'orange', colour: '#E69F00' },
  { name: 'sky blue', colour: '#56B4E9' },
  { name: 'bluish green', colour: '#009E73' },
  { name: 'yellow', colour: '#F0E442' },
  { name: 'blue', colour: '#0072B2' },
  { name: 'vermilion', colour: '#D55E00' },
  { name: 'reddish purple', colour: '#CC79A7' },
] as const

/** For stations without a class: a warm grey that is none of the palette's. */
export const UNCLASSIFIED_COLOUR = '#8A8780'

/**
 * The palette's colour for a new class: the first that no class has yet, else in turn.
 * Black comes last, for it is the colour of ink on the map.
 *
 * @param used colours that classes already have, `#rrggbb`
 */
export function nextColour(used: readonly string[]): string {
  const taken = new Set(used.map((colour) => colour.toUpperCase()))
  const [black, ...others] = OKABE_ITO.map(({ colour }) => colour)
  const order = [...others, black]
  return order.find((colour) => !taken.has(colour)) ?? order[used.length % order.length]
}
