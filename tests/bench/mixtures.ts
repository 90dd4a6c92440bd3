/** The weights of the shared mixtures as their names give them. */

/** One prepared mixture: its record and the weight fraction of each group. */
export interface PreparedMixture {
  readonly record: string
  readonly weights: Readonly<Record<string, number>>
}

/**
 * Read by eye from the record names of the USGS Spectral Library Version 7 (Kokaly et al. 2017):
 * where a name gives one fraction, the other part has the rest. Records that state no fractions
 * (natural rocks, coatings, mixed-layer clays' unknown partners) are left out.
 */
const WEIGHTS: readonly (readonly [start: string, weights: Readonly<Record<string, number>>])[] = [
  ['Alun.33+Kaol.33+Musc.33', { alunite: 0.33, kaolin: 0.33, 'white mica': 0.33 }],
  ['Alun0.3+Musc0.4+Pyro0.3', { alunite: 0.3, 'white mica': 0.4, pyrophyllite: 0.3 }],
  ['Alun366+.50PyroPYS1A', { alunite: 0.5, pyrophyllite: 0.5 }],
  ['Alunite.5+MuscCU91-250A', { alunite: 0.5, 'white mica': 0.5 }],
  ['Alunite0.35K+.65Na', { alunite: 1 }],
  ['Calc.25+Dolo.25+Ca-Mont', { calcite: 0.25, dolomite: 0.25, smectite: 0.5 }],
  ['Calcite+.33Muscov', { calcite: 0.67, 'white mica': 0.33 }],
  ['Calcite.33+Epidote.67', { calcite: 0.33, epidote: 0.67 }],
  ['Calcite.5+.Na-Mont.5', { calcite: 0.5, smectite: 0.5 }],
  ['Calcite.5+Dolomite.5', { calcite: 0.5, dolomite: 0.5 }],
  ['Calcite.7+Kaolin-wxl.3', { calcite: 0.7, kaolin: 0.3 }],
  ['Calcite.8+Ca-Montmor.2', { calcite: 0.8, smectite: 0.2 }],
  ['Calcite.80+Mont_Swy-1', { calcite: 0.8, smectite: 0.2 }],
  ['Chlor.2+Epid.6+Calc.2', { chlorite: 0.2, epidote: 0.6, calcite: 0.2 }],
  ['Chlor.6+Epid.2+Calc.2', { chlorite: 0.6, epidote: 0.2, calcite: 0.2 }],
  ['Chlorite.33+Epidot.67', { chlorite: 0.33, epidote: 0.67 }],
  ['Chlorite.67+Calcit.33', { chlorite: 0.67, calcite: 0.33 }],
  ['Chlorite.67+Epidot.33', { chlorite: 0.67, epidote: 0.33 }],
  ['Dolomite.5+Na-Mont.5', { dolomite: 0.5, smectite: 0.5 }],
  ['Gyp.3+jr.1+msc.4+dic.2', { gypsum: 0.3, jarosite: 0.1, 'white mica': 0.4, kaolin: 0.2 }],
  ['Kaol_Wxl+0.5Musc_Ruby', { kaolin: 0.5, 'white mica': 0.5 }],
  ['Kaolin-Smect_KLF511_.12Kaol', { kaolin: 0.12, smectite: 0.88 }],
  ['Kaolin_Smect_H89-FR-2_.5Kaol', { kaolin: 0.5, smectite: 0.5 }],
  ['Kaolin_Smect_H89-FR-5_.3Kaol', { kaolin: 0.3, smectite: 0.7 }],
  ['Kaolin_Smect_KLF508_.85Kaol', { kaolin: 0.85, smectite: 0.15 }],
  ['Kaolwxl.75+Alun_HS295', { kaolin: 0.75, alunite: 0.25 }],
]

/** The mixture that a record is, or null where its name states no weights. */
export function mixtureOf(record: string): PreparedMixture | null {
  const found = WEIGHTS.find(([start]) => record.startsWith(start))
  return found ? { record, weights: found[1] } : null
}
