/** The command line's pool of workers, bundled from the sources as they are. */
import { writeFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import { build } from 'vite'
import type { Pool } from '../../src/jobs/pool'

const ROOT = resolve(import.meta.dirname, '../..')

/**
 * Bundles the command line's pool and its worker into a folder, for tsx does not work inside
 * worker threads on Node 20.
 *
 * @returns the function that starts a pool of so many workers; whoever calls it closes the pool
 */
export async function buildPool(folder: string): Promise<(size: number) => Pool> {
  const entry = (name: string) => join(ROOT, 'src/batch', `${name}.ts`)
  await build({
    configFile: false,
    root: ROOT,
    logLevel: 'error',
    ssr: { noExternal: true },
    build: {
      ssr: true,
      outDir: folder,
      emptyOutDir: false,
      target: 'node20',
      rollupOptions: {
        input: { 'node-pool': entry('node-pool'), 'node-worker': entry('node-worker') },
      },
    },
  })
  // Outside the project nothing else says that these files are modules.
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }')
  const url = pathToFileURL(join(folder, 'node-pool.js')).href
  const built = (await import(url)) as { startNodePool: (size: number) => Pool }
  return built.startNodePool
}
