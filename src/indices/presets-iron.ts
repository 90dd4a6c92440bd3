/** Presets for iron, ammonium and gypsum. */
import type { IndexPreset } from './presets'

export const IRON_AND_SALTS: readonly IndexPreset[] = [
  {
    id: 'ferric-position',
    name: 'ferric iron position',
    formula: 'position(820, 980, 760, 1050)',
    where:
      'group("hematite") + group("goethite") + group("jarosite") >= 0.2 and depth(820, 980, 760, 1050) > 0.03',
    unit: 'nm',
    meaning:
      'Ferric iron near 900: hematite shorter, goethite longer, jarosite between and beyond.',
    reading:
      'fine hematite 876 to 904; goethite 893 to 909; jarosite 886 to 915; coarse hematite beyond 915',
    usual: [860, 970],
    source: 'Morris et al. 1985, JGR 90, 3126; readings measured here',
    fromMemory: false,
    caution:
      'Fine grains of all three overlap: read it with the bands at 430 and 650 nm or not at all. Coarse grains shift long. A detector join near 1000 nm must be corrected first. The error states noise alone: the band is broad and its hull short.',
  },
  {
    id: 'ferric-depth',
    name: 'ferric iron depth',
    formula: 'depth(820, 980, 760, 1050)',
    where: 'group("hematite") + group("goethite") + group("jarosite") >= 0.2',
    unit: '',
    meaning: 'Depth of the ferric absorption near 900: how oxidised the surface is.',
    reading: 'jarosite 0.17 to 0.38; goethite 0.16 to 0.23; hematite 0.15 to 0.45',
    usual: [0, 0.4],
    source: 'Hunt 1977, Geophysics 42, 501; readings measured here',
    fromMemory: false,
    caution: 'A coating of a few micrometres fills it: look at what the probe touched.',
  },
  {
    id: 'ferrous-slope',
    name: 'ferrous slope',
    formula: 'slope(1000, 1300)',
    where:
      'group("chlorite") + group("amphibole") + group("biotite–phlogopite") + group("siderite") >= 0.3 and group("hematite") + group("goethite") + group("jarosite") < 0.1',
    unit: 'per 1000 nm',
    meaning: 'Rise of reflectance from 1000 to 1300 nm: ferrous iron in silicates and carbonates.',
    reading: 'chlorite 0.1 to 0.5; actinolite 0.3 to 1.3; siderite 0.02 to 0.25',
    usual: [0, 1],
    source: 'Hunt 1977, Geophysics 42, 501; readings measured here',
    fromMemory: false,
    caution:
      'It grows with brightness as much as with iron, and dark fine iron minerals flatten it. Goethite gives a steep one too.',
  },
  {
    id: 'ammonium-depth',
    name: 'ammonium depth',
    formula: 'min(depth(2005, 2045, 1975, 2070), depth(2095, 2150, 2060, 2170))',
    where: 'group("buddingtonite") >= 0.2 and group("alunite") < 0.1',
    unit: '',
    meaning: 'The shallower of the ammonium pair near 2020 and 2120, so that both must be there.',
    reading: 'buddingtonite 0.10; ammonium smectite 0.02; alunite, left out here, 0.05 to 0.07',
    usual: [0, 0.12],
    source: 'Krohn and Altaner 1987, Geophysics 52, 924; readings measured here',
    fromMemory: false,
    caution: 'Alunite absorbs near both. Ammonium in mica and clay is not named by the gate.',
  },
  {
    id: 'gypsum-depth',
    name: 'gypsum depth',
    formula: 'depth(1735, 1760, 1690, 1820)',
    where: 'group("gypsum") >= 0.2',
    unit: '',
    meaning: 'Depth of the gypsum band near 1750, where neither alunite nor water absorbs alone.',
    reading: 'gypsum 0.12 to 0.38, deeper with coarser grain',
    usual: [0, 0.4],
    source: 'Hunt and Salisbury 1971; readings measured here',
    fromMemory: true,
    caution:
      'Depth follows grain size. Gypsum grows on drying core and outcrop: a coating is not alteration.',
  },
]
