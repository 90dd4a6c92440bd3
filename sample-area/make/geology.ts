/**
 * The invented geology: what the rock is made of at each place and depth.
 *
 * A lithocap over an unseen stock: vuggy silica, then alunite with pyrophyllite and dickite,
 * kaolinite, white mica whose Al–OH absorption lengthens outward, and a chlorite, epidote and
 * calcite halo. A later fault carries supergene kaolinite and alunite through rocks that have
 * nothing to do with the centre.
 */
import type { GroundPoint } from './place'
import { roughness } from './roughness'

/** The centre of the lithocap, metres. */
export const CENTRE: GroundPoint = { x: 472750, y: 7245720 }
/** Half axes of the ellipse on which the distance index is 1, metres; the longer points to N70E. */
const LONG_AXIS = 1050
const SHORT_AXIS = 820
const STRIKE = (70 * Math.PI) / 180

/** The later fault, from south to north. */
export const FAULT: readonly GroundPoint[] = [
  { x: 474180, y: 7244000 },
  { x: 474060, y: 7244700 },
  { x: 474110, y: 7245500 },
  { x: 473960, y: 7246200 },
  { x: 473900, y: 7247000 },
]
/** How far supergene clay reaches on each side of the fault, metres. */
function faultHalfWidth({ x, y }: GroundPoint): number {
  return 58 + 60 * roughness(x, y, 300, 2, 29)
}

/** The zones, from the centre outward; the last is the fault's. */
export const ZONES = [
  'silica',
  'alunite',
  'pyrophyllite',
  'dickite',
  'kaolinite',
  'white mica',
  'chlorite',
  'epidote',
  'calcite',
  'supergene fault',
] as const
export type Zone = (typeof ZONES)[number]

/** Outer limits of the zones on the distance index. */
const LIMITS = { silica: 0.2, alunite: 0.58, kaolinite: 0.72, mica: 1.4 } as const

/** Metres along and across the strike, over the half axes. */
function stretched({ x, y }: GroundPoint): [along: number, across: number] {
  const dx = x - CENTRE.x
  const dy = y - CENTRE.y
  return [
    (dx * Math.sin(STRIKE) + dy * Math.cos(STRIKE)) / LONG_AXIS,
    (dx * Math.cos(STRIKE) - dy * Math.sin(STRIKE)) / SHORT_AXIS,
  ]
}

/** Distance from the centre as heat and fluid saw it: 0 there, 1 about 950 m out; gently uneven. */
function smoothIndex(point: GroundPoint): number {
  return Math.hypot(...stretched(point)) * (1 + 0.22 * roughness(point.x, point.y, 1300, 1, 3))
}

/** The same as the zones see it: their contacts wander. */
export function distanceIndex(point: GroundPoint): number {
  return smoothIndex(point) + 0.3 * roughness(point.x, point.y, 520, 4, 5)
}

/** Distance from the silica, which stands as a ledge along the strike. */
export function silicaIndex(point: GroundPoint): number {
  const [along, across] = stretched(point)
  return Math.hypot(along * 0.72, across * 1.45) + 0.2 * roughness(point.x, point.y, 260, 3, 13)
}

/**
 * The true Al–OH position of white mica, nm, wherever white mica is: lengthening outward from
 * 2194 to about 2214 with the distance index, with a gentle roll of 0.8 nm.
 */
export function micaPosition(point: GroundPoint): number {
  const outward = clamp((smoothIndex(point) - 0.62) / 0.86)
  return 2194.5 + 18.5 * outward + 0.8 * Math.sin(point.x / 420 + 1) * Math.sin(point.y / 380)
}

/** How sodic the alunite is, 0 (potassic) to 1 (sodic): rising to the east, over the unseen stock. */
export function alunitePart(point: GroundPoint): number {
  return clamp((point.x - CENTRE.x + 380) / 760 + 0.12 * Math.sin(point.y / 120))
}

/** The zone on the ground. */
export function zoneAt(point: GroundPoint): Zone {
  const d = distanceIndex(point)
  if (d > 0.85 && distanceToFault(point) < faultHalfWidth(point)) return 'supergene fault'
  if (silicaIndex(point) < LIMITS.silica) return 'silica'
  if (d < LIMITS.alunite) return advancedArgillic(point)
  if (d < LIMITS.kaolinite) return 'kaolinite'
  if (d < LIMITS.mica) return 'white mica'
  return propylitic(point, d)
}

/** Pyrophyllite on the southern and dickite on the northern flank of the alunite. */
function advancedArgillic(point: GroundPoint): Zone {
  const across = stretched(point)[1]
  const wander = 0.55 * roughness(point.x, point.y, 330, 3, 17)
  if (across + wander > 0.36) return 'pyrophyllite'
  return across + wander < -0.4 ? 'dickite' : 'alunite'
}

/** Chlorite next to the white mica, then epidote and calcite in patches. */
function propylitic(point: GroundPoint, d: number): Zone {
  const patch = roughness(point.x, point.y, 640, 3, 19)
  if (d < 1.55) return 'chlorite'
  return patch > 0.06 ? 'epidote' : patch < -0.17 ? 'calcite' : 'chlorite'
}

/** The zone at a depth in metres below the ground: the lithocap passes into white mica downward. */
export function zoneBelow(point: GroundPoint, depth: number): Zone {
  const here = zoneAt(point)
  if (here === 'supergene fault') return depth < 90 ? here : 'white mica'
  const d = distanceIndex(point)
  if (d < LIMITS.kaolinite) {
    const base = 150 + 25 * Math.sin(point.x / 60) + 20 * Math.sin(depth / 23)
    if (depth < base - 45) return here
    return depth < base ? 'pyrophyllite' : 'white mica'
  }
  if (d < LIMITS.mica) return depth > 210 ? 'chlorite' : 'white mica'
  return here
}

/** The true position of white mica in a hole, nm: shorter with depth, toward the unseen stock. */
export function micaPositionBelow(point: GroundPoint, depth: number): number {
  return Math.max(2193.5, micaPosition(point) - 0.018 * depth)
}

/** Metres to the later fault. */
function distanceToFault(point: GroundPoint): number {
  let least = Infinity
  for (let i = 0; i + 1 < FAULT.length; i++) {
    least = Math.min(least, distanceToSegment(point, FAULT[i], FAULT[i + 1]))
  }
  return least
}

function distanceToSegment(p: GroundPoint, a: GroundPoint, b: GroundPoint): number {
  const dx = b.x - a.x
  const dy = b.y - a.y
  const t = clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy))
  return Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy)
}

/** `t` held between 0 and 1. */
export function clamp(t: number): number {
  return Math.min(1, Math.max(0, t))
}
