/** Structures as points: strike by the right-hand rule, azimuths from true north, by the standard. */
import { expect, test } from 'vitest'
import { strikeOf, structuresGeojson, type StructureRow } from '../../src/layers/structures-geojson'
import { openCrs } from '../../src/places/crs'
import { rfc7946Faults } from './rfc7946'

const row: StructureRow = {
  station: 'S1',
  hole: null,
  depth: null,
  kind: 'vein',
  form: 'plane',
  dip: 60,
  dipDirection: 5,
  trend: null,
  plunge: null,
  alpha: null,
  beta: null,
  reference: null,
  declination: 15,
  place: [-69.1, -24.1],
}

test('a plane strikes 90° left of where it dips, so that it dips to the right of its strike', () => {
  // Right-hand rule, common practice: a plane that dips east strikes north; one that dips 5° strikes 275°.
  expect([90, 180, 270, 0, 5].map(strikeOf)).toEqual([0, 90, 180, 270, 275])
})

test('each measurement is a point with its angles', () => {
  const line = { ...row, form: 'line' as const, dip: null, dipDirection: null }
  const rows = [
    row,
    { ...line, trend: 123.456, plunge: 25, declination: 0 },
    {
      ...line,
      form: 'core' as const,
      alpha: 40,
      beta: 200,
      reference: 'bottom' as const,
      hole: 'H',
      depth: 12.5,
      declination: null,
      place: null,
    },
  ]
  const text = new TextDecoder().decode(structuresGeojson(openCrs('EPSG:32719'), rows) ?? undefined)
  expect(rfc7946Faults(text)).toEqual([])
  const { features } = JSON.parse(text) as { features: { properties: object }[] }
  expect(features.map(({ properties }) => properties)).toEqual([
    expect.objectContaining({
      kind: 'vein',
      dip: 60,
      dip_direction: 5,
      strike: 275,
      trend: null,
      declination: 15,
    }),
    expect.objectContaining({ dip: null, strike: null, trend: 123.5, plunge: 25, declination: 0 }),
    expect.objectContaining({
      hole: 'H',
      depth: 12.5,
      alpha: 40,
      beta: 200,
      reference: 'bottom',
      declination: null,
    }),
  ])
  expect(structuresGeojson(openCrs('local:m'), rows)).toBeNull()
})
