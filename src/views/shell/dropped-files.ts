/** Files dropped on the window or chosen by the user, folders walked. */
import type { InputSource } from '../../project/reading'

/** More files than this in one drop are refused: something else was meant. */
const MAX_FILES = 100_000
/** Folders deeper than this are not walked. */
const MAX_DEPTH = 16

/** Everything in a drop, in order of path; folders are walked. */
export async function sourcesOfDrop(data: DataTransfer): Promise<InputSource[]> {
  const entries = [...data.items]
    .filter(({ kind }) => kind === 'file')
    .map((item) => item.webkitGetAsEntry())
  const plain = [...data.files]
  const sources: InputSource[] = []
  if (entries.some((entry) => entry !== null)) {
    for (const entry of entries) if (entry) await walk(entry, '', 0, sources)
  } else sources.push(...plain.map((file) => sourceOfFile(file, file.name)))
  return inOrder(sources)
}

/** Files from a file input, which gives a folder's paths where a folder was chosen. */
export function sourcesOfInput(files: FileList): InputSource[] {
  return inOrder([...files].map((file) => sourceOfFile(file, file.webkitRelativePath || file.name)))
}

/** Pictures that were dropped on a station's drawer; null where anything else is meant. */
export function picturesForStation({ target, dataTransfer }: DragEvent): File[] | null {
  if (!(target instanceof Element) || !target.closest('.drawer')) return null
  const files = [...(dataTransfer?.files ?? [])]
  const isPictures = files.length > 0 && files.every(({ type }) => type.startsWith('image/'))
  return isPictures ? files : null
}

function inOrder(sources: InputSource[]): InputSource[] {
  return sources.sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0))
}

function sourceOfFile(file: File, path: string): InputSource {
  return {
    path,
    size: file.size,
    at: file,
    read: async () => new Uint8Array(await file.arrayBuffer()),
    peek: async (bytes) => new Uint8Array(await file.slice(0, bytes).arrayBuffer()),
  }
}

async function walk(
  entry: FileSystemEntry,
  folder: string,
  depth: number,
  sources: InputSource[],
): Promise<void> {
  if (entry.name.startsWith('.') || depth > MAX_DEPTH) return
  const path = folder ? `${folder}/${entry.name}` : entry.name
  if (entry.isFile) {
    if (sources.length >= MAX_FILES) throw new Error(`More than ${MAX_FILES} files were dropped.`)
    const file = await new Promise<File>((resolve, reject) =>
      (entry as FileSystemFileEntry).file(resolve, reject),
    )
    sources.push(sourceOfFile(file, path))
    return
  }
  const reader = (entry as FileSystemDirectoryEntry).createReader()
  for (;;) {
    // A reader gives a folder's entries in portions, the last of them empty.
    const portion = await new Promise<FileSystemEntry[]>((resolve, reject) =>
      reader.readEntries(resolve, reject),
    )
    if (portion.length === 0) return
    for (const child of portion) await walk(child, path, depth + 1, sources)
  }
}
