/** Presets for white mica, alunite, chlorite, carbonate, Mg–OH minerals and epidote. */
import type { IndexPreset } from './presets'

export const MICA_TO_EPIDOTE: readonly IndexPreset[] = [
  {
    id: 'white-mica-position',
    name: 'white mica position',
    formula: 'position(2185, 2225, 2120, 2245)',
    where:
      'group("white mica") >= 0.3 and group("kaolin") < 0.2 and depth(2185, 2225, 2120, 2245) > 0.03',
    unit: 'nm',
    meaning:
      'Al–OH position of white mica. Short: sodic and aluminous (paragonitic). About 2200: muscovitic. Long: Si, Mg and Fe for Al (phengitic). Near ore it may be short or long, by deposit and host.',
    reading: 'paragonite 2191; muscovite 2197 and 2209; phengitic muscovite 2216',
    usual: [2188, 2220],
    source:
      'Vedder and McDonald 1963; Post and Noble 1993, Clays Clay Min. 41, 639; Duke 1994, Geology 22, 621; readings measured here',
    fromMemory: false,
    caution:
      'Kaolin, smectite, alunite and some opals absorb in the same range. A kaolin share that stays under the limit still draws it toward 2206.',
  },
  {
    id: 'white-mica-order',
    name: 'white mica order',
    formula: 'depth(2185, 2225, 2120, 2245) / depth(1890, 1960, 1830, 2120)',
    where:
      'group("white mica") >= 0.5 and group("kaolin") < 0.1 and group("smectite") < 0.1 and group("opal") < 0.1 and depth(1890, 1960, 1830, 2120) > 0.02',
    unit: '',
    meaning:
      'Depth of the 2200 absorption over the depth of the water band near 1900. High: better ordered mica. Low: illitic, with water between the layers.',
    reading: 'illite 0.4 to 1.2; muscovite 1.5 to more than 10',
    usual: [0.3, 8],
    source: 'Doublier et al. 2010',
    fromMemory: true,
    caution:
      'Fails with kaolinite, smectite, opal and gypsum, and with a sample that is not dry: moisture lowers it.',
  },
  {
    id: 'alunite-position',
    name: 'alunite position',
    formula: 'position(1440, 1550, 1440, 1550)',
    where:
      'group("alunite") >= 0.3 and group("jarosite") < 0.1 and depth(1440, 1550, 1440, 1550) > 0.03',
    unit: 'nm',
    meaning: 'K–Na of alunite: about 1478 potassic, about 1496 sodic.',
    reading: 'potassic 1477.5 and 1478.5; sodic 1495.5',
    usual: [1474, 1500],
    source: 'Chang et al. 2011, Econ. Geol. 106, 1365; readings measured here',
    fromMemory: false,
    caution:
      'Ca and NH4 shift it too; sodic jarosite reads 1477 here. Supergene alunite looks like hypogene alunite: only the evidence in the field tells them apart.',
  },
  {
    id: 'chlorite-position',
    name: 'chlorite position',
    formula: 'position(2235, 2270, 2220, 2290)',
    where:
      'group("chlorite") >= 0.3 and group("epidote") < 0.2 and depth(2235, 2270, 2220, 2290) > 0.02',
    unit: 'nm',
    meaning: 'Fe–OH position of chlorite. Short: magnesian. Long: iron-rich.',
    reading: 'clinochlore 2249; iron-rich chlorite (thuringite) 2259',
    usual: [2244, 2264],
    source: 'McLeod et al. 1987; readings measured here',
    fromMemory: true,
    caution: 'Epidote, biotite and tourmaline absorb near 2250 as well.',
  },
  {
    id: 'carbonate-position',
    name: 'carbonate position',
    formula: 'position(2300, 2370, 2230, 2400)',
    where:
      'group("calcite") + group("dolomite") + group("siderite") + group("rhodochrosite") + group("magnesite") >= 0.3 and group("chlorite") + group("epidote") + group("amphibole") < 0.2 and depth(2300, 2370, 2230, 2400) > 0.03',
    unit: 'nm',
    meaning:
      'Carbonate position: dolomite near 2320, siderite near 2331, calcite near 2340, rhodochrosite near 2358.',
    reading: 'dolomite 2322; siderite 2331; calcite 2340; rhodochrosite 2358',
    usual: [2315, 2360],
    source: 'Gaffey 1986, Am. Min. 71, 151; readings measured here',
    fromMemory: false,
    caution: 'Chlorite near 2325 reads as dolomite, epidote near 2338 as calcite.',
  },
  {
    id: 'mg-oh-position',
    name: 'Mg–OH position',
    formula: 'position(2300, 2350, 2270, 2360)',
    where:
      'group("talc") + group("serpentine") + group("amphibole") + group("biotite–phlogopite") >= 0.3 and group("calcite") + group("dolomite") < 0.1 and depth(2300, 2350, 2270, 2360) > 0.03',
    unit: 'nm',
    meaning:
      'Mg–OH position: talc and amphibole short, serpentine and phlogopite long; within one mineral, longer with more iron.',
    reading:
      'talc 2311 to 2313; tremolite 2312; actinolite 2309 to 2315; antigorite 2317 to 2325; lizardite 2324 to 2327 (finest 2308); phlogopite 2320 to 2322',
    usual: [2305, 2335],
    source: 'Hunt and Salisbury 1970; readings measured here',
    fromMemory: true,
    caution:
      'Read it within one mineral: talc and amphibole overlap, and chlorite and carbonate absorb here too. Amphibole and serpentine can be fibrous: follow the local rules on asbestos before a sample is broken or ground.',
  },
  {
    id: 'epidote-position',
    name: 'epidote position',
    formula: 'position(1535, 1570, 1480, 1600)',
    where: 'group("epidote") >= 0.3 and depth(1535, 1570, 1480, 1600) > 0.02',
    unit: 'nm',
    meaning: 'Position near 1550. Long: aluminous. Short: more ferric iron.',
    reading: 'epidote 1542 to 1547',
    usual: [1540, 1564],
    source:
      'Laukamp et al. 2021, Minerals 11, 347, which gives 1545 to 1563; the search starts at 1535 because library epidotes read 1542 here',
    fromMemory: false,
    caution: 'Shallow in mixtures; prehnite and ammonium minerals absorb nearby.',
  },
]
