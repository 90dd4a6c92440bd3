/** Structural measurements of all stations as the layers take them. */
import type { StructureRow } from '../layers/structures-geojson'
import type { Station } from '../places/station'
import type { Results } from './results'
import { trueAzimuth, type Structure } from './structures'

const NO_ANGLES = {
  dip: null,
  dipDirection: null,
  trend: null,
  plunge: null,
  alpha: null,
  beta: null,
  reference: null,
  declination: null,
}

/** A row a measurement, in the order of the stations and of the measurements of each. */
export function structureRows({ placement, written }: Results): StructureRow[] {
  return placement.stations.flatMap((station, number) =>
    written.records[number].structures.map((structure) => structureRow(station, structure)),
  )
}

function structureRow(station: Station, structure: Structure): StructureRow {
  const { longitude, latitude } = station.position
  const { hole, from, to } = station
  return {
    station: station.name,
    hole,
    depth: from === null ? null : (from + (to ?? from)) / 2,
    kind: structure.what,
    form: structure.form,
    ...NO_ANGLES,
    ...anglesOf(structure),
    place: longitude === null || latitude === null ? null : [longitude, latitude],
  }
}

function anglesOf(structure: Structure): Partial<StructureRow> {
  switch (structure.form) {
    case 'plane': {
      const { dip, dip_direction: direction, declination } = structure
      return { dip, dipDirection: trueAzimuth(direction, declination), declination }
    }
    case 'line': {
      const { trend, plunge, declination } = structure
      return { trend: trueAzimuth(trend, declination), plunge, declination }
    }
    case 'core': {
      const { alpha, beta, reference } = structure
      return { alpha, beta, reference }
    }
  }
}
