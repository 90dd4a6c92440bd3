/** Text in the encodings that files come in. */

export const ENCODINGS = {
  'UTF-8': (text: string) => new TextEncoder().encode(text),
  'UTF-8 with a mark': (text: string) => new TextEncoder().encode(`\uFEFF${text}`),
  'UTF-16LE with a mark': (text: string) => utf16(`\uFEFF${text}`, true),
  'UTF-16BE with a mark': (text: string) => utf16(`\uFEFF${text}`, false),
  'UTF-16LE': (text: string) => utf16(text, true),
  'UTF-16BE': (text: string) => utf16(text, false),
  /** Characters of ISO 8859-1, which Windows-1252 shares. */
  'Windows-1252': (text: string) => Uint8Array.from(text, (character) => character.charCodeAt(0)),
} as const

function utf16(text: string, littleEndian: boolean): Uint8Array {
  const view = new DataView(new ArrayBuffer(2 * text.length))
  for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), littleEndian)
  return new Uint8Array(view.buffer)
}
