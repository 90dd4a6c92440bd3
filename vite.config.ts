/// <reference types="vitest/config" />
import { svelte } from '@sveltejs/vite-plugin-svelte'
import { zipSync, type Zippable } from 'fflate'
import { readdirSync, readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { defineConfig, type Plugin } from 'vite'

/** The sample area beside the page as one archive; its truth stays at home. */
function sampleArea(): Plugin {
  const folder = resolve(import.meta.dirname, 'sample-area')
  const name = 'sample-area.zip'
  const pack = (level: 1 | 6) => {
    const files: Zippable = {}
    for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
      const path = join(entry.parentPath, entry.name)
      const inside = path.slice(folder.length + 1)
      if (entry.isFile() && /^(scans|places|ground)\/|^(about|recipe)\.json$/.test(inside)) {
        files[inside] = readFileSync(path)
      }
    }
    return zipSync(files, { level, mtime: new Date(1980, 0, 1) })
  }
  return {
    name: 'sample-area',
    configureServer(server) {
      server.middlewares.use(`/${name}`, (_request, response) => response.end(pack(1)))
    },
    generateBundle() {
      this.emitFile({ type: 'asset', fileName: name, source: pack(6) })
    },
  }
}

export default defineConfig({
  root: 'src',
  base: './',
  publicDir: false,
  plugins: [svelte({ configFile: resolve(import.meta.dirname, 'svelte.config.js') }), sampleArea()],
  worker: { format: 'es' },
  build: { outDir: '../dist', emptyOutDir: true, target: 'es2022', chunkSizeWarningLimit: 1200 },
  test: {
    root: '.',
    testTimeout: 120_000,
    hookTimeout: 300_000,
    projects: [
      {
        extends: true,
        test: {
          name: 'rooms',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**'],
          // Modules keep nothing but what makes them faster, so test files may share them, and
          // loading them anew for each took as long as half of the tests.
          isolate: false,
          // Unasked it leaves one core idle, which on two is half of the machine.
          maxWorkers: '100%',
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: ['tests/browser/setup.ts'],
          fileParallelism: false,
        },
      },
    ],
  },
})
