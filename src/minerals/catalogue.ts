/**
 * Which minerals there are: the names that library records use for each, its symbol and its
 * group. What holds for a whole group stands in groups.ts.
 *
 * Symbols: L. N. Warr 2021, Mineralogical Magazine 85, 291, written down from memory; null
 * where the memory was not sure or the name is no species.
 */
import { GROUPS, type GroupFacts } from './groups'

/** One mineral as the catalogue knows it. */
export interface CatalogueEntry {
  readonly mineral: string
  readonly symbol: string | null
  readonly group: string
  /** Other names that records use, lower case. */
  readonly names: readonly string[]
  /** Whether the name suggests a habit that can be fibrous. */
  readonly fibrous: boolean
}

type Row = readonly [mineral: string, symbol: string | null, group: string, names?: string]

const ROWS: readonly Row[] = [
  ['kaolinite', 'Kln', 'kaolin'],
  ['dickite', 'Dck', 'kaolin'],
  ['nacrite', 'Ncr', 'kaolin'],
  ['halloysite', 'Hly', 'kaolin'],
  ['muscovite', 'Ms', 'white mica', 'sericite phengite'],
  ['illite', 'Ilt', 'white mica', 'hydromuscovite'],
  ['paragonite', 'Pg', 'white mica'],
  ['roscoelite', 'Rcl', 'white mica'],
  ['lepidolite', 'Lpd', 'lithium mica', 'trilithionite polylithionite zinnwaldite'],
  ['margarite', 'Mrg', 'brittle mica', 'clintonite'],
  ['glauconite', 'Glt', 'glauconite', 'celadonite'],
  ['montmorillonite', 'Mnt', 'smectite', 'smectite bentonite'],
  ['beidellite', 'Bei', 'smectite'],
  ['ammonium smectite', null, 'smectite', 'ammonio-smectite'],
  ['nontronite', 'Non', 'nontronite'],
  ['saponite', 'Sap', 'trioctahedral smectite'],
  ['hectorite', 'Htr', 'trioctahedral smectite'],
  ['sauconite', 'Sau', 'trioctahedral smectite'],
  ['rectorite', 'Rec', 'mixed-layer illite–smectite'],
  ['corrensite', 'Crr', 'mixed-layer chlorite–smectite'],
  [
    'ammonium illite–smectite',
    null,
    'mixed-layer illite–smectite',
    'ammonio-illite-smect ammonio-illite/smectite',
  ],
  ['vermiculite', 'Vrm', 'vermiculite'],
  ['clinochlore', 'Clc', 'chlorite', 'chlorite prochlorite ripidolite penninite'],
  ['chamosite', 'Chm', 'chlorite', 'thuringite'],
  ['cookeite', null, 'aluminous chlorite', 'donbassite sudoite'],
  ['biotite', 'Bt', 'biotite–phlogopite', 'annite siderophyllite'],
  ['phlogopite', 'Phl', 'biotite–phlogopite'],
  ['antigorite', 'Atg', 'serpentine'],
  ['lizardite', 'Lz', 'serpentine'],
  ['chrysotile', 'Ctl', 'serpentine'],
  ['serpentine', 'Srp', 'serpentine', 'cronstedtite'],
  ['talc', 'Tlc', 'talc'],
  ['pyrophyllite', 'Prl', 'pyrophyllite'],
  ['sepiolite', 'Sep', 'sepiolite'],
  ['palygorskite', 'Plg', 'palygorskite', 'attapulgite'],
  ['alunite', 'Alu', 'alunite', 'natroalunite ammonioalunite woodhouseite'],
  ['jarosite', 'Jrs', 'jarosite', 'natrojarosite plumbojarosite'],
  ['ammonium jarosite', null, 'jarosite', 'ammonio-jarosite ammoniojarosite'],
  ['gypsum', 'Gp', 'gypsum'],
  ['bassanite', null, 'bassanite'],
  ['anhydrite', 'Anh', 'anhydrite'],
  ['copiapite', 'Cpi', 'copiapite'],
  ['coquimbite', 'Coq', 'coquimbite'],
  ['butlerite', null, 'butlerite', 'parabutlerite'],
  ['schwertmannite', 'Swm', 'schwertmannite'],
  ['baryte', 'Brt', 'baryte', 'barite'],
  ['calcite', 'Cal', 'calcite'],
  ['dolomite', 'Dol', 'dolomite', 'ankerite'],
  ['magnesite', 'Mgs', 'magnesite', 'hydromagnesite'],
  ['siderite', 'Sd', 'siderite'],
  ['rhodochrosite', 'Rds', 'rhodochrosite'],
  ['aragonite', 'Arg', 'aragonite'],
  ['strontianite', 'Str', 'strontianite', 'witherite'],
  ['cerussite', 'Cer', 'cerussite'],
  ['smithsonite', 'Smt', 'smithsonite'],
  ['trona', null, 'sodium carbonate', 'nahcolite'],
  ['epidote', 'Ep', 'epidote', 'pistacite'],
  ['zoisite', 'Zo', 'zoisite'],
  ['clinozoisite', 'Czo', 'epidote', 'allanite'],
  ['actinolite', 'Act', 'amphibole'],
  ['tremolite', 'Tr', 'amphibole'],
  ['hornblende', 'Hbl', 'amphibole', 'magnesiohornblende richterite glaucophane arfvedsonite'],
  ['anthophyllite', 'Ath', 'amphibole', 'gedrite'],
  ['cummingtonite', 'Cum', 'amphibole', 'grunerite amosite'],
  ['riebeckite', 'Rbk', 'amphibole', 'crocidolite'],
  [
    'diopside',
    'Di',
    'pyroxene',
    'hedenbergite augite enstatite hypersthene bronzite pigeonite jadeite',
  ],
  ['olivine', 'Ol', 'olivine', 'forsterite fayalite'],
  ['prehnite', 'Prh', 'prehnite'],
  ['vesuvianite', 'Ves', 'vesuvianite', 'idocrase'],
  ['axinite', null, 'axinite'],
  ['elbaite', 'Elb', 'tourmaline'],
  ['tourmaline', 'Tur', 'tourmaline', 'schorl dravite uvite'],
  ['dumortierite', 'Dum', 'dumortierite'],
  ['topaz', 'Tpz', 'topaz'],
  ['zunyite', null, 'zunyite'],
  ['diaspore', 'Dsp', 'diaspore'],
  ['andalusite', 'And', 'andalusite', 'kyanite sillimanite'],
  ['gibbsite', 'Gbs', 'gibbsite'],
  ['brucite', 'Brc', 'brucite'],
  ['analcime', 'Anl', 'zeolite'],
  ['clinoptilolite', 'Cpt', 'zeolite'],
  ['heulandite', 'Hul', 'zeolite'],
  ['laumontite', 'Lmt', 'zeolite', 'leonhardite'],
  ['mordenite', 'Mor', 'zeolite'],
  ['natrolite', 'Ntr', 'zeolite', 'mesolite thomsonite'],
  ['scolecite', 'Slc', 'zeolite'],
  ['stilbite', 'Stb', 'zeolite', 'chabazite'],
  ['erionite', 'Eri', 'zeolite'],
  ['opal', 'Opl', 'opal', 'hyalite'],
  ['chalcedony', null, 'chalcedony'],
  ['buddingtonite', 'Bud', 'buddingtonite'],
  ['hematite', 'Hem', 'hematite', 'maghemite'],
  ['goethite', 'Gth', 'goethite', 'limonite'],
  ['lepidocrocite', null, 'lepidocrocite'],
  ['ferrihydrite', null, 'ferrihydrite', 'akaganeite'],
  ['malachite', 'Mlc', 'malachite'],
  ['azurite', 'Azu', 'azurite'],
  ['chrysocolla', 'Ccl', 'chrysocolla'],
  ['cuprite', 'Cpr', 'cuprite'],
  ['quartz', 'Qz', 'quartz'],
  ['albite', 'Ab', 'feldspar', 'plagioclase oligoclase andesine labradorite bytownite anorthite'],
  ['microcline', 'Mcc', 'feldspar', 'orthoclase sanidine adularia'],
  ['andradite', 'Adr', 'garnet', 'almandine spessartine pyrope uvarovite'],
  ['grossular', 'Grs', 'garnet', 'hydrogrossular'],
  ['magnetite', 'Mag', 'magnetite', 'ilmenite chromite'],
  ['pyrite', 'Py', 'pyrite', 'pyrrhotite chalcopyrite galena sphalerite'],
  ['titanite', 'Ttn', 'titanite', 'sphene'],
  ['wollastonite', 'Wo', 'wollastonite'],
]

/**
 * Minerals whose habit can be fibrous: the serpentines, the amphiboles that have asbestiform
 * kinds, fibrous zeolites, and the fibrous clays.
 */
const FIBROUS = new Set(
  'antigorite lizardite chrysotile serpentine actinolite tremolite anthophyllite cummingtonite riebeckite erionite mordenite sepiolite palygorskite'.split(
    ' ',
  ),
)

/** What is said beside every mineral whose name suggests fibres. */
export const FIBRE_CAUTION =
  'This mineral can be fibrous, and spectra do not show fibre. Treat the material as suspect: do not cut, crush or brush it dry, follow your local rules, and have it examined by a licensed assessor.'

/** The catalogue, in the order in which sets are written. */
export const CATALOGUE: readonly CatalogueEntry[] = ROWS.map(([mineral, symbol, group, names]) => ({
  mineral,
  symbol,
  group,
  names: names ? names.split(' ') : [],
  fibrous: FIBROUS.has(mineral),
}))

const BY_NAME = new Map(
  CATALOGUE.flatMap((entry) =>
    [entry.mineral, ...entry.names].map((name) => [name, entry] as const),
  ),
)

/** The catalogue's entry for a mineral's name in any case, or null. */
export function findMineral(name: string): CatalogueEntry | null {
  return BY_NAME.get(name.trim().toLowerCase()) ?? null
}

/**
 * The entry that a record's name speaks of: its first word (`Alunite_HS295.1B…` is alunite, and so
 * are `alunite-01` and `Alunite, Goldfield`). A name that the catalogue does not know makes a
 * mineral and a group of its own.
 */
export function mineralOfRecord(record: string): CatalogueEntry {
  const first = recordWords(record)[0] ?? 'unnamed'
  const known = knownMineral(first)
  if (known) return known
  const mineral = first.toLowerCase()
  return { mineral, symbol: null, group: mineral, names: [], fibrous: false }
}

/** A word's entry, as it stands or without the number or the formula after it; not of a mixture. */
function knownMineral(word: string): CatalogueEntry | null {
  const whole = findMineral(word)
  if (whole || word.includes('+')) return whole
  return findMineral(word.split(/[\s\d.,;(]/)[0].replace(/-+$/, ''))
}

/**
 * The record that a scan of a library is: its file's name where that names a mineral or nothing
 * does; else the scan's own, as in tables of many scans and files with a header.
 *
 * @param alone whether the file holds no other scan
 */
export function recordOfScan(path: string, scan: string, alone: boolean): string {
  const record = recordOfFile(path)
  const names = (name: string): boolean => knownMineral(recordWords(name)[0] ?? '') !== null
  if (!alone) return scan
  return names(record) || !names(scan) ? record : scan
}

/**
 * The sample that a record measures: its name without grain-size or split suffix, so that
 * `HS295.3B` is `HS295` and `GDS113a` is `GDS113`. Records of one sample are not independent.
 */
export function sampleOfRecord(record: string): string {
  const words = recordWords(record).slice(1)
  const numbered = words.find((word) => /^#\d+$/.test(word))
  const name = numbered ?? words.find((word) => /\d/.test(word)) ?? words[0] ?? record
  const trimmed = name.replace(/\.[0-9]*[A-Za-z]*(-B)?$/, '').replace(/(\d)[a-z]$/, '$1')
  return `${mineralOfRecord(record).mineral} ${trimmed}`
}

/**
 * The purity letter of a library record, the last of its instrument code (`ASDFRb` is b):
 * a and b are spectrally pure or nearly so, c and d hold other minerals; null where absent.
 */
export function purityOfRecord(record: string): string | null {
  return /_(?:ASD[A-Z]{2}|BECK|NIC\d|AVIRIS)([a-z])(?:_|$)/.exec(record)?.[1] ?? null
}

/** A library record's name from its file: without folder, ending, library prefix and `_AREF`. */
export function recordOfFile(path: string): string {
  const file = path.split('/').pop() ?? path
  return file
    .replace(/\.[A-Za-z]+$/, '')
    .replace(/^splib\d+[a-z]?_/i, '')
    .replace(/_[AR]REF$/, '')
}

/** The words of a record's name, without a library prefix. */
function recordWords(record: string): string[] {
  return record
    .replace(/^splib\d+[a-z]?_/i, '')
    .split('_')
    .filter((word) => word.length > 0)
}

/** The group's facts for an entry; a group that is not known has none. */
export function factsOf(entry: CatalogueEntry): GroupFacts {
  return (
    GROUPS.get(entry.group) ?? {
      group: entry.group,
      diagnostic: [],
      confusedWith: [],
      setting: '',
      silent: false,
    }
  )
}
