/**
 * The library records that the built-in set is fitted to: one a sample and grain size, the
 * 2,151-channel measurement where there is one. The fitting script leaves out those that lose a
 * diagnostic position. Names are the library’s own (Kokaly et al. 2017, doi:10.3133/ds1035); the
 * variety is ours.
 */

/** A record and the variety that it stands for, or null. */
export type BuiltInRecord = readonly [record: string, variety: string | null]

const VARIETIES: readonly (readonly [start: string, variety: string])[] = [
  ['Alunite_GDS84_Na03', 'potassic'],
  ['Alunite_HS295', 'potassic'],
  ['Alunite_RES-9', 'potassic, heated to 400 °C'],
  ['Alunite_SUSTDA-20', 'sodic'],
  ['Muscovite_GDS111', 'phengitic'],
  ['Muscovite_GDS116', 'phengitic'],
  ['Muscovite_GDS113', 'aluminous'],
  ['Kaolinite_KGa-2', 'poorly ordered'],
  ['Kaolinite_KL502', 'poorly ordered'],
  ['Kaolinite_CM7', 'well ordered'],
  ['Jarosite_GDS100', 'sodic'],
  ['Jarosite_GDS101', 'sodic'],
  ['Jarosite_GDS635', 'sodic'],
  ['Jarosite_GDS732', 'potassic'],
  ['Jarosite_GDS98', 'potassic'],
  ['Jarosite_JR2501', 'potassic'],
  ['Thuringite', 'iron-rich'],
  ['Prochlorite', 'intermediate'],
  ['Dolomite_ML97-3', 'ferroan'],
  ['Calcite_REE-bearing', 'with rare earths'],
  ['Hornblende_Mg', 'magnesian'],
  ['Hydrogrossular', 'hydrous'],
  ['Elbaite', 'lithium'],
]

const RECORDS = `
Actinolite_HS22.1B_ASDFRb
Actinolite_HS22.2B_ASDFRb
Actinolite_HS22.3B_ASDFRb
Actinolite_HS22.4B_ASDFRb
Actinolite_NMNH80714_BECKb
Actinolite_NMNHR16485_BECKb
Albite_HS143.1B_Plagioclase_ASDFRb
Albite_HS143.2B_Plagioclase_ASDFRc
Albite_HS143.3B_Plagioclase_ASDFRc
Albite_HS143.4B_Plagioclase_ASDFRc
Albite_HS66.1B_Plagioclase_ASDFRc
Albite_HS66.2B_Plagioclase_ASDFRc
Albite_HS66.3B_Plagioclase_BECKc
Albite_HS66.4B_Plagioclase_ASDFRc
Albite_HS66.6_Plagioclase_ASDFRc
Alunite_GDS84_Na03_BECKa
Alunite_HS295.1B_ASDFRa
Alunite_HS295.3B_ASDFRa
Alunite_HS295.4B_ASDFRa
Alunite_HS295.6_ASDFRb
Alunite_HS295_ASDFRa
Alunite_RES-9_Summitv_(400C)_ASDNGb
Alunite_SUSTDA-20_BECKb
Ammonio-Illite-Smect_GDS87_BECKb
Ammonio-Jarosite_SCF-NHJ_BECKa
Ammonio-Smectite_GDS86_BECKb
Analcime_GDS1_Zeolite_BECKa
Andalusite_NMNHR17898_BECKc
Andradite_GDS12_Garnet_BECKc
Andradite_HS111.1B_Garnet_ASDFRb
Andradite_HS111.2B_Garnet_ASDFRb
Andradite_HS111.3B_Garnet_ASDFRb
Andradite_HS111.4B_Garnet_ASDFRb
Andradite_HS111.6_Garnet_ASDFRb
Andradite_WS488_Garnet_BECKc
Anhydrite_GDS42_lt250um_BECKa
Antigorite_NMNH96917.a_gt250_ASDNGb
Antigorite_NMNH96917.b_165um_ASDNGb
Antigorite_NMNH96917.c_120um_BECKb
Antigorite_NMNH96917.d_70um_BECKb
Antigorite_NMNH96917.e_32um_BECKb
Antigorite_NMNH96917.f_lt30um_BECKb
Aragonite_GDS1073_ASDNGc
Axinite_HS342.1B_ASDFRb
Axinite_HS342.2B_ASDFRb
Axinite_HS342.3B_ASDFRb
Axinite_HS342.4B_ASDFRb
Axinite_HS342.6_ASDFRb
Azurite_WS316_BECKa
Barite_HS79.3B_BECKb
Bassanite_GDS145_(syn)_BECKa
Beidellite_GDS124_ASDFRb
Biotite_HS28.3B_BECKa
Brucite_HS247.1B_ASDFRc
Brucite_HS247.2B_ASDFRc
Brucite_HS247.3B_ASDFRc
Brucite_HS247.4B_ASDFRc
Buddingtonite_GDS85_D-206_BECKb
Butlerite_GDS25_BECKa
Calcite_CO2004_BECKb
Calcite_GDS304_75-150um_ASDFRb
Calcite_REE-bearing_WS319a_ASDFRb
Chalcedony_CU91-6A_ASDNGa
Chlorite_HS179.1B_ASDFRb
Chlorite_HS179.2B_ASDFRb
Chlorite_HS179.3B_ASDFRb
Chlorite_HS179.4B_ASDFRb
Chlorite_HS179.6_ASDFRb
Chlorite_SMR-13.a_104-150um_BECKa
Chlorite_SMR-13.b_60-104um_BECKa
Chlorite_SMR-13.c_45-60um_BECKa
Chlorite_SMR-13.d_30-45um_BECKa
Chlorite_SMR-13.e_lt30um_BECKb
Chrysocolla_HS297.1B_ASDFRb
Chrysocolla_HS297.2B_ASDFRb
Chrysocolla_HS297.3B_ASDFRb
Chrysocolla_HS297.4B_ASDFRb
Chrysotile_HS323.1B_ASDNGa
Chrysotile_ML99-12A_Coar_Fib_ASDFRb
Clinochlore_GDS158_Flagstaff_ASDNGb
Clinochlore_GDS159_BECKb
Clinochlore_NMNH83369_BECKb
Clinoptilolite_GDS2_Zeolite_BECKb
Cookeite_CAr-1.a_104-150um_BECKb
Cookeite_CAr-1.b_60-104um_BECKb
Cookeite_CAr-1.c_lt30um_BECKb
Copiapite_GDS21_BECKb
Coquimbite_GDS22_BECKc
Corrensite_CorWa-1_BECKb
Cuprite_HS127.2B_ASDFRb
Cuprite_HS127.3B_ASDFRb
Cuprite_HS127.4B_ASDFRb
Diaspore_HS416.1B_ASDFRb
Diaspore_HS416.2B_ASDFRb
Diaspore_HS416.3B_ASDFRb
Diaspore_HS416.4B_ASDFRb
Diaspore_HS416.6_ASDFRb
Dickite_NMNH46967_BECKa
Diopside_HS15.1B_pyroxene_ASDFRc
Diopside_HS317.1B_(Cr)Pyx_ASDFRc
Diopside_HS317.2B_(Cr)Pyx_ASDFRc
Diopside_HS317.3B_(Cr)Pyx_ASDFRc
Diopside_HS317.4B_(Cr)Pyx_ASDFRc
Diopside_HS317.6_(Cr)Pyx_ASDFRc
Dolomite_HS102.1B_ASDNGb
Dolomite_HS102.3B_ASDNGb
Dolomite_HS102.4B_ASDNGb
Dolomite_ML97-3_Ferroan_ASDFRb
Dumortierite_HS190.3B_BECKc
Elbaite_NMNH94217-1.a_659_BECKb
Elbaite_NMNH94217-1.b_196_BECKb
Elbaite_NMNH94217-1.c_lt74_BECKb
Epidote_BR93-33a_BECKb
Epidote_GDS26.a_75-200um_ASDNGb
Epidote_GDS26.b_lt75um_ASDNGb
Ferrihydrite_GDS75_Syn_F6_BECKb
Gibbsite_HS423.1B_ASDFRb
Gibbsite_HS423.2B_ASDFRb
Gibbsite_HS423.3B_ASDFRb
Gibbsite_HS423.4B_ASDFRb
Gibbsite_HS423.6_ASDFRb
Glauconite_HS313.1B_ASDFRc
Glauconite_HS313.3B_ASDFRc
Glauconite_HS313.4B_ASDFRc
Glauconite_HS313.6_ASDFRc
Goethite_GDS134_ASDFRb
Goethite_MPCMA2-B_FineGr_adj_BECKb
Goethite_WS222_Coarse_Gr._BECKa
Goethite_WS222_Medium_Gr._BECKa
Grossular_NMNH155371_Garnet_BECKb
Grossular_WS483_Garnet_BECKb
Grossular_WS484_Garnet_BECKb
Gypsum_HS333.1B_(Selenite)_ASDFRa
Gypsum_HS333.2B_(Selenite)_ASDFRa
Gypsum_HS333.3B_(Selenite)_ASDFRa
Gypsum_HS333.4B_(Selenite)_ASDFRa
Halloysite_NMNH106236_BECKa
Halloysite_NMNH106237_ASDNGa
Hectorite_SHCa-1.Ac-B_BECKb
Hematite_FE2602_BECKb
Hematite_GDS27_BECKa
Hematite_GDS69.a_150-250u_BECKb
Hematite_GDS69.b_104-150u_BECKb
Hematite_GDS69.c_60-104um_BECKb
Hematite_GDS69.d_30-45um_BECKb
Hematite_GDS69.e_20-30um_BECKb
Hematite_GDS69.f_10-20um_BECKb
Hematite_GDS69.g_lt10um_BECKb
Heulandite_GDS3_BECKa
Hornblende_Mg_NMNH117329_BECKb
Hydrogrossular_NMNH120555_BECKb
Illite_GDS4.2_Marblehead_ASDNGb
Illite_GDS4_Marblehead_ASDNGb
Illite_IMt-1.a_ASDNGb
Illite_IMt-1.b_lt2um_ASDNGa
Jarosite_GDS100_Na_90C_Syn_BECKa
Jarosite_GDS101_Na_200C_Syn_BECKa
Jarosite_GDS635_Na_Cyprus_ASDNGa
Jarosite_GDS732_K_200CSyn6hr_ASDNGb
Jarosite_GDS98_K_90C_Syn_BECKa
Jarosite_JR2501_(K)_BECKb
Kaolinite_CM7_BECKb
Kaolinite_GDS11_lt63um_BECKb
Kaolinite_KGa-2_(pxl)_ASDNGb
Kaolinite_KL502_(pxl)_BECKb
Laumontite_GDS5_Zeolite_BECKb
Lepidocrocite_GDS80_(Syn)_BECKb
Lepidolite_HS167.1B_ASDFRb
Lepidolite_HS167.2B_ASDFRb
Lepidolite_HS167.3B_ASDFRb
Lepidolite_HS167.4B_ASDFRb
Lepidolite_HS167.6_ASDFRb
Lepidolite_NMNH105538_BECKb
Lizardite_NMNHR4687.a_280um_BECKa
Lizardite_NMNHR4687.b_165um_BECKa
Lizardite_NMNHR4687.c_70um_BECKa
Lizardite_NMNHR4687.d_lt30um_BECKb
Magnetite_HS78.1B_ASDFRb
Magnetite_HS78.2B_ASDFRb
Magnetite_HS78.3B_ASDFRb
Magnetite_HS78.4B_ASDFRb
Malachite_HS254.1B_ASDFRb
Malachite_HS254.2B_ASDFRb
Malachite_HS254.3B_ASDFRb
Malachite_HS254.4B_ASDFRb
Margarite_GDS106_BECKc
Microcline_HS103.1B_Feldspar_ASDFRc
Microcline_HS103.2B_Feldspar_ASDFRc
Microcline_HS103.3B_Feldspar_ASDFRc
Microcline_HS103.4B_Feldspar_ASDFRc
Microcline_HS103.6_Feldspar_ASDFRc
Microcline_HS151.1B_Feldspar_ASDFRc
Microcline_HS151.2B_Feldspar_ASDFRc
Microcline_HS151.3B_Feldspar_ASDFRc
Microcline_HS151.4B_Feldspar_ASDFRc
Microcline_HS151.6_Feldspar_ASDFRc
Microcline_NMNH135231_Fspar_BECKc
Montmorillonite_CM20_BECKb
Montmorillonite_CM27_BECKb
Montmorillonite_SCa-2.a_BECKb
Montmorillonite_SCa-2.b_BECKb
Montmorillonite_STx-1_BECKb
Mordenite_GDS18_BECKb
Muscovite_GDS108_BECKb
Muscovite_GDS111_Guatemala_BECKa
Muscovite_GDS113_Ruby_ASDNGa
Muscovite_GDS113a_Ruby_ASDNGa
Muscovite_GDS116_Tanzania_ASDNGa
Muscovite_GDS116a_Tanzania_ASDNGa
Muscovite_GDS118_Capitan_BECKa
Muscovite_HS24.3_BECKb
Muscovite_IL107_BECKb
Nacrite_GDS88_BECKc
Natrolite_HS169.1B_Zeolite_ASDFRb
Nontronite_NG-1.a_ASDNGb
Nontronite_NG-1.b_lt2um_fr_BECKb
Opal_TM8896_(Hyalite)_ASDNGa
Palygorskite_CM46a_Attapulg_BECKb
Paragonite_GDS109_BECKa
Phlogopite_WS496_BECKb
Phlogopite_WS675_BECKb
Prehnite_GDS613.a_lt60um_ASDFRa
Prehnite_GDS613.b_gt60um_ASDFRa
Prochlorite_SMR-14.a_115um_BECKa
Prochlorite_SMR-14.b_32um_BECKa
Prochlorite_SMR-14.c_lt30um_BECKa
Pyrite_HS35.3_BECKb
Pyrite_S142-1_BECKc
Pyrite_S29-4_BECKc
Pyrophyllite_SU1421_BECKb
Quartz_GDS74_Sand_Ottawa_BECKc
Quartz_HS32.1B_ASDFRc
Quartz_HS32.2B_ASDFRc
Quartz_HS32.3B_ASDFRc
Quartz_HS32.4B_BECKa
Rectorite_RAr-1_BECKd
Rhodochrosite_HS338.3B_BECKb
Rhodochrosite_HS338.6_ASDFRb
Roscoelite_EN124_BECKb
Saponite_SapCa-1.AcB_BECKb
Saponite_SapCa-1_BECKb
Sauconite_GDS135_BECKb
Schwertmannite_BZ93-1_BECKb
Scolecite_GDS7_Zeolite_BECKb
Sepiolite_SepSp-1.AcB_BECKb
Sepiolite_SepSp-1_BECKb
Serpentine_HS8.1B_ASDFRc
Serpentine_HS8.2B_ASDFRc
Serpentine_HS8.3B_ASDFRc
Serpentine_HS8.4B_ASDFRc
Serpentine_HS8.6_ASDFRc
Siderite_HS271.1B_ASDFRa
Siderite_HS271.2B_ASDFRa
Siderite_HS271.3B_ASDFRa
Siderite_HS271.4B_ASDFRa
Sphene_HS189.3B_BECKb
Stilbite_HS482.1B_Zeolite_ASDFRb
Strontianite_HS272.1B_ASDFRb
Strontianite_HS272.2B_ASDFRb
Strontianite_HS272.3B_ASDFRb
Strontianite_HS272.4B_ASDFRb
Talc_HS21.1B_ASDFRb
Talc_HS21.2B_ASDFRb
Talc_HS21.3B_ASDFRb
Talc_HS21.4B_ASDFRb
Talc_TL2702_BECKa
Thuringite_SMR-15.a_115um_BECKb
Thuringite_SMR-15.b_80um_BECKa
Thuringite_SMR-15.d_lt30um_BECKa
Topaz_Cameron_Cone_#42_BECKb
Topaz_Glen_Cove_#6_BECKb
Topaz_Glen_Cove_#8_BECKb
Topaz_HS184.1B_ASDFRb
Topaz_Harris_Park_#17_BECKb
Topaz_Jos_#22_BECKb
Topaz_Little_3_Mine_#41_BECKb
Topaz_Mt_Antero_#5_BECKb
Topaz_Wigwam_Area_3_#13_BECKb
Topaz_Wigwam_Area_4_#14_BECKb
Topaz_Wigwam_Area_5_#15_BECKb
Tourmaline_HS282.2B_BECKc
Tremolite_HS18.1B_ASDFRc
Tremolite_HS18.2B_ASDFRc
Tremolite_HS18.3B_ASDFRc
Tremolite_HS18.4B_ASDFRc
Trona_GDS148_BECKa
Vermiculite_GDS13_Llano_BECKa
Vermiculite_VTx-1.a_lt250um_BECKb
Vermiculite_VTx-1.fls_BECKb
Vesuvianite_HS446.1B_Idocras_ASDFRa
Wollastonite_HS348.1B_ASDFRc
Wollastonite_HS348.2B_ASDFRc
Wollastonite_HS348.3B_ASDFRc
Wollastonite_HS348.4B_ASDFRb
Zoisite_HS347.1B_ASDFRb
Zoisite_HS347.2B_ASDFRb
Zoisite_HS347.3B_ASDFRb
Zoisite_HS347.4B_ASDFRb
Zunyite_GDS241B_lt150um_BECKu
`

/** The built-in set's records, in order. */
export const BUILT_IN_RECORDS: readonly BuiltInRecord[] = RECORDS.trim()
  .split('\n')
  .map((record) => [record, VARIETIES.find(([start]) => record.startsWith(start))?.[1] ?? null])
