/** Presets for kaolin and for water. */
import type { IndexPreset } from './presets'

export const KAOLIN_AND_WATER: readonly IndexPreset[] = [
  {
    id: 'kaolin-order',
    name: 'kaolin order',
    formula: 'reflectance(2180) / reflectance(2165)',
    where:
      'group("kaolin") >= 0.5 and group("alunite") < 0.1 and group("pyrophyllite") < 0.1 and depth(2190, 2220, 2120, 2250) > 0.05',
    unit: '',
    meaning:
      'The shoulder near 2165 against the rise before 2206. Above 1: a clear doublet, ordered kaolinite. Well below 1: a slope without a doublet, poorly ordered kaolinite or halloysite.',
    reading: 'kaolinite 0.99 to 1.03; halloysite 0.94 to 0.97; dickite 0.91; nacrite 0.85',
    usual: [0.9, 1.05],
    source: 'after Crowley and Vergo 1988, Clays Clay Min. 36, 310; this ratio is ours',
    fromMemory: false,
    caution:
      'For kaolinite alone: dickite and nacrite have their doublet elsewhere and read low though they are well ordered. White mica in the mixture lowers it. Supergene kaolinite looks like hypogene kaolinite.',
  },
  {
    id: 'kaolin-hydroxyl-width',
    name: 'kaolin hydroxyl width',
    formula: 'width(1375, 1425, 1350, 1460)',
    where:
      'group("kaolin") >= 0.5 and group("smectite") < 0.1 and depth(1375, 1425, 1350, 1460) > 0.05',
    unit: 'nm',
    meaning:
      'Width of the hydroxyl group near 1400. Dickite and nacrite have a pair so far apart that one band is measured alone and narrow; in kaolinite and halloysite the pair runs together.',
    reading: 'dickite 13; nacrite 17; kaolinite 33 to 39; halloysite 44 to 47',
    usual: [10, 50],
    source: 'Crowley and Vergo 1988, Clays Clay Min. 36, 310; readings measured here',
    fromMemory: false,
    caution:
      'Few records stand behind the readings. Moisture, mica and alunite widen or hide the group.',
  },
  {
    id: 'water-depth',
    name: 'molecular water',
    formula: 'depth(1890, 1960, 1830, 2120)',
    where:
      'group("gypsum") < 0.1 and group("zeolite") < 0.1 and group("opal") < 0.1 and group("smectite") < 0.1',
    unit: '',
    meaning:
      'Depth of the water band near 1900 where no named mineral holds molecular water: illite, fluid inclusions or a damp sample.',
    reading:
      'muscovite 0.01 to 0.1; illite 0.07 to 0.4; montmorillonite, left out here, 0.46 to 0.7',
    usual: [0, 0.4],
    source: 'Hunt 1977, Geophysics 42, 501; readings measured here',
    fromMemory: false,
    caution:
      'A wet sample shows broad bands at 1450 and 1930 to 1950 and darkens: dry it and scan again before this is read as geology.',
  },
]
