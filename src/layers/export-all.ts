/** Every file of the contract out of plain rows and surfaces: one at a time, or all. */
import type { WorkingCrs } from '../places/crs'
import { bandsGeojson, classesGeojson } from './bands-geojson'
import { contoursGeojson } from './contours-geojson'
import { fileNames } from './file-names'
import type { LayersInput, PlannedFile } from './export-input'
import { mineralsCsv } from './minerals-csv'
import { photosGeojson } from './photos-geojson'
import { plannedStyles } from './planned-styles'
import { problemsCsv } from './problems-csv'
import { reportJson, type WrittenFile } from './report'
import { TRAVERSE } from './report-traverse'
import { scansCsv } from './scans-csv'
import { stationsCsv, stationsGeojson } from './stations'
import { structuresGeojson } from './structures-geojson'
import { surfaceGeotiff } from './surface-layer'
import { traverseCsv } from './traverse-csv'
import { traverseGeojson } from './traverse-geojson'
import { traverseGpx } from './traverse-gpx'

/** A surface of this name would write its style over that of the stations. */
const STATIONS = ['stations']

/**
 * The files in the order they are written; for a local grid without GeoJSON, and without files for
 * surfaces that failed.
 */
export function planLayers(input: LayersInput): PlannedFile[] {
  const { crs, indices, scans, stations, minerals, problems, written } = input
  const surfaceFiles = fileNames(
    input.surfaces.map((surface) => surface.rule.name),
    STATIONS,
  )
  const planned: PlannedFile[] = [
    table('scans', () => scansCsv(crs, indices, scans, written?.scans)),
    table('minerals', () => mineralsCsv(minerals)),
    table('stations', () => stationsCsv(crs, indices, stations, written?.stations)),
    ...onGlobe(crs, { file: 'stations.geojson', holds: 'points', name: 'stations' }, () =>
      stationsGeojson(crs, indices, stations, written?.stations),
    ),
    ...plannedRecords(input),
    ...plannedSurfaces(input, surfaceFiles),
    ...plannedStyles(input, surfaceFiles),
    ...plannedWalk(input),
    table('problems', () => problemsCsv(problems)),
    ...plannedSets(input),
  ]
  const files = [...planned.map(({ file, holds, name }) => ({ file, holds, name })), REPORT]
  return [...planned, { ...REPORT, write: () => reportJson({ ...input, files }) }]
}

/** What people measured and photographed, where there is any. */
function plannedRecords({ crs, structures = [], photos = [] }: LayersInput): PlannedFile[] {
  const points = (name: string, write: () => Uint8Array | null) =>
    onGlobe(crs, { file: `${name}.geojson`, holds: 'points', name }, write)
  return [
    ...(structures.length > 0
      ? points('structures', () => structuresGeojson(crs, structures))
      : []),
    ...(photos.length > 0 ? points('photos', () => photosGeojson(crs, photos)) : []),
  ]
}

const REPORT: WrittenFile = { file: 'report.json', holds: 'report', name: 'report' }

function table(name: string, write: () => Uint8Array): PlannedFile {
  return { file: `${name}.csv`, holds: 'table', name, write }
}

function plannedSets({ sets = [] }: LayersInput): PlannedFile[] {
  const files = fileNames(sets.map(({ name }) => name))
  return sets.map(({ name, text }, at) => ({
    file: `${files[at]}.references.json`,
    holds: 'references',
    name,
    write: () => new TextEncoder().encode(text()),
  }))
}

function plannedSurfaces({ surfaces, crs }: LayersInput, files: readonly string[]): PlannedFile[] {
  return surfaces.flatMap((surface, at): PlannedFile[] => {
    const { rule, unit, bands, contours, likeliest } = surface
    if (bands === null) return []
    const { name } = rule
    const raster: PlannedFile = {
      file: `${files[at]}.tif`,
      holds: 'surface',
      name,
      write: () => surfaceGeotiff(surface, bands, crs),
    }
    const named = (what: string): WrittenFile => ({
      file: `${files[at]}.${what}.geojson`,
      holds: what === 'contours' ? 'contours' : 'areas',
      name,
    })
    if (likeliest) {
      const areas = () => classesGeojson(name, bands, likeliest.classes, crs)
      return [raster, ...onGlobe(crs, named('classes'), areas)]
    }
    const levels = contours.map(({ level }) => level)
    return [
      raster,
      ...onGlobe(crs, named('contours'), () => contoursGeojson(name, unit, contours, crs)),
      ...onGlobe(crs, named('bands'), () => bandsGeojson(name, unit, bands, levels, crs)),
    ]
  })
}

/** The walk that is planned next; on a local grid its table alone. */
function plannedWalk({ crs, traverse }: LayersInput): PlannedFile[] {
  if (!traverse?.plan) return []
  const { surface, plan } = traverse
  const { places } = plan
  const named = (ending: string, holds: WrittenFile['holds']): WrittenFile => ({
    file: `${TRAVERSE}.${ending}`,
    holds,
    name: TRAVERSE,
  })
  return [
    table(TRAVERSE, () => traverseCsv(crs, places)),
    ...onGlobe(crs, named('geojson', 'points'), () => traverseGeojson(crs, places)),
    ...onGlobe(crs, named('gpx', 'waypoints'), () => traverseGpx(crs, surface, places)),
  ]
}

/** A GeoJSON file, but not for a grid that is tied to nothing. */
function onGlobe(
  crs: WorkingCrs,
  planned: WrittenFile,
  write: () => Uint8Array | null,
): PlannedFile[] {
  if (crs.kind === 'local') return []
  const bytes = (): Uint8Array => {
    const made = write()
    if (made === null) throw new Error(`${planned.file} needs a CRS that is tied to the globe.`)
    return made
  }
  return [{ ...planned, write: bytes }]
}

/**
 * Every file by its name.
 *
 * @param before told of each file before it is made, with how many are done and how many there are
 *   in all; what it throws stops the export
 */
export function exportLayers(
  input: LayersInput,
  before: (file: string, done: number, total: number) => void = () => {},
): Map<string, Uint8Array> {
  const planned = planLayers(input)
  const files = new Map<string, Uint8Array>()
  for (const { file, write } of planned) {
    before(file, files.size, planned.length)
    files.set(file, write())
  }
  return files
}
