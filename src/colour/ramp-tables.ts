/**
 * Perceptually even colour ramps as 65 evenly spaced colours each, six hexadecimal digits a
 * colour. Taken from the published tables of 255 or 256 colours at the same places; straight
 * lines between them stay within 1.4 of every published channel value of 255 (2.2 for
 * cividis, whose blue turns sharply near its dark end).
 */

export const RAMPS = ['viridis', 'cividis', 'batlow', 'lajolla', 'oslo', 'vik'] as const
export type RampName = (typeof RAMPS)[number]

export interface RampTable {
  /** Diverging ramps have a neutral middle and want a stretch that is even about it. */
  readonly kind: 'sequential' | 'diverging'
  readonly source: string
  readonly colours: string
}

const CRAMERI = 'F. Crameri 2021, Scientific colour maps 7.0.1, doi:10.5281/zenodo.5501399, MIT'

/** The tables by name. */
export const RAMP_TABLES: Readonly<Record<RampName, RampTable>> = {
  viridis: {
    kind: 'sequential',
    source: 'S. van der Walt and N. Smith 2015, CC0; from the table in matplotlib 3.6.3',
    colours:
      '44015446065a470d6047136548186a481d6f482374482878472d7b46327e453681443b84424086' +
      '4045873f49893d4e8a3b528b39568c375a8d355e8d33638d31668e2f6a8e2e6e8e2c728e2b768e' +
      '297a8e287d8e26818e25858e23898e228c8d21908c20948c1f988b1e9b8a1f9f8820a38721a685' +
      '24aa8328ae802cb17e31b57b37b8773ebc7445bf704cc26c54c6675dc96365cc5d6ece5878d152' +
      '82d34c8cd64696d83fa0da39abdc32b5de2bc0df24cbe11fd5e21ae0e318eae51af4e61efde725',
  },
  cividis: {
    kind: 'sequential',
    source:
      'Nuñez, Anderton and Renslow 2018, PLoS ONE 13, e0199239, CC0; from the table in matplotlib 3.6.3',
    colours:
      '00224e00255400285b002b62002e6a0030700433711135701a386f213b6e273e6e2d416d32436d' +
      '36466c3b496c3f4c6c434e6c47516c4b546c4f576c52596d565c6d5a5f6e5d626e61656f646770' +
      '686a716b6d726f70737273747576767978777c7b78807e788481798784788b87788f8a78938d78' +
      '9790779b93769f9676a39a75a79d74aba072afa371b3a670b7aa6ebbad6cbfb06bc3b469c8b766' +
      'ccba64d0be61d4c15fd9c55cddc958e1cc55e6d051ead44cefd748f4db42f8df3cfde334fee838',
  },
  batlow: {
    kind: 'sequential',
    source: CRAMERI,
    colours:
      '011959051f5a08255b0b2b5c0d315d0e365e0f3b5f103f60114360124761134b61154f62175262' +
      '1956621b59621e5d6222606126635f2b655e30685c356a593b6d56406f534671504d734d537549' +
      '597745607942667b3e6d7c3b747e387a803482823289842f90862d98882ca0892ba88b2cb08d2e' +
      'b88e31bf9035c7913ace923fd59445dc954ce29753e8985bed9a63f19d6bf59f75f8a27efaa587' +
      'fca891fdab9afdaea2fdb1abfdb4b4fdb7bcfdbac4fdbccdfcbfd6fcc3dffbc6e8fbc9f1faccfa',
  },
  lajolla: {
    kind: 'sequential',
    source: CRAMERI,
    colours:
      'ffffccfffcc5fefabefef7b7fdf5affdf2a8fcefa1fbec9afbe992fae58bf9e184f8dd7cf7d875' +
      'f6d36ff4ce69f3c864f2c360f1be5cefb859eeb357edae56eca955eba454eaa053e99b53e89652' +
      'e79252e68d51e58851e38351e27f50e07a50de754fdc704fd96b4ed5664dd0604ccb5c4bc5574a' +
      'be5349b74f47b04c46a94944a246429b443f94423d8c403a853e377f3b3478393171372e6a352b' +
      '6333285c3124562f214f2c1e492a1b4228183c26153624133022102a200d241e091f1c051a1a01',
  },
  oslo: {
    kind: 'sequential',
    source: CRAMERI,
    colours:
      '010101030609050a10080e160a121b0c151f0d18240d1b290e1e2e0f21330f243910273e112b44' +
      '122e4a13324f14355515395b173c611940671a446d1c48731e4b79214f7f23538626578c2a5b92' +
      '2e5f9932639f3767a53c6cac4271b24876b74f7abc557ebf5b83c36287c5678bc76d8fc87292c9' +
      '7795c97c98ca809bca859eca8aa1ca8fa4c993a7c998aac99dadc9a2b0caa7b4caacb7cab1bbcb' +
      'b6becdbcc3cec2c7d1c7ccd3ced1d7d4d6dbdadcdfe0e1e4e6e7e9ecedeef3f3f4f9f9f9ffffff',
  },
  vik: {
    kind: 'diverging',
    source: CRAMERI,
    colours:
      '001261011865021f6902256d022b71023175023779033e7d034481034a8505518907578d0c5e92' +
      '1366971b6d9c2575a12f7da63b84ac478cb15395b7609dbc6ca5c279adc786b5cd92bdd29fc5d7' +
      'acccddb8d4e2c5dbe6d1e1e9dde6e9e6e7e7ece5e0eee1d9eedacfecd2c4e9cbb9e6c3afe3bba4' +
      'dfb399dcab8fd9a385d69c7bd39571cf8d67cc865ec97f55c6784bc37243c06b3abd6431b85c28' +
      'b3531fad4a16a5400f9c3709942f068b27068321067c1b067415066d1007670a07600408590008',
  },
}
