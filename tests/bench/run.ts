/**
 * Prints one JSON line a figure: name, value, unit, threads, peer, peer_value, ratio.
 *
 *   npm run bench                 everything
 *   npm run bench -- surfaces     one group
 *
 * A peer that is not installed leaves `peer` null. Timings stand here and never in tests.
 */
import type { Figure } from './figure'

const GROUPS: Readonly<Record<string, () => Promise<AsyncIterable<Figure>>>> = {
  surfaces: async () => (await import('./surfaces')).benchSurfaces(),
  'held-back': async () => (await import('./held-back')).benchHeldBack(),
  identification: async () => (await import('./identification-speed')).benchIdentification(),
  traverse: async () => (await import('./traverse')).benchTraverse(),
  reading: async () => (await import('./reading')).benchReading(),
  layers: async () => (await import('./layers')).benchLayers(),
  window: async () => (await import('./window')).benchWindow(),
}

const asked = process.argv.slice(2)
const unknown = asked.filter((name) => !(name in GROUPS))
if (unknown.length > 0) {
  console.error(`No group ${unknown.join(', ')}; there are ${Object.keys(GROUPS).join(', ')}.`)
  process.exit(64)
}
for (const name of asked.length > 0 ? asked : Object.keys(GROUPS)) {
  for await (const figure of await GROUPS[name]()) console.log(JSON.stringify(figure))
}
