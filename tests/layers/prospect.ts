/** A few rows and surfaces to export; names chosen to be awkward. */
import type { LayersInput } from '../../src/layers/export-input'
import type { FoundCells, PlaceCells, ScanRow, StationRow } from '../../src/layers/rows'
import type { SurfaceLayer } from '../../src/layers/surface-layer'
import { openCrs, type WorkingCrs } from '../../src/places/crs'
import { contours } from '../../src/surfaces/contours'
import { discOfPositions, gridOf } from './grid'

const UNPLACED: PlaceCells = {
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

/** A place by working coordinates, with the CRS's own longitude and latitude. */
function placeAt(crs: WorkingCrs, easting: number, northing: number): PlaceCells {
  const [longitude, latitude] = crs.toGeographic(easting, northing) ?? [null, null]
  return {
    ...UNPLACED,
    support: 'outcrop',
    longitude,
    latitude,
    easting,
    northing,
    elevation: 2405.5,
    placedBy: 'table',
    placeError: 3,
  }
}

const FOUND: FoundCells = {
  check: 'sound',
  checkReasons: [],
  noise: 0.00042,
  mineral: 'muscovite',
  group: 'white mica',
  share: 0.61234,
  fit: 0.98765,
  doubt: '',
  class: 'long white mica',
  indices: [
    { value: 2208.123, error: 0.3456 },
    { value: null, error: null, missing: 'no such cell' },
  ],
}
const SILENT: FoundCells = {
  ...FOUND,
  check: 'doubtful',
  checkReasons: ['detector step', 'detector step', 'wet'],
  mineral: 'nothing diagnostic',
  group: null,
  share: null,
  fit: null,
  doubt: 'the 1900 feature is broad, "wet" perhaps',
  class: 'not measurable',
  indices: [
    { value: null, error: null, missing: 'condition false' },
    { value: 4200.5, error: null },
  ],
}

/** Surfaces: one with variance and an awkward name, one that clashes with it, one that failed. */
function surfaces(): SurfaceLayer[] {
  const grid = gridOf(60, 40)
  const estimate = discOfPositions(grid)
  const layer: SurfaceLayer = {
    rule: { name: 'mica: Al–OH', value: 'white mica position', method: 'kriging', cell: 20 },
    unit: 'nm',
    bands: { grid, estimate, variance: estimate.map((value) => (value - 2190) / 4) },
    failure: null,
    variogram: { nugget: 1, structures: [{ model: 'spherical', sill: 30, range: 4000 }] },
    testing: {
      count: 2,
      meanError: 0.1,
      rmse: 2.5,
      meanSquaredStandardised: 0.9,
      meanRmse: 6,
    },
    stations: 2,
    reach: 250,
    contours: contours(grid, estimate, [2200, 2205, 2210]),
    sentence: 'Predicts a station left out to 2.5 nm.',
  }
  return [
    layer,
    {
      ...layer,
      rule: { name: 'MICA/ Al–OH', value: 'copper', method: 'inverse-distance', power: 2 },
      unit: 'ppm',
      bands: { grid, estimate, variance: null },
      variogram: null,
    },
    {
      ...layer,
      rule: { name: 'stations', group: 'chlorite', method: 'class-probability' },
      unit: '',
      bands: null,
      failure: 'Two stations are too few.',
      variogram: null,
      testing: null,
      contours: [],
    },
  ]
}

/** All that an export takes. */
export function prospect(crsCode = 'EPSG:32719'): LayersInput {
  const crs = openCrs(crsCode)
  const here = placeAt(crs, 412_500, 7_301_000)
  const there = placeAt(crs, 412_860.126, 7_300_840.5)
  const scan = { file: 'scans/day 1, morning.txt', target: 'matrix' } as const
  const scans: ScanRow[] = [
    { ...here, ...FOUND, ...scan, scan: 'A1', station: 'A' },
    { ...there, ...SILENT, ...scan, scan: '=B1', station: '-B' },
    { ...UNPLACED, ...FOUND, ...scan, scan: 'C "old"', station: null, check: 'set aside' },
  ]
  const stations: StationRow[] = [
    { ...here, ...FOUND, station: 'A', scans: 1, files: [scan.file], targets: ['matrix'] },
    { ...there, ...SILENT, station: '-B', scans: 1, files: [scan.file], targets: ['matrix'] },
    {
      ...there,
      ...SILENT,
      station: 'assay only',
      support: 'soil',
      scans: 0,
      files: ['samples.csv'],
      targets: [],
      check: null,
      mineral: null,
      noise: null,
    },
  ]
  return {
    crs,
    indices: [
      { name: 'white mica position', unit: 'nm', formula: 'position(2185, 2225)', where: null },
      { name: 'copper', unit: 'ppm', formula: 'column("Cu_ppm")', where: null },
    ],
    scans,
    minerals: [
      {
        scan: 'A1',
        minerals: [
          { mineral: 'muscovite', group: 'white mica', share: 0.61234, fit: 0.98765 },
          { mineral: 'kaolinite', group: 'kaolin', share: 0.2, fit: 0.7 },
        ],
      },
      { scan: '=B1', minerals: [] },
      { scan: 'C "old"', minerals: null },
    ],
    stations,
    surfaces: surfaces(),
    problems: [
      { file: 'bad.txt', line: 12, problem: 'Not a number: “x”', done: 'Left out, mend it.' },
      { file: 'empty.txt', line: null, problem: 'The file is empty.', done: 'Left out.' },
    ],
    facts: {
      versions: [['aureole', '0.1.0']],
      inputs: [{ file: 'a.txt', kind: 'scans', bytes: 3, sha256: '00', scans: 3 }],
      tables: 1,
      tracks: 0,
      unplaced: [{ scan: 'C "old"', file: scan.file, why: 'No sample has this name.' }],
      recipe: { recipe: 1 },
      notes: [],
    },
  }
}
