/**
 * Speed of surfaces beside gstat and gdal_grid, on invented points in a square of 10 km.
 *
 * `npx tsx tests/bench/surfaces.ts` prints a JSON line a figure; with `large` also those of a
 * million nodes. Peers that are not installed give null.
 */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { automaticVariogram } from '../../src/surfaces/automatic-variogram'
import { inverseDistanceRows } from '../../src/surfaces/inverse-distance'
import { krigeRows } from '../../src/surfaces/kriging'
import type { Grid, Points, Variogram } from '../../src/surfaces/model'
import { leaveOneOut } from '../../src/surfaces/testing'
import { scatter } from '../surfaces/scatter'

export interface Figure {
  readonly name: string
  readonly value: number
  readonly unit: string
  readonly threads: number
  readonly peer: string | null
  readonly peer_value: number | null
  /** How many times better than the peer. */
  readonly ratio: number | null
}

const SIDE = 10_000
const NEIGHBOURS = 24
const MODEL: Variogram = {
  nugget: 0.05,
  structures: [{ model: 'spherical', sill: 1, range: 3000 }],
}

function gridOf(side: number): Grid {
  return { west: 0, north: SIDE, cell: SIDE / side, columns: side, rows: side }
}

/** Seconds that a job takes, the best of two after a shorter one has warmed it up. */
function secondsOf(warm: () => void, job: () => void): number {
  warm()
  const once = (): number => {
    const start = performance.now()
    job()
    return (performance.now() - start) / 1000
  }
  return Math.min(once(), once())
}

/** Seconds that a peer says or takes; null where it is not installed or fails. */
function peerSeconds(command: string, args: readonly string[], says: boolean): number | null {
  const start = performance.now()
  const run = spawnSync(command, args, { encoding: 'utf8' })
  if (run.error || run.status !== 0) return null
  const seconds = says
    ? Number(run.stdout.trim().split(/\s+/).at(-1))
    : (performance.now() - start) / 1000
  return seconds > 0 ? seconds : null
}

function rate(
  name: string,
  nodes: number,
  seconds: number,
  peer: string,
  other: number | null,
): Figure {
  const value = Math.round(nodes / seconds)
  return {
    name,
    value,
    unit: 'nodes/s',
    threads: 1,
    peer: other === null ? null : peer,
    peer_value: other === null ? null : Math.round(nodes / other),
    ratio: other === null ? null : Number((other / seconds).toFixed(2)),
  }
}

function duration(
  name: string,
  seconds: number,
  peer: string | null,
  other: number | null,
): Figure {
  return {
    name,
    value: Number(seconds.toFixed(4)),
    unit: 's',
    threads: 1,
    peer: other === null ? null : peer,
    peer_value: other,
    ratio: other === null ? null : Number((other / seconds).toFixed(2)),
  }
}

/** Points as files that the peers read. */
class PeerFiles {
  readonly folder = mkdtempSync(join(tmpdir(), 'surfaces-bench-'))
  private readonly script = join(import.meta.dirname, 'surfaces-gstat.R')

  write(points: Points): string {
    const path = join(this.folder, `points${points.x.length}.csv`)
    const rows = Array.from(points.x, (x, i) => `${x},${points.y[i]},${points.value[i]}`)
    writeFileSync(path, `x,y,z\n${rows.join('\n')}\n`)
    return path
  }

  gstat(path: string, job: string, side: number): number | null {
    return peerSeconds('Rscript', [this.script, path, job, String(side)], true)
  }

  /** gdal_grid's inverse distance of the nearest 24 in a radius that reaches them everywhere. */
  gdalGrid(path: string, side: number, radius: number): number | null {
    const source = join(this.folder, 'points.vrt')
    writeFileSync(
      source,
      `<OGRVRTDataSource><OGRVRTLayer name="${path.split('/').at(-1)?.replace('.csv', '')}">` +
        `<SrcDataSource>${path}</SrcDataSource><GeometryType>wkbPoint</GeometryType>` +
        `<GeometryField encoding="PointFromColumns" x="x" y="y" z="z"/></OGRVRTLayer></OGRVRTDataSource>`,
    )
    const method = `invdistnn:power=2:radius=${radius}:max_points=${NEIGHBOURS}:min_points=1`
    const extent = ['-txe', '0', String(SIDE), '-tye', String(SIDE), '0']
    const size = ['-outsize', String(side), String(side), '-ot', 'Float64']
    const out = join(this.folder, 'grid.tif')
    return peerSeconds('gdal_grid', ['-q', '-a', method, ...extent, ...size, source, out], false)
  }

  remove(): void {
    rmSync(this.folder, { recursive: true })
  }
}

function krigingFigure(files: PeerFiles, count: number, side: number): Figure {
  const points = scatter(count, SIDE)
  const options = { neighbours: NEIGHBOURS }
  const seconds = secondsOf(
    () => krigeRows(points, MODEL, gridOf(side), [0, Math.min(side, 30)], options),
    () => krigeRows(points, MODEL, gridOf(side), [0, side], options),
  )
  const name = `kriging with variance, nearest ${NEIGHBOURS} of ${count}, ${side} x ${side} nodes`
  const peer = files.gstat(files.write(points), 'krige', side)
  return rate(name, side * side, seconds, 'gstat', peer)
}

function inverseDistanceFigure(files: PeerFiles, side: number): Figure {
  const points = scatter(2000, SIDE)
  const seconds = secondsOf(
    () => inverseDistanceRows(points, gridOf(side), [0, 30], { neighbours: NEIGHBOURS }),
    () => inverseDistanceRows(points, gridOf(side), [0, side], { neighbours: NEIGHBOURS }),
  )
  const name = `inverse distance, nearest ${NEIGHBOURS} of 2000, ${side} x ${side} nodes`
  const peer = files.gdalGrid(files.write(points), side, radiusFor(points))
  return rate(name, side * side, seconds, 'gdal_grid invdistnn', peer)
}

/** The least multiple of 100 m within which every node has its neighbours. */
function radiusFor(points: Points): number {
  const corners = [0, SIDE].flatMap((x) => [0, SIDE].map((y) => [x, y]))
  let farthest = 0
  for (let i = 0; i <= 50; i++)
    for (let j = 0; j <= 50; j++) corners.push([(i * SIDE) / 50, (j * SIDE) / 50])
  for (const [x, y] of corners) {
    const distances = points.x.map((px, i) => Math.hypot(px - x, points.y[i] - y)).sort()
    farthest = Math.max(farthest, distances[NEIGHBOURS - 1])
  }
  return Math.ceil(farthest / 100) * 100
}

function leaveOneOutFigure(files: PeerFiles): Figure {
  const points = scatter(2000, SIDE)
  const job = () =>
    leaveOneOut(points, { method: 'kriging', variogram: MODEL, neighbours: NEIGHBOURS })
  const seconds = secondsOf(job, job)
  const peer = files.gstat(files.write(points), 'leave-one-out', 0)
  return duration(`leave-one-out, nearest ${NEIGHBOURS} of 2000`, seconds, 'gstat', peer)
}

function fitFigure(): Figure {
  const points = scatter(2000, SIDE)
  const seconds = secondsOf(
    () => automaticVariogram(scatter(200, SIDE)),
    () => automaticVariogram(points),
  )
  return duration('automatic variogram of 2000 points', seconds, null, null)
}

/** The room's figures, one after another; those of a million nodes only when `large`. */
export async function* benchSurfaces(large = false): AsyncIterable<Figure> {
  const files = new PeerFiles()
  try {
    yield krigingFigure(files, 2000, 300)
    yield inverseDistanceFigure(files, large ? 1000 : 300)
    yield leaveOneOutFigure(files)
    yield fitFigure()
    if (!large) return
    yield krigingFigure(files, 2000, 1000)
    yield krigingFigure(files, 20_000, 1000)
  } finally {
    files.remove()
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href)
  for await (const figure of benchSurfaces(process.argv.includes('large')))
    console.log(JSON.stringify(figure))
