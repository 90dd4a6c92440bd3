/** The whole sample area as files. */
import { jsonText } from './json'
import { fileText } from './layouts'
import { geologyOutlines } from './outlines'
import { AREA_NAME, STATEMENT } from './place'
import { frameOver, writeRaster } from './rasters'
import { RECIPE } from './recipe'
import type { MadeScan } from './sampling'
import { makeScans } from './scanning'
import { collarTable, firstDayTrack, sampleTable, surveyTable } from './tables'
import { CELL, heightGrid, MARGIN } from './terrain'
import { faultTruth, micaGrid, scanTruth, zoneCodes, zoneGrid } from './truth'
import { vehicleTrack } from './vehicle-track'

/** A file below `sample-area/`. */
export interface MadeFile {
  readonly path: string
  readonly content: Uint8Array
}

/** Every file of the sample area that the script makes. */
export function makeSampleArea(): MadeFile[] {
  const scans = makeScans()
  return [
    ...scanFiles(scans),
    text('places/samples.csv', sampleTable()),
    text('places/collars.csv', collarTable()),
    text('places/surveys.csv', surveyTable()),
    text('places/day1.gpx', firstDayTrack()),
    { path: 'ground/terrain.tif', content: terrain() },
    text('ground/geology.geojson', jsonText(geologyOutlines())),
    text('ground/track.geojson', jsonText(vehicleTrack())),
    text('truth/scans.csv', scanTruth(scans)),
    text('truth/faults.csv', faultTruth(scans)),
    text('truth/zones.csv', zoneCodes()),
    { path: 'truth/zones.tif', content: zoneGrid() },
    { path: 'truth/white-mica.tif', content: micaGrid() },
    text('recipe.json', jsonText(RECIPE)),
    text('about.json', jsonText({ name: AREA_NAME, statement: STATEMENT })),
  ]
}

function scanFiles(scans: readonly MadeScan[]): MadeFile[] {
  const byFile = new Map<string, MadeScan[]>()
  for (const scan of scans) byFile.set(scan.file, [...(byFile.get(scan.file) ?? []), scan])
  return [...byFile].map(([file, inFile]) => text(`scans/${file}`, fileText(inFile)))
}

/** Heights to a decimetre. */
function terrain(): Uint8Array {
  const heights = Array.from(heightGrid().heights, (height) => Math.round(height * 10) / 10)
  return writeRaster(frameOver(MARGIN, CELL), heights, 'float', '-9999')
}

function text(path: string, content: string): MadeFile {
  return { path, content: new TextEncoder().encode(content) }
}
