/** Opens the map: no tiles, no glyph server, no network; everything on it comes from the project. */
import { Map, setWorkerUrl, type LngLatBoundsLike } from 'maplibre-gl'
import workerUrl from 'maplibre-gl/dist/maplibre-gl-worker.mjs?worker&url'
import fontUrl from '@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2?url'
import fontExtendedUrl from '@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-wght-normal.woff2?url'

/** The name under which map text finds the app's own typeface. */
export const MAP_FONT = 'Atkinson Hyperlegible Next'

/** Places in the drawing order, lowest first; a layer is added before the slot above it. */
export const SLOTS = [
  'hillshade',
  'surface',
  'outlines',
  'contours',
  'structures',
  'walk',
  'stations',
  'labels',
] as const
export type Slot = (typeof SLOTS)[number]

/**
 * Opens a map in an element.
 *
 * @param background CSS colour where nothing is drawn
 */
export function openMap(container: HTMLElement, background: string): Map {
  setWorkerUrl(workerUrl)
  const map = new Map({
    container,
    style: {
      version: 8,
      'font-faces': {
        [MAP_FONT]: [
          { url: absolute(fontUrl) },
          { url: absolute(fontExtendedUrl), 'unicode-range': ['U+0100-02BA', 'U+1E00-1EFF'] },
        ],
      },
      sources: {},
      layers: [
        { id: 'paper', type: 'background', paint: { 'background-color': background } },
        ...SLOTS.map((slot) => ({
          id: `slot ${slot}`,
          type: 'background' as const,
          layout: { visibility: 'none' as const },
        })),
      ],
    },
    attributionControl: false,
    renderWorldCopies: false,
    dragRotate: false,
    pitchWithRotate: false,
    touchPitch: false,
    maxZoom: 22,
    fadeDuration: 0,
  })
  map.touchZoomRotate.disableRotation()
  map.keyboard.disableRotation()
  return map
}

/** The layer id to hand to `addLayer` so that a layer stands on top within its slot. */
export function topOf(slot: Slot): string {
  return `slot ${slot}`
}

/** Moves the view to bounds in degrees, with room for what covers the map's edges. */
export function showBounds(
  map: Map,
  bounds: LngLatBoundsLike,
  covered: { left: number; right: number; top: number; bottom: number },
  animate: boolean,
): void {
  const margin = 36
  map.fitBounds(bounds, {
    padding: {
      left: covered.left + margin,
      right: covered.right + margin,
      top: covered.top + margin,
      bottom: covered.bottom + margin,
    },
    maxZoom: 17,
    duration: animate ? 600 : 0,
  })
}

function absolute(url: string): string {
  return new URL(url, document.baseURI).href
}
