/** An upright picture on the map: hillshade or a surface, already in the Mercator plane. */
import type { Map } from 'maplibre-gl'
import { topOf, type Slot } from './open-map'

/** RGBA pixels over a rectangle of degrees whose rows are evenly spaced in the Mercator plane. */
export interface MapImage {
  readonly width: number
  readonly height: number
  readonly pixels: Uint8ClampedArray<ArrayBuffer>
  readonly bounds: readonly [west: number, south: number, east: number, north: number]
}

/** Shows a picture under an id, replacing what stood there; null takes it away. */
export function setImage(
  map: Map,
  id: string,
  slot: Slot,
  image: MapImage | null,
  options: { opacity: number; smooth: boolean },
): void {
  if (map.getLayer(id)) map.removeLayer(id)
  if (map.getSource(id)) map.removeSource(id)
  if (!image) return
  const canvas = document.createElement('canvas')
  canvas.width = image.width
  canvas.height = image.height
  const context = canvas.getContext('2d')
  if (!context) throw new Error('The browser gives no canvas to draw on.')
  context.putImageData(new ImageData(image.pixels, image.width, image.height), 0, 0)
  const [west, south, east, north] = image.bounds
  map.addSource(id, {
    type: 'canvas',
    canvas,
    animate: false,
    coordinates: [
      [west, north],
      [east, north],
      [east, south],
      [west, south],
    ],
  })
  map.addLayer(
    {
      id,
      type: 'raster',
      source: id,
      paint: {
        'raster-opacity': options.opacity,
        'raster-fade-duration': 0,
        'raster-resampling': options.smooth ? 'linear' : 'nearest',
      },
    },
    topOf(slot),
  )
}
