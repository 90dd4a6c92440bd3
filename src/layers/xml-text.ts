/** Text for XML 1.0, in elements and in quoted attributes. */

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
}

/** Escaped text; characters that XML 1.0 does not allow (section 2.2), and control characters, become U+FFFD. */
export function xmlText(text: string): string {
  return text
    .replace(/(?![\t\n\r])\p{Cc}|[\uFFFE\uFFFF]|\p{Cs}/gu, '\uFFFD')
    .replace(/[&<>"]/g, (character) => ESCAPES[character])
}
