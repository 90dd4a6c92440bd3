/**
 * Speed of surfaces beside gstat and gdal_grid, on invented points in a square of 10 km, in warm
 * workers that compute tiles as the app's do.
 *
 * `npx tsx tests/bench/surfaces.ts` prints a JSON line a figure; with `large` also those of a
 * million nodes. Peers that are not installed give null.
 */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import { Worker } from 'node:worker_threads'
import { build } from 'vite'
import type { Points } from '../../src/surfaces/model'
import { scatter } from '../surfaces/scatter'
import { duration, speed, type Figure } from './figure'
import { NEIGHBOURS, SIDE, type Job } from './surfaces-worker'

type Task = Pick<Job, 'kind' | 'points' | 'side'>

/** Two workers of the bundled sources (tsx does not work inside worker threads on Node 20). */
class Crew {
  private constructor(private readonly workers: readonly Worker[]) {}

  static async hire(folder: string): Promise<Crew> {
    await build({
      configFile: false,
      root: resolve(import.meta.dirname, '../..'),
      logLevel: 'error',
      build: {
        ssr: join(import.meta.dirname, 'surfaces-worker.ts'),
        outDir: folder,
        emptyOutDir: false,
        minify: false,
        rollupOptions: { output: { entryFileNames: 'surfaces-worker.mjs' } },
      },
    })
    const script = join(folder, 'surfaces-worker.mjs')
    return new Crew([new Worker(script), new Worker(script)])
  }

  /** Seconds until the first `threads` workers have done a task together and handed it over. */
  async seconds(task: Task, threads: number): Promise<number> {
    const start = performance.now()
    await Promise.all(
      this.workers.slice(0, threads).map(
        (worker, part) =>
          new Promise<void>((done, fail) => {
            worker.once('error', fail)
            worker.on('message', function listen(message) {
              if (message !== 'done') return
              worker.off('message', listen)
              worker.off('error', fail)
              done()
            })
            worker.postMessage({ ...task, part, of: threads })
          }),
      ),
    )
    return (performance.now() - start) / 1000
  }

  /** The best of three once both workers are warm. */
  async best(task: Task, threads: number): Promise<number> {
    await this.seconds({ ...task, side: Math.min(task.side, 200) }, 2)
    let least = Infinity
    for (let i = 0; i < 3; i++) least = Math.min(least, await this.seconds(task, threads))
    return least
  }

  async leave(): Promise<void> {
    await Promise.all(this.workers.map((worker) => worker.terminate()))
  }
}

/** Seconds that a peer says or takes; null where it is not installed or fails. */
function peerSeconds(command: string, args: readonly string[], says: boolean): number | null {
  const start = performance.now()
  const run = spawnSync(command, args, { encoding: 'utf8' })
  if (run.error || run.status !== 0) return null
  if (!says) return (performance.now() - start) / 1000
  const seconds = Number(run.stdout.trim().split(/\s+/).at(-1))
  return seconds > 0 ? seconds : null
}

/** The peers, and points as files that they read. */
class Peers {
  private readonly script = join(import.meta.dirname, 'surfaces-gstat.R')

  constructor(private readonly folder: string) {}

  private write(points: Points): string {
    const path = join(this.folder, `points${points.x.length}.csv`)
    const rows = Array.from(points.x, (x, i) => `${x},${points.y[i]},${points.value[i]}`)
    writeFileSync(path, `x,y,z\n${rows.join('\n')}\n`)
    return path
  }

  gstat(count: number, job: string, side: number): number | null {
    const path = this.write(scatter(count, SIDE))
    return peerSeconds('Rscript', [this.script, path, job, String(side)], true)
  }

  /** Inverse distance of the nearest 24 in the smallest 100 m step that reaches them everywhere. */
  gdalGrid(count: number, side: number): number | null {
    const points = scatter(count, SIDE)
    const path = this.write(points)
    const source = join(this.folder, 'points.vrt')
    writeFileSync(
      source,
      `<OGRVRTDataSource><OGRVRTLayer name="points${count}">` +
        `<SrcDataSource>${path}</SrcDataSource><GeometryType>wkbPoint</GeometryType>` +
        `<GeometryField encoding="PointFromColumns" x="x" y="y" z="z"/></OGRVRTLayer></OGRVRTDataSource>`,
    )
    const method = `invdistnn:power=2:radius=${radiusFor(points)}:max_points=${NEIGHBOURS}:min_points=1`
    const extent = ['-txe', '0', String(SIDE), '-tye', String(SIDE), '0']
    const size = ['-outsize', String(side), String(side), '-ot', 'Float64']
    const out = join(this.folder, 'grid.tif')
    return peerSeconds('gdal_grid', ['-q', '-a', method, ...extent, ...size, source, out], false)
  }
}

/** The least multiple of 100 m within which every corner of a 50 x 50 lattice has its neighbours. */
function radiusFor(points: Points): number {
  let farthest = 0
  for (let i = 0; i <= 50; i++) {
    for (let j = 0; j <= 50; j++) {
      const [x, y] = [(i * SIDE) / 50, (j * SIDE) / 50]
      const distances = points.x.map((px, k) => Math.hypot(px - x, points.y[k] - y)).sort()
      farthest = Math.max(farthest, distances[NEIGHBOURS - 1])
    }
  }
  return Math.ceil(farthest / 100) * 100
}

/** A figure of our seconds beside a peer's: nodes a second. */
function nodesASecond(
  name: string,
  threads: number,
  nodes: number,
  seconds: number,
  peer: string | null = null,
  other: number | null = null,
): Figure {
  const beside = peer === null ? null : { name: peer, value: other === null ? null : nodes / other }
  return speed(name, nodes / seconds, 'nodes/s', threads, beside)
}

/** The room's figures, one after another; those of a million nodes only when `large`. */
export async function* benchSurfaces(large = false): AsyncIterable<Figure> {
  const folder = mkdtempSync(join(tmpdir(), 'surfaces-bench-'))
  const crew = await Crew.hire(folder)
  const peers = new Peers(folder)
  try {
    const sizes = large ? [300, 1000] : [300]
    for (const side of sizes) {
      for (const points of side === 1000 ? [2000, 20_000] : [2000]) {
        const name = `kriging with variance, nearest ${NEIGHBOURS} of ${points}, ${side} x ${side} nodes`
        const other = peers.gstat(points, 'krige', side)
        for (const threads of [1, 2]) {
          const seconds = await crew.best({ kind: 'kriging', points, side }, threads)
          yield nodesASecond(name, threads, side * side, seconds, 'gstat', other)
        }
      }
      const name = `inverse distance, nearest ${NEIGHBOURS} of 2000, ${side} x ${side} nodes`
      const other = peers.gdalGrid(2000, side)
      for (const threads of [1, 2]) {
        const seconds = await crew.best({ kind: 'inverse-distance', points: 2000, side }, threads)
        yield nodesASecond(name, threads, side * side, seconds, 'gdal_grid invdistnn', other)
      }
    }
    for (const kind of ['octants', 'barriers', 'octants and barriers'] as const) {
      const side = sizes[sizes.length - 1]
      const name = `kriging with ${kind}, nearest ${NEIGHBOURS} of 2000, ${side} x ${side} nodes`
      for (const threads of [1, 2]) {
        const seconds = await crew.best({ kind, points: 2000, side }, threads)
        yield nodesASecond(name, threads, side * side, seconds)
      }
    }
    const left = await crew.best({ kind: 'leave-one-out', points: 2000, side: 0 }, 1)
    const peer = { name: 'gstat', value: peers.gstat(2000, 'leave-one-out', 0) }
    yield duration(`leave-one-out, nearest ${NEIGHBOURS} of 2000`, left, 1, peer)
    const fit = await crew.best({ kind: 'fit', points: 2000, side: 0 }, 1)
    yield duration('automatic variogram of 2000 points, with its map', fit, 1)
  } finally {
    await crew.leave()
    rmSync(folder, { recursive: true })
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href)
  for await (const found of benchSurfaces(process.argv.includes('large')))
    console.log(JSON.stringify(found))
