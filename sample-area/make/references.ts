/** Temporary band tables. */
import type { Band, Reference } from '../../src/minerals/reference'
import type { Ingredient } from './mixture'

export type EndMember =
  | Exclude<Ingredient, 'white mica' | 'alunite'>
  | 'short white mica'
  | 'long white mica'
  | 'potassic alunite'
  | 'sodic alunite'

type Triple = [number, number, number]
const table = (
  mineral: string,
  group: string,
  continuum: [number, number][],
  bands: Triple[],
): Reference => ({
  mineral,
  variety: null,
  symbol: null,
  group,
  continuum,
  bands: bands.map(([position, width, strength]): Band => ({ position, width, strength })),
  record: 'hand',
  fitError: 0,
  range: [350, 2500],
  diagnostic: [],
  confusedWith: [],
  setting: '',
  fibrous: false,
})
const BRIGHT: [number, number][] = [
  [350, -1.1],
  [600, -0.5],
  [1000, -0.3],
  [1700, -0.25],
  [2500, -0.5],
]
const TABLE: Record<EndMember, Reference> = {
  host: table(
    'host',
    'featureless',
    [
      [350, -1.6],
      [550, -1.05],
      [900, -0.8],
      [1400, -0.7],
      [1800, -0.66],
      [2200, -0.67],
      [2500, -0.74],
    ],
    [
      [1413, 40, 0.012],
      [1920, 60, 0.03],
    ],
  ),
  sulfide: table(
    'pyrite',
    'featureless',
    [
      [350, -3.2],
      [900, -2.9],
      [2500, -2.5],
    ],
    [],
  ),
  pyrophyllite: table('pyrophyllite', 'pyrophyllite', BRIGHT, [
    [1393, 14, 0.7],
    [2167, 24, 1.0],
    [2319, 26, 0.3],
  ]),
  dickite: table('dickite', 'kaolin', BRIGHT, [
    [1382, 16, 0.5],
    [1414, 14, 0.6],
    [2178, 26, 0.55],
    [2206, 16, 0.75],
    [2384, 24, 0.25],
  ]),
  kaolinite: table('kaolinite', 'kaolin', BRIGHT, [
    [1396, 18, 0.4],
    [1413, 12, 0.55],
    [2163, 26, 0.4],
    [2207, 22, 0.75],
    [2325, 30, 0.12],
    [2385, 24, 0.2],
  ]),
  chlorite: table(
    'clinochlore',
    'chlorite',
    [
      [350, -1.9],
      [600, -1.3],
      [1400, -0.9],
      [2500, -1.0],
    ],
    [
      [720, 180, 0.25],
      [1000, 320, 0.3],
      [1395, 18, 0.18],
      [2250, 32, 0.35],
      [2330, 60, 0.75],
    ],
  ),
  epidote: table('epidote', 'epidote', BRIGHT, [
    [1045, 260, 0.4],
    [1553, 44, 0.16],
    [2256, 34, 0.3],
    [2339, 48, 0.8],
  ]),
  calcite: table('calcite', 'carbonate', BRIGHT, [
    [1875, 40, 0.08],
    [1992, 50, 0.12],
    [2158, 50, 0.08],
    [2340, 62, 0.7],
  ]),
  goethite: table('goethite', 'iron oxide', BRIGHT, [
    [420, 200, 1.6],
    [650, 110, 0.3],
    [930, 200, 0.9],
  ]),
  hematite: table('hematite', 'iron oxide', BRIGHT, [
    [440, 240, 2.0],
    [660, 90, 0.25],
    [880, 140, 0.8],
  ]),
  jarosite: table('jarosite', 'iron oxide', BRIGHT, [
    [435, 40, 0.4],
    [380, 120, 1.2],
    [910, 150, 0.6],
    [1470, 40, 0.15],
    [1850, 40, 0.2],
    [2265, 44, 0.6],
  ]),
  'short white mica': table('muscovite', 'white mica', BRIGHT, [
    [1408, 22, 0.4],
    [1910, 60, 0.15],
    [2197, 36, 0.8],
    [2344, 44, 0.35],
    [2440, 40, 0.3],
  ]),
  'long white mica': table('muscovite', 'white mica', BRIGHT, [
    [1412, 26, 0.3],
    [1910, 70, 0.2],
    [2212, 42, 0.7],
    [2348, 46, 0.3],
    [2442, 40, 0.25],
  ]),
  'potassic alunite': table('alunite', 'alunite', BRIGHT, [
    [1428, 18, 0.4],
    [1477, 26, 0.5],
    [1762, 40, 0.5],
    [2166, 50, 0.9],
    [2208, 30, 0.35],
    [2320, 40, 0.6],
  ]),
  'sodic alunite': table('alunite', 'alunite', BRIGHT, [
    [1440, 18, 0.4],
    [1496, 26, 0.5],
    [1763, 40, 0.5],
    [2172, 50, 0.9],
    [2212, 30, 0.35],
    [2320, 40, 0.6],
  ]),
}

export function referenceOf(member: EndMember): Reference {
  return TABLE[member]
}
