/** Colours as three channels and as `#rrggbb`. */

/** Red, green and blue in sRGB, 0 to 255. */
export type Rgb = readonly [red: number, green: number, blue: number]

/**
 * A colour from `#rrggbb`.
 *
 * @throws where the text is not of that form
 */
export function parseColour(text: string): Rgb {
  if (!/^#[0-9a-f]{6}$/i.test(text)) {
    throw new Error(`"${text}" is not a colour; write # and six hexadecimal digits.`)
  }
  const bits = parseInt(text.slice(1), 16)
  return [bits >> 16, (bits >> 8) & 255, bits & 255]
}

/** A colour as `#rrggbb`, channels rounded and held to 0…255. */
export function colourText(colour: Rgb): string {
  const digits = colour.map((channel) =>
    Math.round(Math.min(255, Math.max(0, channel)))
      .toString(16)
      .padStart(2, '0'),
  )
  return `#${digits.join('')}`
}
