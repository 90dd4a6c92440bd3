/** The mapped geology: units that fill the area, a fault, and a patch of cover. */
import type { Feature, FeatureCollection, Position } from 'geojson'
import { CENTRE, FAULT, silicaIndex } from './geology'
import { AREA, AREA_NAME, STATEMENT, toPosition, type GroundPoint } from './place'

interface Unit {
  readonly name: string
  readonly age: string
  readonly lithology: string
  /** `unit` or `cover`. */
  readonly kind: 'unit' | 'cover'
  /** The outer ring and its holes, not closed. */
  readonly rings: readonly (readonly GroundPoint[])[]
}

/** Corner of the plain covered by gravel, from the west edge round to the south edge. */
const GRAVEL_EDGE: readonly GroundPoint[] = Array.from({ length: 13 }, (_, i) => {
  const t = ((i / 12) * Math.PI) / 2
  const r = 1 + 0.06 * Math.sin(5 * t)
  return {
    x: AREA.west + 980 * Math.sin(t) * (i === 0 ? 0 : r),
    y: AREA.south + 860 * Math.cos(t) * (i === 12 ? 0 : r),
  }
})

/** The contact of the tuff over the andesite, from west to east. */
const TUFF_BASE: readonly GroundPoint[] = Array.from({ length: 21 }, (_, i) => {
  const x = AREA.west + 200 * i
  return { x, y: 7246330 + 70 * Math.sin(x / 470) + 25 * Math.sin(x / 160) }
})

const BRECCIA = contourOfSilica(0.21)
const PORPHYRY = blob({ x: 473390, y: 7245330 }, 290, 190)

const corner = (x: number, y: number): GroundPoint => ({ x, y })

/** The units, the youngest last; a place belongs to the last that holds it. */
const UNITS: readonly Unit[] = [
  {
    name: 'Ossuna andesite',
    age: 'Late Cretaceous',
    lithology: 'andesite',
    kind: 'unit',
    rings: [
      [...[...GRAVEL_EDGE].reverse(), ...TUFF_BASE, corner(AREA.east, AREA.south)],
      BRECCIA,
      PORPHYRY,
    ],
  },
  {
    name: 'Ketrel tuff',
    age: 'Paleocene',
    lithology: 'dacite tuff',
    kind: 'unit',
    rings: [
      [...[...TUFF_BASE].reverse(), corner(AREA.west, AREA.north), corner(AREA.east, AREA.north)],
    ],
  },
  {
    name: 'Velarca porphyry',
    age: 'middle Eocene',
    lithology: 'quartz-feldspar porphyry',
    kind: 'unit',
    rings: [PORPHYRY],
  },
  {
    name: 'Velarca breccia',
    age: 'middle Eocene',
    lithology: 'silicified breccia',
    kind: 'unit',
    rings: [BRECCIA],
  },
  {
    name: 'Tammur gravel',
    age: 'Quaternary',
    lithology: 'gravel',
    kind: 'cover',
    rings: [[corner(AREA.west, AREA.south), ...GRAVEL_EDGE]],
  },
]

/** The lithology mapped at a place. */
export function lithologyAt(point: GroundPoint): string {
  const held = UNITS.filter(({ rings }) => inRing(point, rings[0]))
  return held[held.length - 1]?.lithology ?? 'unmapped'
}

/** The outlines as GeoJSON (RFC 7946: WGS 84, outer rings anticlockwise). */
export function geologyOutlines(): FeatureCollection & { name: string; statement: string } {
  const units = UNITS.map(({ name, age, lithology, kind, rings }): Feature => ({
    type: 'Feature',
    properties: { kind, name, age, lithology },
    geometry: {
      type: 'Polygon',
      coordinates: rings.map((ring, i) => closed(ring, i === 0)),
    },
  }))
  const fault: Feature = {
    type: 'Feature',
    properties: { kind: 'fault', name: 'Sorrel fault', age: 'Miocene', lithology: null },
    geometry: { type: 'LineString', coordinates: FAULT.map(toPosition) },
  }
  return {
    type: 'FeatureCollection',
    name: `${AREA_NAME} geology`,
    statement: STATEMENT,
    features: [...units, fault],
  }
}

/** A closed ring of positions, anticlockwise or, for a hole, clockwise. */
function closed(ring: readonly GroundPoint[], anticlockwise: boolean): Position[] {
  const turned = signedArea(ring) > 0 === anticlockwise ? ring : [...ring].reverse()
  return [...turned, turned[0]].map(toPosition)
}

function signedArea(ring: readonly GroundPoint[]): number {
  return ring.reduce((sum, a, i) => {
    const b = ring[(i + 1) % ring.length]
    return sum + (a.x * b.y - b.x * a.y) / 2
  }, 0)
}

/** Whether a point lies within a ring (crossing number). */
function inRing({ x, y }: GroundPoint, ring: readonly GroundPoint[]): boolean {
  let inside = false
  ring.forEach((a, i) => {
    const b = ring[(i + 1) % ring.length]
    if (a.y > y !== b.y > y && x < a.x + ((b.x - a.x) * (y - a.y)) / (b.y - a.y)) inside = !inside
  })
  return inside
}

/** Where the silica's distance index has a value, by bisection along 36 bearings. */
function contourOfSilica(value: number): GroundPoint[] {
  return Array.from({ length: 36 }, (_, i) => {
    const bearing = (i * Math.PI) / 18
    let [near, far] = [0, 2500]
    for (let turn = 0; turn < 30; turn++) {
      const middle = (near + far) / 2
      if (silicaIndex(towards(bearing, middle)) < value) near = middle
      else far = middle
    }
    return towards(bearing, near)
  })
}

function towards(bearing: number, distance: number): GroundPoint {
  return {
    x: CENTRE.x + distance * Math.sin(bearing),
    y: CENTRE.y + distance * Math.cos(bearing),
  }
}

/** A lumpy ellipse. */
function blob(centre: GroundPoint, halfEast: number, halfNorth: number): GroundPoint[] {
  return Array.from({ length: 28 }, (_, i) => {
    const t = (i * Math.PI) / 14
    const r = 1 + 0.1 * Math.sin(3 * t + 0.6) + 0.06 * Math.sin(5 * t)
    return { x: centre.x + halfEast * r * Math.sin(t), y: centre.y + halfNorth * r * Math.cos(t) }
  })
}
