/** Cuts what is drawn after it off at a strip of the map's width, or draws on all of it again. */
import type { CustomLayerInterface, Map } from 'maplibre-gl'
import type { Strip } from './picture-layer'

/**
 * A layer that draws nothing: layers above it are cut to its strip until another one says
 * otherwise. The map itself never uses the scissor test.
 */
export class ClipLayer implements CustomLayerInterface {
  readonly type = 'custom' as const
  readonly renderingMode = '2d' as const
  #map: Map | null = null
  #strip: Strip | null = null

  constructor(readonly id: string) {}

  /** null for the whole map. */
  cut(strip: Strip | null): void {
    this.#strip = strip
    this.#map?.triggerRepaint()
  }

  onAdd(map: Map): void {
    this.#map = map
  }

  onRemove(): void {
    this.#map = null
  }

  render(gl: WebGL2RenderingContext): void {
    if (!this.#strip) {
      gl.disable(gl.SCISSOR_TEST)
      return
    }
    const { drawingBufferWidth: width, drawingBufferHeight: height } = gl
    const left = Math.round(this.#strip[0] * width)
    gl.enable(gl.SCISSOR_TEST)
    gl.scissor(left, 0, Math.max(0, Math.round(this.#strip[1] * width) - left), height)
  }
}
