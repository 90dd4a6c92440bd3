/** Before the browser tests: finds Chromium, builds the app as it is shipped, serves it. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build, preview } from 'vite'
import type { TestProject } from 'vitest/node'
import { findChromium } from './chromium'

declare module 'vitest' {
  interface ProvidedContext {
    /** Where the built app is served; empty without Chromium. */
    appUrl: string
    /** Path of Chromium; empty where there is none. */
    chromium: string
  }
}

export default async function setup(project: TestProject): Promise<(() => Promise<void>) | void> {
  const found = findChromium()
  if ('missing' in found) {
    console.warn(`Browser tests are skipped: ${found.missing}`)
    project.provide('appUrl', '')
    project.provide('chromium', '')
    return
  }
  const outDir = mkdtempSync(join(tmpdir(), 'aureole-dist-'))
  const shared = { logLevel: 'error' as const, build: { outDir, emptyOutDir: true } }
  await build(shared)
  const server = await preview({ ...shared, preview: { port: 0, host: '127.0.0.1' } })
  project.provide('appUrl', server.resolvedUrls?.local[0] ?? '')
  project.provide('chromium', found.path)
  return async () => {
    await server.close()
    rmSync(outDir, { recursive: true, force: true })
  }
}
