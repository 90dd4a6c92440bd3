/** A recipe and decisions for the sample area that write a file of every kind. */
import { readFileSync } from 'node:fs'

const COPPER = { value: 'copper', support: ['outcrop', 'soil'] }
const MICA = { value: 'white mica position' }

/** Every method and setting that changes what is written; names that clash or are no file's. */
const SURFACES = [
  { name: 'likeliest', classes: 'all', method: 'likeliest-class', cell: 20, reach: 200 },
  {
    name: 'likeliest groups',
    groups: ['alunite', 'white mica', 'kaolin'],
    method: 'likeliest-class',
    cell: 25,
    doubt_at_most: 0.9,
  },
  { name: 'copper/log Å', ...COPPER, method: 'kriging', cell: 20, transform: 'log' },
  { name: 'Copper:log Å', ...COPPER, method: 'kriging', cell: 40, transform: 'normal-score' },
  { name: '=copper drift', ...COPPER, method: 'kriging', cell: 40, drift: 'terrain.tif' },
  {
    name: 'copper above',
    ...COPPER,
    method: 'chance-above',
    above: 400,
    cell: 50,
    realisations: 20,
  },
  { name: 'between', ...COPPER, method: 'natural-neighbour', cell: 20, hull: 0 },
  { name: 'nearest', ...COPPER, method: 'nearest', cell: 30, reach: 200 },
  // More than 512 cells a side: with overviews.
  { name: 'fine', ...MICA, method: 'kriging', cell: 3, neighbours: 8, contour_interval: 2 },
  { name: 'CON', value: 'ferrous slope', method: 'kriging', cell: 20, contour_interval: 0.02 },
  {
    name: 'masked',
    ...MICA,
    method: 'inverse-distance',
    cell: 20,
    mask: { surface: 'likeliest', classes: ['white mica', 'long white mica'], doubt_at_most: 0.95 },
  },
  {
    name: 'within',
    class: 'alunite',
    method: 'class-probability',
    cell: 20,
    within: 'geology.geojson',
    contour_interval: 0.25,
  },
  { name: 'without stations', ...MICA, method: 'kriging', cell: 20, support: ['chips'] },
]

/** A short day over the terrain, with batteries that end and a station that is visited again. */
const TRAVERSE = {
  surface: 'mica',
  start: { longitude: -69.2770776, latitude: -24.9109868 },
  end: { longitude: -69.272, latitude: -24.9 },
  ...{ leave: '07:30', back: '11:30', stop_minutes: 15, batteries: 3, battery_hours: 1.2 },
  ...{ terrain: 'terrain.tif', visit: ['C07'] },
}

/** The sample area's recipe with all these surfaces and a walk. */
export function fullRecipe(): { readonly surfaces: readonly object[]; readonly traverse: object } {
  const recipe = JSON.parse(readFileSync('sample-area/recipe.json', 'utf8')) as {
    surfaces: object[]
  }
  return { ...recipe, surfaces: [...recipe.surfaces, ...SURFACES], traverse: TRAVERSE }
}

const PHOTO = {
  file: 'outcrop 1.jpg',
  sha256: 'a'.repeat(64),
  width: 800,
  height: 600,
  caption: '=caption, "quoted"',
  taken: '2024-05-07T16:05:12',
  direction: { azimuth: 350, north: 'magnetic', declination: -2 },
  scale: { from: [0.1, 0.1], to: [0.5, 0.1], millimetres: 100 },
  spots: [{ at: [0.2, 0.3], scan: 'C25_1', millimetres: 10 }],
  place: { longitude: -69.27, latitude: -24.905, accuracy: 5 },
}

/** What hands do to scans: each kind, and text that a table or a spreadsheet could trip over. */
const SAID: readonly (readonly [scan: string, about: object])[] = [
  ['C24_1', { kind: 'verdict', check: 'set aside' }],
  ['C99_1', { kind: 'place', longitude: -69.27, latitude: -24.905 }],
  ['C24_2', { kind: 'mineral', mineral: '' }],
  ['C25_1', { kind: 'mineral', mineral: 'dickite' }],
  ['C25_2', { kind: 'origin', mineral: 'alunite', origin: 'hypogene' }],
  ['C26_1', { kind: 'station', station: '=C26, "new"' }],
  ['C26_2', { kind: 'target', target: 'vein' }],
  ['C27_1', { kind: 'support', support: 'float' }],
  ['C27_1', { kind: 'note', note: 'line one\nline two, "quoted"' }],
  ['C27_1', { kind: 'field', field: 'Block', value: '-12 or so' }],
  ['C27_2', { kind: 'field', field: 'Block', value: '@north' }],
  ['C27_2', { kind: 'field', field: 'copper', value: '3.50' }],
  ['C25_1', { kind: 'field', field: '+tab', value: '\tx' }],
  ['C25_1', { kind: 'record', part: 'lithology', value: 'andesite; brecciated' }],
  ['C25_1', { kind: 'record', part: 'veins', value: 'looked, none seen' }],
  ['C25_1', { kind: 'minerals seen', minerals: { pyrite: true, quartz: false } }],
  ['C25_1', { kind: 'photos', photos: [PHOTO] }],
  [
    'C25_1',
    {
      kind: 'structures',
      structures: [
        { what: 'vein', form: 'plane', dip: 60, dip_direction: 355, declination: -2.5 },
        { what: 'lineation', form: 'line', trend: 10, plunge: 20, declination: 0 },
      ],
    },
  ],
]

/** Those as decisions. */
export function fullDecisions(): object {
  const by = { who: 'A. Tester', when: '2024-05-07T18:00:00Z', why: 'field book, "page 3"' }
  const list = SAID.map(([scan, about]) => {
    const file = `day-3/${scan.split('_')[0]}.csv`
    return { file, scan, about, ...by }
  })
  return { decisions: 1, list }
}
