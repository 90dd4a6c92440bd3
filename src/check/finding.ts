/** A finding of the check: a reason, and what it makes of the scan. */
import type { Check, Reason } from './verdict'

/** A reason, and what it makes of the scan: `sound` is a remark that counts against nothing. */
export interface Finding {
  readonly reason: Reason
  readonly makes: Check
}

/** A finding that makes a scan doubtful. */
export function doubtful(reason: Reason): Finding {
  return { reason, makes: 'doubtful' }
}

/** A finding that sets a scan aside: nothing can be believed of it. */
export function setAside(reason: Reason): Finding {
  return { reason, makes: 'set aside' }
}

/** A finding that is told and counts against nothing. */
export function remark(reason: Reason): Finding {
  return { reason, makes: 'sound' }
}

/** A fraction in per cent, to a tenth, or to two digits where that would read 0.0; with a true minus sign. */
export function percent(fraction: number): string {
  const value = 100 * fraction
  const text = Math.abs(value) < 0.1 && value !== 0 ? value.toPrecision(2) : value.toFixed(1)
  return `${text.replace('-', '−')} %`
}
