/** Peak memory of Chromium's renderer processes, as Linux counts it. */
import { readFileSync } from 'node:fs'
import type { Browser } from 'playwright-core'

const EVERY_MS = 200

/** Proportional set size of a process in MB; 0 where it is gone or the system does not tell. */
function pss(id: number): number {
  try {
    const told = /^Pss:\s+(\d+) kB/m.exec(readFileSync(`/proc/${id}/smaps_rollup`, 'utf8'))
    return told ? Number(told[1]) / 1000 : 0
  } catch {
    return 0
  }
}

/**
 * Looks at the largest renderer five times a second.
 *
 * @returns the function that ends it and gives the peak, MB; 0 where the system does not tell
 */
export async function watchRendererMemory(browser: Browser): Promise<() => number> {
  const session = await browser.newBrowserCDPSession()
  const { processInfo } = await session.send('SystemInfo.getProcessInfo')
  const renderers = processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => id)
  let peak = 0
  const look = () => {
    peak = Math.max(peak, ...renderers.map(pss))
  }
  const timer = setInterval(look, EVERY_MS)
  return () => {
    clearInterval(timer)
    look()
    return peak
  }
}
