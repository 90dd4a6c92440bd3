/** The sample area's recipe: places, indices, classes and surfaces. */
import type { ClassRule } from '../../src/classes/rule'
import type { IndexRule } from '../../src/indices/rule'
import type { Recipe } from '../../src/project/recipe'
import type { SurfaceRule } from '../../src/surfaces/model'
import { EPSG } from './place'
import { CLOCK_BEHIND } from './sampling'

const CRS = `EPSG:${EPSG}`

/** Ranges and gates are those of the presets (docs/methods/indices.md). */
const INDICES: readonly IndexRule[] = [
  {
    name: 'white mica position',
    formula: 'position(2185, 2225, 2120, 2245)',
    unit: 'nm',
    where:
      'group("white mica") >= 0.3 and group("kaolin") < 0.15 and depth(2185, 2225, 2120, 2245) > 0.03',
  },
  {
    name: 'white mica order',
    formula: 'depth(2185, 2225, 2120, 2245) / depth(1880, 1960, 1830, 2090)',
    where:
      'group("white mica") >= 0.5 and group("kaolin") < 0.1 and depth(1880, 1960, 1830, 2090) > 0.02',
  },
  {
    name: 'alunite position',
    formula: 'position(1440, 1550, 1440, 1550)',
    unit: 'nm',
    where: 'group("alunite") >= 0.3 and depth(1440, 1550, 1440, 1550) > 0.02',
  },
  {
    name: 'kaolin shoulder',
    formula: 'depth(2155, 2185, 2120, 2250) / depth(2195, 2216, 2120, 2250)',
    where:
      'group("kaolin") >= 0.5 and group("alunite") < 0.1 and depth(2195, 2216, 2120, 2250) > 0.03',
  },
  {
    name: 'chlorite position',
    formula: 'position(2235, 2270, 2220, 2290)',
    unit: 'nm',
    where:
      'group("chlorite") >= 0.4 and group("epidote") < 0.2 and depth(2235, 2270, 2220, 2290) > 0.02',
  },
  {
    name: 'carbonate position',
    formula: 'position(2300, 2370, 2230, 2400)',
    unit: 'nm',
    where: 'group("calcite") + group("dolomite") >= 0.5 and depth(2300, 2370, 2230, 2400) > 0.03',
  },
  {
    name: 'ferric position',
    formula: 'position(820, 980, 760, 1050)',
    unit: 'nm',
    where:
      'group("goethite") + group("hematite") + group("jarosite") >= 0.1 and depth(820, 980, 760, 1050) > 0.02',
  },
  { name: 'ferrous slope', formula: 'slope(1000, 1300)', unit: 'per 1000 nm' },
  { name: 'copper', formula: 'column("Cu_ppm")', unit: 'ppm' },
  { name: 'arsenic', formula: 'column("As_ppm")', unit: 'ppm' },
]

/** Colours: Okabe and Ito 2008. Symbols tell apart what shares a colour family. */
const CLASSES: readonly ClassRule[] = [
  {
    name: 'sodic alunite',
    when: 'group("alunite") >= 0.3 and [alunite position] >= 1487',
    colour: '#D55E00',
    symbol: 'right triangle',
  },
  { name: 'alunite', when: 'group("alunite") >= 0.3', colour: '#CC79A7', symbol: 'triangle' },
  {
    name: 'pyrophyllite',
    when: 'group("pyrophyllite") >= 0.3',
    colour: '#E69F00',
    symbol: 'diamond',
  },
  {
    name: 'dickite',
    when: 'share("dickite") >= 0.3',
    colour: '#F0E442',
    symbol: 'inverted triangle',
  },
  { name: 'kaolinite', when: 'group("kaolin") >= 0.4', colour: '#F0E442', symbol: 'square' },
  {
    name: 'long white mica',
    when: 'group("white mica") >= 0.3 and [white mica position] >= 2205',
    colour: '#0072B2',
    symbol: 'flat bar',
  },
  {
    name: 'white mica',
    when: 'group("white mica") >= 0.3',
    colour: '#56B4E9',
    symbol: 'circle',
  },
  { name: 'epidote', when: 'group("epidote") >= 0.4', colour: '#009E73', symbol: 'star' },
  { name: 'calcite', when: 'group("calcite") >= 0.4', colour: '#009E73', symbol: 'cross' },
  { name: 'chlorite', when: 'group("chlorite") >= 0.3', colour: '#009E73', symbol: 'hexagon' },
  {
    name: 'ironstone',
    when: 'group("goethite") + group("hematite") + group("jarosite") >= 0.4',
    colour: '#000000',
    symbol: 'turned cross',
  },
  {
    name: 'featureless',
    when: 'mean(2195, 2215) / mean(2115, 2130) > 0.97 and mean(2325, 2345) / mean(2270, 2285) > 0.97',
    colour: '#000000',
    symbol: 'upright bar',
  },
]

const SURFACES: readonly SurfaceRule[] = [
  {
    name: 'white mica chance',
    group: 'white mica',
    method: 'class-probability',
    cell: 20,
    reach: 300,
  },
  { name: 'alunite chance', group: 'alunite', method: 'class-probability', cell: 20, reach: 300 },
  {
    name: 'mica',
    value: 'white mica position',
    method: 'kriging',
    cell: 20,
    neighbours: 24,
    variogram: 'fit',
    reach: 250,
    mask: { surface: 'white mica chance', at_least: 0.5 },
  },
  {
    name: 'copper',
    value: 'copper',
    method: 'inverse-distance',
    power: 2,
    cell: 20,
    reach: 300,
    support: ['outcrop', 'soil'],
  },
]

/** The recipe, as docs/contracts.md has it. */
export const RECIPE: Recipe = {
  recipe: 1,
  crs: CRS,
  places: [
    { file: 'samples.csv', crs: CRS, x: 'East', y: 'North', z: 'Elevation', name: 'SampleID' },
    { file: 'collars.csv', crs: CRS, x: 'East', y: 'North', z: 'Elevation', name: 'Hole' },
    { file: 'day1.gpx', clock_offset_s: CLOCK_BEHIND },
  ],
  targets: ['matrix'],
  indices: INDICES,
  classes: CLASSES,
  surfaces: SURFACES,
}
