/** Brings files into the project, and shows the question that they raise. */
import type { InputSource } from '../../project/reading'
import type { Session } from '../session.svelte'

/**
 * Reads files; where they leave a question about a coordinate system and no other step is being
 * worked in, the Places step opens by itself, for nothing is placed before it is answered.
 */
export async function openFiles(
  session: Session,
  sources: Promise<readonly InputSource[]> | readonly InputSource[],
): Promise<void> {
  let read: readonly InputSource[]
  try {
    read = await sources
  } catch (error) {
    session.failure = error instanceof Error ? error.message : String(error)
    return
  }
  if (read.length === 0) {
    session.failure = 'No file was found in what was dropped. Drop the files or the folder itself.'
    return
  }
  session.failure = ''
  // Real stations among invented ones could not be told apart afterwards.
  if (session.project.statement !== null) session.offered = read
  else await session.workspace.addFiles(read)
}

/** Whether a question should open the Places step: nothing else is open that it would disturb. */
export function asksForPlaces(session: Session): boolean {
  const questions = session.placement?.questions.length ?? 0
  return questions > 0 && (session.step === null || session.step === 'scans')
}
