/** The ground of a project as layers of the map. */
import type { FeatureCollection } from 'geojson'
import { shade, shadePixels } from '../../map/hillshade'
import type { MapImage } from '../../map/image-layer'
import { loadEpsgTable, openCrs } from '../../places/crs'
import { groundProblem, readElevations } from '../../project/ground'
import { readOutlines } from '../../project/outlines'
import type { Workspace } from '../../project/workspace'
import type { InputFile, Problem } from '../../readers/input'
import { rgb, token } from './tokens'

export interface GroundPicture {
  readonly hillshade: MapImage | null
  readonly outlines: FeatureCollection
  readonly problems: readonly Problem[]
}

const METRES_PER_DEGREE = 111_320

/** Reads the ground files; one that cannot be read is told of and left off. */
export async function groundPicture(
  workspace: Workspace,
  files: readonly InputFile[],
): Promise<GroundPicture> {
  await loadEpsgTable()
  const problems: Problem[] = []
  const outlines: FeatureCollection = { type: 'FeatureCollection', features: [] }
  let hillshade: MapImage | null = null
  for (const file of files) {
    try {
      if (isTiff(file.bytes)) hillshade ??= await hillshadeOf(workspace, file)
      else outlines.features = [...outlines.features, ...readOutlines(file).features]
    } catch (error) {
      problems.push(groundProblem(file, error))
    }
  }
  return { hillshade, outlines, problems }
}

function isTiff(bytes: Uint8Array): boolean {
  const [a, b] = bytes
  return (a === 0x49 && b === 0x49) || (a === 0x4d && b === 0x4d)
}

async function hillshadeOf(workspace: Workspace, file: InputFile): Promise<MapImage> {
  const { crs, grid, values } = await readElevations(file)
  const { kind, metresPerUnit } = openCrs(crs)
  const middle = grid.north - (grid.rows * grid.cell) / 2
  const unit = kind === 'geographic' ? METRES_PER_DEGREE : metresPerUnit
  const narrowing = kind === 'geographic' ? Math.cos((middle * Math.PI) / 180) : 1
  const shades = shade({
    columns: grid.columns,
    rows: grid.rows,
    values,
    cellX: grid.cell * unit * narrowing,
    cellY: grid.cell * unit,
  })
  const {
    bounds,
    width,
    height,
    values: warped,
  } = await workspace.drawing.warp(grid, shades, crs, [grid.west, grid.north], 2048)
  const pixels = shadePixels(warped, rgb(token('shade-dark')), rgb(token('shade-bright')))
  return { bounds, width, height, pixels }
}
