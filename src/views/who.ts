/** Who decides: asked once, kept for the session, written into every decision. */
import type { Decision, DecisionAbout } from '../project/decisions'
import type { ScanHead } from '../project/project'

let who = ''

/** The name that decisions carry. */
export function currentWho(): string {
  return who
}

export function setWho(name: string): void {
  who = name.trim()
}

/** A decision about a scan, made now. */
export function decisionNow(head: ScanHead, about: DecisionAbout, why: string): Decision {
  return {
    file: head.file,
    scan: head.name,
    about,
    who: who || 'unnamed',
    when: new Date().toISOString(),
    why: why.trim(),
  }
}
