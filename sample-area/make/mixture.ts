/** What a scan looked at: parts by mass of minerals and of rock that shows nothing here. */
import {
  alunitePart,
  clamp,
  distanceIndex,
  micaPosition,
  micaPositionBelow,
  zoneAt,
  zoneBelow,
  type Zone,
} from './geology'
import { chanceFor, type Chance } from './chance'
import type { GroundPoint } from './place'
import type { Spot } from './sampling'

/** What rocks of the area are mixed of; `host` is quartz and feldspar, `sulfide` dark grains. */
export const INGREDIENTS = [
  'host',
  'sulfide',
  'alunite',
  'pyrophyllite',
  'dickite',
  'kaolinite',
  'white mica',
  'chlorite',
  'epidote',
  'calcite',
  'goethite',
  'hematite',
  'jarosite',
] as const
export type Ingredient = (typeof INGREDIENTS)[number]
type Parts = Partial<Record<Ingredient, number>>

export interface Mixture {
  readonly zone: Zone
  /** Parts by mass; they sum to 1. */
  readonly parts: Parts
  /** Al–OH position of the pure white mica, nm; null where there is none. */
  readonly micaPosition: number | null
  /** 0 potassic to 1 sodic; null where there is no alunite. */
  readonly sodic: number | null
}

/** The scan of the white panel has no rock in it. */
export const NO_ROCK: Mixture = { zone: 'silica', parts: {}, micaPosition: null, sodic: null }

const ZONE_PARTS: Record<Exclude<Zone, 'supergene fault'>, Parts> = {
  silica: { hematite: 0.002 },
  alunite: { alunite: 0.42, kaolinite: 0.05 },
  pyrophyllite: { pyrophyllite: 0.4, alunite: 0.06 },
  dickite: { dickite: 0.42, alunite: 0.05 },
  kaolinite: { kaolinite: 0.42 },
  'white mica': { 'white mica': 0.46 },
  chlorite: { chlorite: 0.42, epidote: 0.04 },
  epidote: { epidote: 0.46, chlorite: 0.06 },
  calcite: { calcite: 0.5, chlorite: 0.06 },
}

/** The mixtures of a spot's scans: one rock, and small differences from scan to scan. */
export function mixturesAt(spot: Spot, scans: number): Mixture[] {
  const chance = chanceFor(`rock ${spot.name}`)
  const underground = spot.hole !== null
  const zone = underground ? zoneBelow(spot.point, spot.depth) : zoneAt(spot.point)
  const rock = vary(meanParts(zone, spot, chance), chance, 0.2)
  const position = underground
    ? micaPositionBelow(spot.point, spot.depth)
    : micaPosition(spot.point)
  return Array.from({ length: scans }, () => {
    const parts = complete(vary(rock, chance, 0.08), chance)
    return {
      zone,
      parts,
      micaPosition: parts['white mica'] ? position + 0.25 * chance.normal() : null,
      sodic: parts.alunite ? sodicAt(zone, spot.point, chance) : null,
    }
  })
}

/** The mean share of white mica by mass on the ground, for the truth's grid. */
export function meanMica(point: GroundPoint): number {
  const zone = zoneAt(point)
  if (zone === 'supergene fault') return 0
  return gradual(zone, distanceIndex(point))['white mica'] ?? 0
}

function meanParts(zone: Zone, spot: Spot, chance: Chance): Parts {
  if (zone === 'supergene fault') return supergene(chance)
  const parts = spot.hole ? { ...ZONE_PARTS[zone] } : gradual(zone, distanceIndex(spot.point))
  return { ...parts, ...ironOf(zone, spot, chance) }
}

/** Neighbouring zones overlap: white mica reaches into kaolinite and chlorite, and they into it. */
function gradual(zone: Zone, d: number): Parts {
  if (zone === 'supergene fault') return {}
  const parts: Parts = { ...ZONE_PARTS[zone] }
  if (zone === 'kaolinite') {
    parts['white mica'] = 0.12 * clamp((d - 0.66) / 0.06)
    parts.alunite = 0.1 * clamp((0.63 - d) / 0.05)
  }
  if (zone === 'white mica') {
    parts.kaolinite = 0.1 * clamp((0.83 - d) / 0.11)
    parts.chlorite = 0.12 * clamp((d - 1.22) / 0.18)
  }
  if (zone === 'chlorite') parts['white mica'] = 0.12 * clamp((1.55 - d) / 0.15)
  return parts
}

/** Weathered sulfide made acid along the fault: kaolinite, or alunite where it dried. */
function supergene(chance: Chance): Parts {
  return chance.uniform() < 0.5
    ? { kaolinite: 0.45, alunite: 0.04, jarosite: 0.008 }
    : { alunite: 0.4, kaolinite: 0.08, jarosite: 0.012 }
}

/** Supergene alunite here is potassic; the hypogene one runs from potassic to sodic. */
function sodicAt(zone: Zone, point: GroundPoint, chance: Chance): number {
  const mean = zone === 'supergene fault' ? 0.06 : alunitePart(point)
  return clamp(mean + 0.03 * chance.normal())
}

/** Iron oxides of the leached cap on high ground, ironstone on some silica; pyrite in the core. */
function ironOf(zone: Zone, spot: Spot, chance: Chance): Parts {
  if (spot.hole) return spot.depth > 70 ? { sulfide: 0.03 } : { goethite: 0.006 }
  if (spot.target === 'coating') return { goethite: 0.12 }
  if (zone === 'silica') return chance.uniform() < 0.45 ? ironstone(chance) : {}
  const capped = clamp((spot.height - 3130) / 120)
  const kind = chance.uniform()
  const amount = (0.004 + 0.016 * chance.uniform()) * capped
  if (amount < 0.001) return { goethite: 0.002 * chance.uniform() }
  if (kind < 0.45) return { goethite: amount }
  return kind < 0.75 ? { hematite: amount * 0.6 } : { jarosite: amount }
}

function ironstone(chance: Chance): Parts {
  const kind = chance.uniform()
  if (kind < 0.4) return { goethite: 0.16 }
  return kind < 0.75 ? { hematite: 0.1 } : { jarosite: 0.22 }
}

/** Multiplies each part by a lognormal factor. */
function vary(parts: Parts, chance: Chance, spread: number): Parts {
  const varied: Parts = {}
  for (const ingredient of INGREDIENTS) {
    const part = parts[ingredient]
    if (part) varied[ingredient] = part * Math.exp(spread * chance.normal())
  }
  return varied
}

/** Fills up to 1 with rock that shows nothing, some of it dark. */
function complete(parts: Parts, chance: Chance): Parts {
  const dark = (parts.sulfide ?? 0) + 0.004 * chance.uniform()
  const shown = INGREDIENTS.reduce(
    (sum, name) => sum + (name === 'host' || name === 'sulfide' ? 0 : (parts[name] ?? 0)),
    0,
  )
  const scale = Math.min(1, (0.9 - dark) / shown)
  const filled: Parts = { sulfide: dark }
  for (const name of INGREDIENTS) {
    if (name !== 'sulfide' && parts[name]) filled[name] = parts[name] * scale
  }
  filled.host = 1 - dark - shown * scale
  return filled
}
