/** Finds a Chromium for the browser tests, or installs Debian's where that is allowed. */
import { execFileSync } from 'node:child_process'
import { accessSync, constants } from 'node:fs'
import { delimiter, join } from 'node:path'

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome']

/** Flags that keep it quiet on a closed network. */
export const CHROMIUM_FLAGS = [
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-quic',
  '--no-first-run',
]

/** Path of a Chromium, or why there is none. */
export function findChromium(): { readonly path: string } | { readonly missing: string } {
  const found = onPath()
  if (found) return { path: found }
  const failure = installDebian()
  const installed = onPath()
  if (installed) return { path: installed }
  return {
    missing:
      `No Chromium on the PATH${failure ? ` (${failure})` : ''}. Install one, on Debian by ` +
      '`apt-get install chromium`, or set CHROMIUM to its path.',
  }
}

function onPath(): string | null {
  if (process.env.CHROMIUM) return process.env.CHROMIUM
  const folders = (process.env.PATH ?? '').split(delimiter)
  for (const name of NAMES) {
    for (const folder of folders) {
      const path = join(folder, name)
      try {
        accessSync(path, constants.X_OK)
        return path
      } catch {
        // Not here; the next folder may have it.
      }
    }
  }
  return null
}

/** Installs Debian's package where this is Debian and we may. @returns why not; empty when done */
function installDebian(): string {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return 'not root on Linux'
  try {
    const options = { stdio: 'ignore' as const, timeout: 600_000 }
    execFileSync('apt-get', ['update', '-qq'], options)
    execFileSync(
      'apt-get',
      ['install', '-y', '-qq', '--no-install-recommends', 'chromium'],
      options,
    )
    return ''
  } catch (error) {
    return `apt-get failed: ${(error as Error).message.split('\n')[0]}`
  }
}
