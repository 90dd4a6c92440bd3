/** Who decides: asked once, kept for the session, written into every decision. */
import type { Said } from '../minerals/reference'
import type { Decision, DecisionAbout, Decisions } from '../project/decisions'
import type { ScanHead } from '../project/project'

/** Who sits before the screen. Every form shows the same name, and what is typed in one signs all. */
class Signer {
  name = $state('')

  /** The name as decisions carry it. */
  get signed(): string {
    return this.name.trim() || 'unnamed'
  }
}

/** The one signer of this window. */
export const signer = new Signer()

/** A word on a reference, said now. */
export function saidNow(why: string): Said {
  return { who: signer.signed, when: new Date().toISOString(), why: why.trim() }
}

/** A decision about a scan, made now. */
export function decisionNow(
  head: Pick<ScanHead, 'file' | 'name'>,
  about: DecisionAbout,
  why: string,
): Decision {
  return {
    file: head.file,
    scan: head.name,
    about,
    who: signer.signed,
    when: new Date().toISOString(),
    why: why.trim(),
  }
}

/** The decision of a kind that stands for a scan: the last one made. */
export function lastDecision(
  { list }: Decisions,
  { file, name }: ScanHead,
  kind: DecisionAbout['kind'],
): Decision | undefined {
  return list.findLast(
    (decision) => decision.about.kind === kind && decision.scan === name && decision.file === file,
  )
}
