/**
 * A surface's picture on the map, drawn by a layer of our own: a new picture is one texture written
 * to the graphics card, and it can be cut off at a line of the screen.
 */
import { MercatorCoordinate, type CustomLayerInterface, type Map } from 'maplibre-gl'
import { buildProgram, movedMatrix } from './gl-program'
import type { MapImage } from './image-layer'

const VERTEX_SOURCE = `#version 300 es
uniform mat4 u_matrix;
uniform vec2 u_size;
out vec2 v_place;
void main() {
  v_place = vec2(gl_VertexID & 1, gl_VertexID >> 1);
  gl_Position = u_matrix * vec4(v_place * u_size, 0.0, 1.0);
}`

const FRAGMENT_SOURCE = `#version 300 es
precision highp float;
uniform sampler2D u_picture;
uniform float u_opacity;
in vec2 v_place;
out vec4 o_colour;
void main() {
  vec4 colour = texture(u_picture, v_place);
  o_colour = vec4(colour.rgb, 1.0) * colour.a * u_opacity;
}`

/** Parts of the map's width, 0 to 1. */
export type Strip = readonly [from: number, to: number]

const WHOLE: Strip = [0, 1]

/** A picture, upright in the map’s plane, drawn into the map by our own program: whole or a strip of it. */
export class PictureLayer implements CustomLayerInterface {
  readonly type = 'custom' as const
  readonly renderingMode = '2d' as const

  #map: Map | null = null
  #program: WebGLProgram | null = null
  #array: WebGLVertexArrayObject | null = null
  #texture: WebGLTexture | null = null
  #image: MapImage | null = null
  /** Whether the texture holds another picture than is wanted. */
  #stale = false
  #strip = WHOLE

  constructor(
    readonly id: string,
    private readonly opacity: number,
  ) {}

  /** Shows a picture in place of the one before; null shows none. */
  show(image: MapImage | null): void {
    if (image === this.#image) return
    this.#image = image
    this.#stale = image !== null
    this.#map?.triggerRepaint()
  }

  /** Draws only on a strip of the map's width. */
  cut(strip: Strip | null): void {
    this.#strip = strip ?? WHOLE
    this.#map?.triggerRepaint()
  }

  onAdd(map: Map, gl: WebGL2RenderingContext): void {
    this.#map = map
    this.#program = buildProgram(gl, 'picture', VERTEX_SOURCE, FRAGMENT_SOURCE)
    this.#array = gl.createVertexArray()
    this.#texture = gl.createTexture()
    this.#stale = this.#image !== null
  }

  onRemove(_map: Map, gl: WebGL2RenderingContext): void {
    gl.deleteProgram(this.#program)
    gl.deleteVertexArray(this.#array)
    gl.deleteTexture(this.#texture)
    this.#map = null
  }

  render(
    gl: WebGL2RenderingContext,
    options: { defaultProjectionData: { mainMatrix: ArrayLike<number> } },
  ): void {
    const program = this.#program
    const image = this.#image
    const [from, to] = this.#strip
    if (!program || !image || to <= from) return
    gl.activeTexture(gl.TEXTURE0)
    gl.bindTexture(gl.TEXTURE_2D, this.#texture)
    if (this.#stale) this.#send(gl, image)
    const [west, south, east, north] = image.bounds
    const corner = MercatorCoordinate.fromLngLat([west, north])
    const far = MercatorCoordinate.fromLngLat([east, south])
    gl.useProgram(program)
    gl.bindVertexArray(this.#array)
    const uniform = (name: string) => gl.getUniformLocation(program, name)
    const matrix = movedMatrix(options.defaultProjectionData.mainMatrix, [corner.x, corner.y])
    gl.uniformMatrix4fv(uniform('u_matrix'), false, matrix)
    gl.uniform2f(uniform('u_size'), far.x - corner.x, far.y - corner.y)
    gl.uniform1f(uniform('u_opacity'), this.opacity)
    gl.uniform1i(uniform('u_picture'), 0)
    gl.disable(gl.DEPTH_TEST)
    gl.disable(gl.STENCIL_TEST)
    gl.disable(gl.CULL_FACE)
    gl.enable(gl.BLEND)
    gl.blendFunc(gl.ONE, gl.ONE_MINUS_SRC_ALPHA)
    const { drawingBufferWidth: width, drawingBufferHeight: height } = gl
    const left = Math.round(from * width)
    gl.enable(gl.SCISSOR_TEST)
    gl.scissor(left, 0, Math.max(0, Math.round(to * width) - left), height)
    gl.drawArrays(gl.TRIANGLE_STRIP, 0, 4)
    gl.disable(gl.SCISSOR_TEST)
    gl.bindVertexArray(null)
  }

  #send(gl: WebGL2RenderingContext, { width, height, pixels }: MapImage): void {
    const bytes = new Uint8Array(pixels.buffer)
    gl.pixelStorei(gl.UNPACK_FLIP_Y_WEBGL, false)
    gl.pixelStorei(gl.UNPACK_PREMULTIPLY_ALPHA_WEBGL, false)
    gl.pixelStorei(gl.UNPACK_ALIGNMENT, 4)
    gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGBA, width, height, 0, gl.RGBA, gl.UNSIGNED_BYTE, bytes)
    for (const side of [gl.TEXTURE_WRAP_S, gl.TEXTURE_WRAP_T])
      gl.texParameteri(gl.TEXTURE_2D, side, gl.CLAMP_TO_EDGE)
    gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.NEAREST)
    gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.NEAREST)
    this.#stale = false
  }
}
