/** A spoken doubt. */
import type { Match } from './match'
import type { Part } from './mixture'

/** Scores closer than this cannot be told apart. */
const CLOSE = 0.03

/** What cannot be decided, in plain words; empty where there is nothing. */
export function doubtOf(ranked: readonly Match[], parts: readonly Part[]): string {
  const main = parts[0]?.match
  if (!main) return ''
  const taken = new Set(parts.map((part) => part.match.reference.group))
  const rival = ranked.find(({ reference }) => !taken.has(reference.group))
  if (!rival || main.score - rival.score > CLOSE) return ''
  return `${main.reference.group} or ${rival.reference.group}: they match nearly alike`
}
