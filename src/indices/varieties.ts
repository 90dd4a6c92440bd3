/** Which ready indices tell a mineral's variety, and what library records read on them. */
import { presetOf, type IndexPreset } from './presets'

/** What records of the library read on an index, as the preset's `reading` states it. */
export interface Landmark {
  readonly name: string
  /** In the index's unit; the same twice for a single record. */
  readonly from: number
  readonly to: number
}

/** An index that tells how a mineral of some groups varies. */
export interface Variety {
  readonly preset: IndexPreset
  /** Groups of whose minerals it speaks. */
  readonly groups: readonly string[]
  readonly landmarks: readonly Landmark[]
}

/** What is to be said with any of them. */
export const NOT_AN_ASSAY = 'An index, not an assay.'

const CARBONATES = ['calcite', 'dolomite', 'siderite', 'rhodochrosite', 'magnesite']

/** Every variety; the first of a group is the one that its summary states. */
export const VARIETIES: readonly Variety[] = [
  variety('white-mica-position', ['white mica'], {
    paragonite: [2191],
    'muscovite, aluminous': [2197],
    muscovite: [2209],
    'phengitic muscovite': [2216],
  }),
  variety('white-mica-order', ['white mica'], { illite: [0.4, 1.2], muscovite: [1.5, Infinity] }),
  variety('kaolin-order', ['kaolin'], {
    nacrite: [0.85],
    dickite: [0.91],
    halloysite: [0.94, 0.97],
    kaolinite: [0.99, 1.03],
  }),
  variety('kaolin-hydroxyl-width', ['kaolin'], {
    dickite: [13],
    nacrite: [17],
    kaolinite: [33, 39],
    halloysite: [44, 47],
  }),
  variety('alunite-position', ['alunite'], {
    'potassic alunite': [1477.5, 1478.5],
    'sodic alunite': [1495.5],
  }),
  variety('chlorite-position', ['chlorite'], { clinochlore: [2249], 'iron-rich chlorite': [2259] }),
  variety('carbonate-position', CARBONATES, {
    dolomite: [2322],
    siderite: [2331],
    calcite: [2340],
    rhodochrosite: [2358],
  }),
  variety('epidote-position', ['epidote'], { epidote: [1542, 1547] }),
  // Between minerals the Mg–OH positions overlap, so each is read within its own group.
  variety('mg-oh-position', ['talc'], { talc: [2311, 2313] }),
  variety('mg-oh-position', ['serpentine'], { antigorite: [2317, 2325], lizardite: [2324, 2327] }),
  variety('mg-oh-position', ['amphibole'], { tremolite: [2312], actinolite: [2309, 2315] }),
  variety('mg-oh-position', ['biotite–phlogopite'], { phlogopite: [2320, 2322] }),
  variety('ferric-position', ['hematite', 'goethite', 'jarosite'], {
    'fine hematite': [876, 904],
    goethite: [893, 909],
    jarosite: [886, 915],
  }),
]

/** The varieties of a group, the main one first; none for most groups. */
export function varietiesOf(group: string): Variety[] {
  return VARIETIES.filter(({ groups }) => groups.includes(group))
}

/**
 * Where a value stands among the readings of library records, in words: `where halloysite reads`,
 * `between muscovite and phengitic muscovite`, `above sodic alunite`. It compares; it does not
 * name the variety.
 */
export function amongLandmarks({ landmarks }: Variety, value: number): string {
  const inside = landmarks.filter(({ from, to }) => value >= from && value <= to)
  if (inside.length > 0) {
    const names = inside.map(({ name }) => name).join(' and ')
    return `where ${names} ${inside.length > 1 ? 'read' : 'reads'}`
  }
  const below = landmarks.filter(({ to }) => to < value).sort((a, b) => b.to - a.to)[0]
  const above = landmarks.filter(({ from }) => from > value).sort((a, b) => a.from - b.from)[0]
  if (below && above) return `between ${below.name} and ${above.name}`
  if (below) return `above ${below.name}`
  return above ? `below ${above.name}` : ''
}

function variety(
  id: string,
  groups: readonly string[],
  readings: Readonly<Record<string, readonly [from: number, to?: number]>>,
): Variety {
  const preset = presetOf(id)
  if (!preset) throw new Error(`There is no ready index "${id}".`)
  const landmarks = Object.entries(readings).map(([name, [from, to = from]]) => ({
    name,
    from,
    to,
  }))
  return { preset, groups, landmarks }
}
