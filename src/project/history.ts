/**
 * What undo and redo take back: the inverse commands, newest last.
 *
 * Commands are plain data that hold no spectra, so the history is kept with the project and a reload
 * loses none of it. Lists in it share their entries with the project; kept in one record, an entry is
 * written once and what each command adds is the list's slots.
 */
import type { Command } from './commands'

export interface History {
  readonly undo: readonly Command[]
  readonly redo: readonly Command[]
}

export const NO_HISTORY: History = { undo: [], redo: [] }

/** Commands kept for undo; older ones are dropped. */
const UNDO_DEPTH = 200

/** List slots that a kept history may hold, about 1 MB on the disk. */
const KEPT_SLOTS = 200_000

/** After a command whose inverse this is: what had been undone cannot be done again. */
export function withDone(history: History, inverse: Command): History {
  return { undo: [...history.undo.slice(1 - UNDO_DEPTH), inverse], redo: [] }
}

/** After an undo, whose own inverse this is. */
export function withUndone({ undo, redo }: History, inverse: Command): History {
  return { undo: undo.slice(0, -1), redo: [...redo, inverse] }
}

/** After a redo, whose own inverse this is. */
export function withRedone({ undo, redo }: History, inverse: Command): History {
  return { undo: [...undo, inverse], redo: redo.slice(0, -1) }
}

/** The newest part of a history that may be kept: `most` list slots, undo before redo. */
export function boundedHistory({ undo, redo }: History, most = KEPT_SLOTS): History {
  let left = most
  const newest = (commands: readonly Command[]) => {
    let from = commands.length
    while (from > 0 && left >= slotsOf(commands[from - 1])) left -= slotsOf(commands[--from])
    return commands.slice(from)
  }
  return { undo: newest(undo), redo: newest(redo) }
}

/**
 * A history as it was kept. One from before histories were kept is empty; beyond a command that this
 * version does not know nothing can be taken back, so the older ones are left out.
 */
export function keptHistory(history: History | undefined): History {
  if (!history) return NO_HISTORY
  return { undo: knownTail(history.undo), redo: knownTail(history.redo) }
}

function knownTail(commands: readonly Command[]): readonly Command[] {
  return commands.slice(commands.findLastIndex((command) => !Object.hasOwn(KNOWN, command.do)) + 1)
}

/** Complete by its type: a command that is added has to be named here. */
const KNOWN: Readonly<Record<Command['do'], true>> = {
  rename: true,
  'set crs': true,
  'set places': true,
  'set grouping': true,
  'set targets': true,
  'set average': true,
  'set indices': true,
  'set classes': true,
  'set surfaces': true,
  'set recipe': true,
  decide: true,
  'set decisions': true,
  'set references': true,
  'set check': true,
  'set layouts': true,
  'set traverse': true,
  'set sets': true,
  'hide files': true,
  'set hidden': true,
  'set layer order': true,
}

/** Slots of the lists that grow with a day's work; a command without one counts as one. */
function slotsOf(command: Command): number {
  switch (command.do) {
    case 'decide':
      return 1 + command.decisions.length
    case 'set decisions':
      return 1 + command.decisions.list.length
    case 'set sets':
      return 1 + command.sets.reduce((sum, { references }) => sum + references.length, 0)
    case 'hide files':
      return 1 + command.paths.length
    case 'set hidden':
      return 1 + command.hidden.length
    default:
      return 1
  }
}
