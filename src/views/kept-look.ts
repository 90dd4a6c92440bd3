/** The look that was chosen last, kept in the browser: in the sun nobody wants to choose it again. */
import { LOOKS, type Look } from './looks'

const KEY = 'aureole look'

/** The look kept here; null where none is, or where the browser keeps nothing. */
export function keptLook(): Look | null {
  try {
    const kept = localStorage.getItem(KEY)
    return LOOKS.find((look) => look === kept) ?? null
  } catch {
    return null
  }
}

/** Keeps a look. Where the browser keeps nothing, the look holds until the page is left. */
export function keepLook(look: Look): void {
  try {
    localStorage.setItem(KEY, look)
  } catch {
    // A browser that refuses storage still shows the look.
  }
}
