/**
 * Builds the command line once for the sources as they are, then runs it.
 *
 *   node src/batch/launch.mjs map --scans DIR --out DIR
 *
 * The build stands in .cache/command-KEY, KEY being a digest of the sources, so a second run
 * starts at once and a changed source never runs stale.
 */
import { createHash } from 'node:crypto'
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs'
import { join, relative, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'

const ROOT = resolve(import.meta.dirname, '../..')
const CACHE = join(ROOT, '.cache')

function sourceDigest() {
  const digest = createHash('sha256')
  const files = readdirSync(join(ROOT, 'src'), { recursive: true })
    .map(String)
    .filter((name) => /\.(ts|json|mjs)$/.test(name))
    .sort()
  for (const name of [
    ...files.map((file) => join('src', file)),
    'package.json',
    'package-lock.json',
  ]) {
    digest
      .update(name)
      .update('\0')
      .update(readFileSync(join(ROOT, name)))
      .update('\0')
  }
  return digest.digest('hex').slice(0, 16)
}

async function build(out) {
  const { build: viteBuild } = await import('vite')
  const entries = { map: 'map.ts', fit: 'fit.ts', 'node-worker': 'node-worker.ts' }
  const input = {}
  for (const [name, file] of Object.entries(entries)) {
    const path = join(ROOT, 'src/batch', file)
    if (existsSync(path)) input[name] = path
  }
  const making = `${out}.${process.pid}`
  await viteBuild({
    configFile: false,
    root: ROOT,
    logLevel: 'error',
    // Everything is bundled: some packages cannot be imported by Node as they stand.
    ssr: { noExternal: true },
    build: {
      ssr: true,
      outDir: making,
      emptyOutDir: true,
      target: 'node20',
      rollupOptions: { input },
    },
  })
  try {
    renameSync(making, out)
  } catch (error) {
    // Another run built the same sources meanwhile: its build is as good.
    if (!existsSync(out)) throw error
    rmSync(making, { recursive: true })
  }
}

function forgetOldBuilds(keep) {
  for (const name of readdirSync(CACHE)) {
    const path = join(CACHE, name)
    const old = Date.now() - statSync(path).mtimeMs > 3_600_000
    if (name.startsWith('command-') && path !== keep && old) rmSync(path, { recursive: true })
  }
}

const [command, ...rest] = process.argv.slice(2)
mkdirSync(CACHE, { recursive: true })
const out = join(CACHE, `command-${sourceDigest()}`)
if (!existsSync(out)) {
  await build(out)
  forgetOldBuilds(out)
}
const entry = join(out, `${command}.js`)
if (!existsSync(entry)) {
  console.error(`No command ‘${command}’ in ${relative(ROOT, out)}.`)
  process.exit(64)
}
// A reader of what is said may leave before the end (`| head`); the layers are written all the same.
for (const stream of [process.stdout, process.stderr])
  stream.on('error', (error) => {
    if (error.code !== 'EPIPE') throw error
  })
const { main } = await import(pathToFileURL(entry).href)
process.exitCode = await main(rest)
