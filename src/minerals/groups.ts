/**
 * The groups that shares, classes and the accuracy figures speak of: minerals that a
 * petrologist would put under one name on an alteration map. Structure and chemistry draw
 * them, not what a spectrum can tell apart; docs/methods/minerals.md holds the reasons and
 * the confusion table.
 */

/** What holds for all minerals of a group unless the catalogue says otherwise for one. */
export interface GroupFacts {
  readonly group: string
  /** Hull ranges of the diagnostic absorptions, nm. */
  readonly diagnostic: readonly (readonly [from: number, to: number])[]
  /** Groups or minerals that look alike here. */
  readonly confusedWith: readonly string[]
  /** Where it is found, in a phrase. */
  readonly setting: string
  /** Whether it has no absorption of its own in 350–2500 nm: it is never named from a scan. */
  readonly silent: boolean
}

/** Group | diagnostic hull ranges, nm, or `silent` | confused with | setting. */
const TABLE = `
kaolin | 1350–1460, 2110–2250, 2290–2410 | white mica, smectite, alunite | argillic and advanced argillic alteration; weathering
white mica | 1370–1480, 2120–2245, 2300–2395 | smectite, kaolin, lithium mica | phyllic (sericitic) alteration; greenschist metamorphism
lithium mica | 1370–1480, 2130–2245, 2300–2400 | white mica | pegmatite and greisen
brittle mica | 1370–1480, 2130–2250, 2290–2400 | white mica | metamorphosed aluminous rocks, skarn
glauconite | 2200–2390, 600–1100 | nontronite, biotite–phlogopite | marine sediments
smectite | 1370–1500, 1850–2050, 2130–2260 | white mica, mixed-layer illite–smectite, palygorskite | argillic alteration; weathering; altered ash
nontronite | 1370–1500, 1850–2050, 2240–2340 | smectite, jarosite | weathered and low-temperature altered mafic rock
trioctahedral smectite | 1370–1500, 1850–2050, 2260–2420 | talc, sepiolite, vermiculite | low-temperature altered mafic and ultramafic rock
mixed-layer illite–smectite | 1370–1500, 1850–2050, 2130–2260, 2270–2420 | white mica, smectite | outer argillic alteration; burial diagenesis
mixed-layer chlorite–smectite | 1370–1500, 1850–2050, 2220–2420 | chlorite, smectite, vermiculite | low-grade altered mafic rock
vermiculite | 1850–2050, 2230–2420 | biotite–phlogopite, smectite | weathered biotite and ultramafic rock
chlorite | 1370–1430, 2220–2290, 2290–2420 | biotite–phlogopite, amphibole, epidote, serpentine | propylitic and chloritic alteration; greenschist metamorphism
aluminous chlorite | 1370–1480, 2130–2260, 2290–2400 | white mica, smectite | lithium pegmatite and hydrothermal veins
biotite–phlogopite | 2220–2290, 2290–2360, 2360–2430 | chlorite, amphibole, talc | potassic alteration; carbonatite, skarn, lamprophyre
serpentine | 1360–1430, 2070–2170, 2270–2360 | talc, amphibole, chlorite, brucite | hydrated ultramafic rock
talc | 1370–1420, 2260–2340, 2360–2420 | amphibole, serpentine, saponite | altered ultramafic rock and dolomite
pyrophyllite | 1370–1420, 2120–2230, 2290–2350 | kaolin, white mica | advanced argillic alteration, hotter than dickite
sepiolite | 1370–1480, 1850–2050, 2280–2420 | talc, smectite | alkaline lakes and weathered ultramafic rock
palygorskite | 1370–1500, 1850–2050, 2130–2260 | smectite, white mica | alkaline lakes and soils
alunite | 1400–1550, 1680–1830, 2080–2250, 2290–2360 | kaolin, pyrophyllite, jarosite | advanced argillic alteration, hypogene or supergene
jarosite | 390–500, 750–1250, 1440–1560, 1820–1880, 2200–2340 | goethite, alunite, gypsum | oxidised sulfides, acid conditions
gypsum | 1400–1580, 1680–1830, 1850–2050, 2140–2290 | bassanite, zeolite | evaporites; oxidised sulfides beside carbonate
bassanite | 1400–1580, 1680–1830, 1850–2050, 2140–2290 | gypsum | dried gypsum
anhydrite | 1850–2050, 2100–2260 | gypsum | porphyry and evaporite, unweathered
copiapite | 390–500, 750–1250, 1400–1560, 1850–2100 | jarosite, goethite | crusts on oxidising sulfides
coquimbite | 390–500, 600–1000, 1400–1560, 1850–2100 | copiapite, jarosite | crusts on oxidising sulfides
butlerite | 390–500, 750–1250, 1400–1560, 1850–2100 | copiapite, jarosite | crusts on oxidising sulfides
schwertmannite | 600–1250, 1850–2100 | ferrihydrite, goethite, jarosite | acid drainage
baryte | 1850–2050, 2400–2500 | gypsum | veins and sea-floor sulfides
calcite | 1820–1910, 1950–2040, 2110–2200, 2230–2400 | dolomite, epidote, chlorite | propylitic alteration, skarn, veins, limestone
dolomite | 1820–1910, 2110–2200, 2230–2400 | calcite, chlorite, magnesite | carbonate replacement, veins, dolostone
magnesite | 1820–1910, 2220–2390 | dolomite, talc | carbonated ultramafic rock
siderite | 700–1800, 2220–2420 | dolomite | veins and iron carbonate alteration
rhodochrosite | 500–620, 2270–2430 | calcite | epithermal veins
aragonite | 1820–1910, 1950–2040, 2230–2400 | calcite | hot springs, shells
strontianite | 1820–1910, 2000–2080, 2250–2430 | calcite, aragonite | carbonatite and veins
cerussite | 1950–2120, 2280–2450 | calcite | oxidised lead ore
smithsonite | 1820–1910, 2230–2430 | calcite, dolomite | oxidised zinc ore
sodium carbonate | 1450–1600, 1850–2130, 2180–2460 | zeolite | alkaline lakes
epidote | 1480–1600, 1800–1890, 2220–2290, 2290–2410 | chlorite, calcite, prehnite | propylitic alteration, skarn
zoisite | 1440–1560, 2100–2240, 2230–2420 | epidote | metamorphosed calc-silicate and mafic rock
amphibole | 1370–1430, 2260–2350, 2350–2430 | talc, chlorite, biotite–phlogopite, serpentine | skarn, mafic rock, outer propylitic (actinolite) alteration
pyroxene | 700–1300, 1700–2500 | olivine, amphibole | skarn, mafic rock
olivine | 700–1600 | pyroxene | ultramafic rock
prehnite | 1400–1530, 2200–2300, 2310–2410 | epidote, chlorite | low-grade metamorphism and propylitic alteration
vesuvianite | 1370–1500, 2080–2300, 2300–2420 | garnet, epidote | skarn
axinite | 1440–1520, 2100–2260, 2290–2400 | tourmaline | skarn and veins
tourmaline | 1370–1500, 2170–2230, 2230–2280, 2280–2420 | chlorite, white mica | breccia pipes, greisen, pegmatite
dumortierite | 1370–1520, 2120–2260 | pyrophyllite, topaz | advanced argillic alteration
topaz | 1380–1420, 1640–1700, 2060–2240 | zunyite, dickite | greisen and high-sulfidation alteration
zunyite | 1370–1500, 1640–1710, 2100–2250 | topaz, diaspore | advanced argillic alteration
diaspore | 1700–2150 | topaz, zunyite | advanced argillic alteration, bauxite
andalusite | 1370–1430, 2150–2250, 2300–2400 | white mica | hot advanced argillic alteration, hornfels
gibbsite | 1400–1600, 2180–2480 | kaolin | laterite and bauxite
brucite | 1360–1430, 2250–2480 | serpentine | serpentinised rock, periclase marble
zeolite | 1370–1550, 1730–1830, 1850–2100, 2100–2300 | gypsum, opal, smectite | low-temperature alteration, altered ash
opal | 1350–1550, 1850–2080, 2130–2380 | smectite, zeolite | sinter, steam-heated caps, silicification
chalcedony | 1350–1550, 1850–2080, 2130–2380 | opal | veins and silicification
buddingtonite | 1480–1650, 1950–2060, 2060–2200 | ammonium mica, alunite | hot springs, ammonium-bearing alteration
hematite | 480–620, 600–760, 740–1250 | goethite, ferrihydrite | oxidised rock, skarn, iron ore
goethite | 410–560, 560–760, 740–1300 | jarosite, ferrihydrite, hematite | gossan and weathered sulfides
lepidocrocite | 410–600, 560–780, 780–1300 | goethite | wet soils
ferrihydrite | 410–600, 700–1300 | goethite, schwertmannite | young ochre, drainage
malachite | 500–1300, 2200–2300, 2310–2420 | chrysocolla, azurite | oxidised copper ore
azurite | 450–1300, 1450–1550, 2230–2300, 2310–2430 | malachite | oxidised copper ore
chrysocolla | 500–1300, 1350–1550, 2160–2400 | malachite, opal | oxidised copper ore
cuprite | 500–700 | hematite | oxidised copper ore
quartz | silent |  | silicification, veins, nearly every rock
feldspar | silent |  | potassic and sodic alteration, most igneous rocks
garnet | silent |  | skarn
magnetite | silent |  | potassic alteration, skarn
pyrite | silent |  | phyllic alteration and ore
titanite | silent |  | igneous and calc-silicate rocks
wollastonite | silent |  | skarn
`

/** Every group, by name. */
export const GROUPS: ReadonlyMap<string, GroupFacts> = new Map(
  TABLE.trim()
    .split('\n')
    .map((row) => {
      const [group, ranges, confusedWith, setting] = row.split('|').map((cell) => cell.trim())
      const silent = ranges === 'silent'
      const facts: GroupFacts = {
        group,
        diagnostic: silent ? [] : ranges.split(', ').map(readRange),
        confusedWith: confusedWith === '' ? [] : confusedWith.split(', '),
        setting,
        silent,
      }
      return [group, facts]
    }),
)

function readRange(text: string): [from: number, to: number] {
  const [from, to] = text.split('–').map(Number)
  return [from, to]
}

/** Whether minerals of a group have no absorption of their own here; an unknown group speaks. */
export function isSilent(group: string): boolean {
  return GROUPS.get(group)?.silent ?? false
}

/** Groups that altered rock commonly holds beside others; the rest need better evidence. */
const COMMON = new Set([
  'kaolin',
  'white mica',
  'smectite',
  'chlorite',
  'biotite–phlogopite',
  'serpentine',
  'talc',
  'pyrophyllite',
  'alunite',
  'jarosite',
  'gypsum',
  'calcite',
  'dolomite',
  'siderite',
  'epidote',
  'amphibole',
  'tourmaline',
  'zeolite',
  'opal',
  'hematite',
  'goethite',
])

/** Whether a group is common beside others in altered rock. */
export function isCommon(group: string): boolean {
  return COMMON.has(group)
}
