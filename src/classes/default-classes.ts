/**
 * Classes to start from, in the order in which a field geologist would take them: the
 * diagnostic acid minerals first, then micas and clays, then the propylitic ones, iron last
 * because it coats everything. They need the indices of {@link DEFAULT_INDICES}. The limits
 * are starting values to be moved, not boundaries of nature.
 */
import { presetOf, presetRule } from '../indices/presets'
import type { IndexRule } from '../indices/rule'
import type { ClassRule } from './rule'

const STARTING_PRESETS = [
  'white-mica-position',
  'alunite-position',
  'chlorite-position',
  'carbonate-position',
  'ferric-depth',
]

/** The indices that a new project starts with. */
export const DEFAULT_INDICES: readonly IndexRule[] = STARTING_PRESETS.flatMap((id) => {
  const preset = presetOf(id)
  return preset ? [presetRule(preset)] : []
})

/** The classes that a new project starts with. */
export const DEFAULT_CLASSES: readonly ClassRule[] = [
  {
    // Between the potassic and the sodic end that science gives, 1478 and 1496.
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
    colour: '#D55E00',
    symbol: 'left triangle',
  },
  {
    name: 'kaolin',
    when: 'group("kaolin") >= 0.3',
    colour: '#F0E442',
    symbol: 'inverted triangle',
  },
  {
    name: 'short white mica',
    when: 'group("white mica") >= 0.3 and [white mica position] < 2195',
    colour: '#56B4E9',
    symbol: 'square',
  },
  {
    name: 'long white mica',
    when: 'group("white mica") >= 0.3 and [white mica position] >= 2208',
    colour: '#0072B2',
    symbol: 'flat bar',
  },
  { name: 'white mica', when: 'group("white mica") >= 0.3', colour: '#56B4E9', symbol: 'circle' },
  {
    name: 'smectite',
    when: 'group("smectite") + group("mixed-layer illite–smectite") >= 0.3',
    colour: '#E69F00',
    symbol: 'hourglass',
  },
  { name: 'epidote', when: 'group("epidote") >= 0.3', colour: '#009E73', symbol: 'star' },
  { name: 'chlorite', when: 'group("chlorite") >= 0.3', colour: '#009E73', symbol: 'hexagon' },
  {
    name: 'carbonate',
    when: 'group("calcite") + group("dolomite") + group("siderite") + group("rhodochrosite") >= 0.3',
    colour: '#0072B2',
    symbol: 'cross',
  },
  {
    name: 'iron oxides and jarosite',
    when: 'group("goethite") + group("hematite") + group("jarosite") >= 0.3',
    colour: '#000000',
    symbol: 'turned cross',
  },
  {
    name: 'opal and chalcedony',
    when: 'group("opal") + group("chalcedony") >= 0.3',
    colour: '#CC79A7',
    symbol: 'upright bar',
  },
]
