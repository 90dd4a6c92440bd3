/** Results as the rows that leave the program. */
import { withOthers } from '../check/reasons'
import type { Verdict } from '../check/verdict'
import type { LayersInput } from '../layers/export-input'
import type { ReportedInput } from '../layers/report'
import type { FoundCells, MineralRow, PlaceCells, ScanRow, StationRow } from '../layers/rows'
import type { SurfaceLayer } from '../layers/surface-layer'
import { NOTHING_DIAGNOSTIC } from '../minerals/reference'
import type { Station } from '../places/station'
import { version } from '../../package.json'
import { photoRows } from './photo-rows'
import type { Holdings, Project, ScanHead } from './project'
import { RECORD_COLUMNS } from './record-parts'
import { reportedGrouping, reportedLayout, reportedRevisits } from './reported-facts'
import { reportedSets, setFiles, unmetChoices } from './reported-sets'
import { filesAlike } from './recipe-layouts'
import { structureRows } from './structure-rows'
import type { Results, SurfaceResult } from './results'
import { revisitsOf } from './revisits'
import { traverseLayer } from './traverse-words'
import { troubleWords } from './trouble-words'

/**
 * Everything that the layers are made of.
 *
 * @param inputs the files that were handed over besides those in the holdings, such as a recipe
 */
export function layersInput(
  project: Project,
  holdings: Holdings,
  results: Results,
  inputs: readonly ReportedInput[] = [],
): LayersInput {
  const { placement, indices } = results
  const hidden = new Set(project.hidden)
  const files = holdings.files.filter(({ path }) => !hidden.has(path))
  return {
    crs: placement.crs,
    indices: indices.map(({ rule }) => ({
      name: rule.name.normalize('NFC'),
      unit: rule.unit ?? '',
      formula: rule.formula,
      where: rule.where ?? null,
    })),
    scans: results.heads.map((_, scan) => scanRow(results, scan)),
    minerals: results.heads.map((_, scan) => mineralRow(results, scan)),
    stations: placement.stations.map((_, station) => stationRow(project, results, station)),
    written: {
      scans: results.written.own,
      stations: [...(results.written.anyRecord ? RECORD_COLUMNS : []), ...results.written.own],
    },
    surfaces: results.surfaces.map(surfaceLayer),
    problems: results.problems,
    ...(project.recipe.traverse
      ? { traverse: traverseLayer(project.recipe.traverse, results.traverse ?? null) }
      : {}),
    sets: setFiles(project.sets),
    photos: photoRows(results),
    structures: structureRows(results),
    legend: { classes: project.recipe.classes },
    facts: {
      versions: [['Aureole', version]],
      inputs: [
        ...files.map(({ path, kind, size, sha256, scanCount }) => ({
          file: path,
          kind,
          bytes: size,
          sha256,
          scans: scanCount,
        })),
        ...inputs,
      ],
      layouts: filesAlike(files).map(reportedLayout),
      tables: holdings.tables.filter(({ file }) => !hidden.has(file)).length,
      tracks: holdings.tracks.filter(({ file }) => !hidden.has(file)).length,
      unplaced: placement.scans.flatMap(({ station, unplaced }, scan) => {
        const { name, file } = results.heads[scan]
        return station === null ? [{ scan: name, file, why: unplaced ?? '' }] : []
      }),
      grouped: reportedGrouping(placement),
      references: results.references && reportedSets(results.references),
      revisited: reportedRevisits(revisitsOf(results, project.recipe)),
      recipe: project.recipe,
      notes: notesOf(project, holdings, results),
    },
  }
}

function notesOf(project: Project, holdings: Holdings, results: Results): string[] {
  const notes = results.troubles.map(troubleWords)
  const looks = new Set(holdings.files.map(({ look }) => look?.like))
  for (const { like } of project.recipe.layouts ?? []) {
    if (!looks.has(like)) notes.push(`The recipe’s layout ‘${like}’ fits no file.`)
  }
  for (const { file } of results.placement.questions) {
    notes.push(`${file} was not used: its coordinate system is not stated.`)
  }
  results.verdicts.forEach((verdict, scan) => {
    if (verdict.corrected) notes.push(correctionNote(results.heads[scan], verdict))
  })
  if (results.references) notes.push(...unmetChoices(results.references))
  if (project.statement) notes.unshift(project.statement)
  return notes
}

/** What was done to a scan whose step correction is switched on. */
function correctionNote({ name, file }: ScanHead, verdict: Verdict): string {
  const { corrected = [], untold = [] } = verdict
  const scan = `The detector steps of the scan ‘${name}’ of ${file} are corrected, as decided by hand: `
  const done = corrected.map(
    ({ position, size, error, rocks, change }) =>
      `${inPercent(size)} (± ${inPercent(error)}${withOthers(rocks)}) at ${position.toFixed(1)} nm, the outer detector times ${change.toFixed(4)}`,
  )
  const left = untold.map(
    ({ position }) =>
      `the step at ${position.toFixed(1)} nm cannot be told to 0.2 % reflectance and is left`,
  )
  const all = [...done, ...left]
  return `${scan}${all.length === 0 ? 'none was found' : all.join('; ')}.`
}

function inPercent(fraction: number): string {
  return `${(100 * fraction).toFixed(2)} %`
}

const NOWHERE: PlaceCells = {
  support: null,
  hole: null,
  depth: null,
  longitude: null,
  latitude: null,
  easting: null,
  northing: null,
  elevation: null,
  placedBy: null,
  placeError: null,
}

function placeCells(station: Station): PlaceCells {
  const { position, from, to } = station
  return {
    support: station.support,
    hole: station.hole,
    depth: from === null ? null : (from + (to ?? from)) / 2,
    longitude: position.longitude,
    latitude: position.latitude,
    easting: position.easting,
    northing: position.northing,
    elevation: position.elevation,
    placedBy: station.placedBy,
    placeError: position.error,
  }
}

function scanRow(results: Results, scan: number): ScanRow {
  const { placement, heads, verdicts, identifications, indices } = results
  const placed = placement.scans[scan]
  const station = placed.station === null ? null : placement.stations[placed.station]
  const found = identifications[scan]
  const main = found?.minerals[0]
  return {
    scan: heads[scan].name,
    file: heads[scan].file,
    station: station?.name ?? null,
    target: placed.target,
    ...(station ? placeCells(station) : NOWHERE),
    check: verdicts[scan].check,
    checkReasons: verdicts[scan].reasons.map(({ reason }) => reason),
    cannotTell: verdicts[scan].cannotTell,
    noise: verdicts[scan].noise,
    mineral: found ? (main?.mineral ?? NOTHING_DIAGNOSTIC) : null,
    group: main?.group ?? null,
    share: main?.share ?? null,
    fit: main?.fit ?? null,
    doubt: found?.doubt ?? '',
    class: results.scanClasses[scan],
    indices: indices.map(({ scans }) => scans[scan]),
    written: results.written.scans[scan],
  }
}

function mineralRow(results: Results, scan: number): MineralRow {
  const found = results.identifications[scan]
  const { station } = results.placement.scans[scan]
  const origins = station === null ? null : results.origins[station]
  return {
    scan: results.heads[scan].name,
    minerals: found ? found.minerals : null,
    originOf: (mineral) => origins?.get(mineral) ?? 'unknown',
  }
}

function stationRow(project: Project, results: Results, number: number): StationRow {
  const { placement, indices, stationMinerals } = results
  const station = placement.stations[number]
  return {
    station: station.name,
    scans: stationMinerals[number].sound,
    files: filesOf(results, station),
    targets: [...new Set(station.scans.map((scan) => placement.scans[scan].target))],
    ...placeCells(station),
    ...stationFindings(project, results, number),
    class: results.stationClasses[number],
    indices: indices.map(({ stations }) => stations[number]),
    written: results.written.stations[number],
  }
}

/** The files of a station's scans; the table's where it has none. */
function filesOf({ heads }: Results, { scans, file }: Station): string[] {
  if (scans.length === 0) return file === undefined ? [] : [file]
  return [...new Set(scans.map((scan) => heads[scan].file))]
}

/** What the station's counted scans say together. */
function stationFindings(
  project: Project,
  results: Results,
  number: number,
): Omit<FoundCells, 'class' | 'indices'> {
  const { placement, verdicts, identifications, stationMinerals } = results
  const station = placement.stations[number]
  const counted = station.scans.filter(
    (scan) =>
      verdicts[scan].check === 'sound' &&
      project.recipe.targets.includes(placement.scans[scan].target),
  )
  const found = counted.flatMap((scan) => identifications[scan] ?? [])
  const main = stationMinerals[number].minerals[0]
  const parts = main
    ? found.flatMap(({ minerals }) => minerals.filter(({ mineral }) => mineral === main[0]))
    : []
  const noises = counted.flatMap((scan) => verdicts[scan].noise ?? [])
  const mean = (values: readonly number[]) =>
    values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length
  return {
    check:
      station.scans.length === 0 ? null : bestCheck(station.scans.map((s) => verdicts[s].check)),
    checkReasons: [
      ...new Set(station.scans.flatMap((s) => verdicts[s].reasons.map(({ reason }) => reason))),
    ],
    noise: mean(noises),
    mineral: found.length === 0 ? null : (main?.[0] ?? NOTHING_DIAGNOSTIC),
    group: parts[0]?.group ?? null,
    share: main?.[1] ?? null,
    fit: mean(parts.map(({ fit }) => fit)),
    doubt: [...new Set(found.map(({ doubt }) => doubt).filter(Boolean))].join(' '),
  }
}

/** A station is as sound as its best scan: the others are left out of its values. */
function bestCheck(checks: readonly ('sound' | 'doubtful' | 'set aside')[]) {
  if (checks.includes('sound')) return 'sound' as const
  return checks.includes('doubtful') ? ('doubtful' as const) : ('set aside' as const)
}

function surfaceLayer(surface: SurfaceResult): SurfaceLayer {
  const { rule, unit, bands, failure, variogram, testing, stations, reach, contours, sentence } =
    surface
  const { neighbours, power } = surface.used ?? {}
  return {
    rule: {
      ...rule,
      neighbours: neighbours ?? rule.neighbours,
      power: power ?? rule.power,
    },
    unit,
    bands,
    failure,
    variogram,
    testing,
    blocked: surface.blocked,
    likeliest: surface.likeliest,
    stations,
    reach,
    contours,
    sentence,
  }
}
