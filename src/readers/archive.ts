/** Reads what a zip archive holds, each file as though it lay in a folder of the archive's name. */
import { collectCompanions } from './companions'
import type { Companions, InputFile, Problem, ReadResult, ReadScan, Table, Track } from './input'
import { leftOut, nothingIn } from './result'
import { zipEntries } from './zip'

type ReadOne = (file: InputFile, companions: Companions) => ReadResult

const NESTED_ZIP = [0x50, 0x4b, 3, 4]

/** Reads every file by `readOne`, with companions from the archive and from around it. */
export function readArchive(
  archive: InputFile,
  companions: Companions,
  readOne: ReadOne,
): ReadResult {
  const entries = zipEntries(archive.bytes)
  if (typeof entries === 'string')
    return leftOut(archive.path, null, entries, 'unpack it and add what is in it')
  if (entries.some(({ name }) => name === '[Content_Types].xml'))
    return leftOut(
      archive.path,
      null,
      'a spreadsheet or document, not text',
      'save its table as CSV',
    )
  const problems: Problem[] = []
  const files: InputFile[] = []
  for (const { name, read } of entries) {
    const path = `${archive.path}/${name}`
    const bytes = read()
    if (typeof bytes === 'string')
      problems.push({ file: path, line: null, problem: bytes, done: 'left out; pack it again' })
    else if (NESTED_ZIP.every((value, i) => bytes[i] === value))
      problems.push(
        ...leftOut(path, null, 'a zip archive in another', 'unpack the outer one').problems,
      )
    else files.push({ path, bytes })
  }
  const own = collectCompanions(files)
  const all = {
    axes: [...own.axes, ...companions.axes],
    bandwidths: [...own.bandwidths, ...companions.bandwidths],
    ...(companions.isPartial ? { isPartial: true as const } : {}),
  }
  return joined(
    archive.path,
    files.map((file) => readOne(file, all)),
    problems,
  )
}

function joined(
  path: string,
  results: readonly ReadResult[],
  before: readonly Problem[],
): ReadResult {
  if (results.some(({ wantsCompanions }) => wantsCompanions))
    return { ...nothingIn('unknown'), wantsCompanions: true }
  const scans: ReadScan[] = results.flatMap((result) => result.scans)
  const tables: Table[] = results.flatMap((result) => result.tables)
  const tracks: Track[] = results.flatMap((result) => result.tracks)
  const problems = [...before, ...results.flatMap((result) => result.problems)]
  const others = results.filter(
    ({ kind }) => kind === 'raster' || kind === 'geojson' || kind === 'photo',
  )
  if (others.length > 0) {
    problems.push({
      file: path,
      line: null,
      problem: `${others.length} rasters, layers or photos in a zip archive`,
      done: 'left out; unpack the archive to use them',
    })
  }
  if (scans.length + tables.length + tracks.length + problems.length === 0)
    return leftOut(path, null, 'a zip archive without scans, tables or tracks', 'pack it again')
  const kind =
    scans.length > 0
      ? 'scans'
      : tracks.length > 0
        ? 'track'
        : tables.length > 0
          ? 'table'
          : 'unknown'
  const first = results.find((result) => result.layout !== null)
  const seen = first ?? results.find(({ look }) => look !== undefined)
  return {
    kind,
    scans,
    tables,
    tracks,
    layout: first?.layout ?? null,
    look: seen?.look,
    correction: seen?.correction,
    problems,
  }
}
