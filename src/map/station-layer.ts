/**
 * Stations on the map, drawn by a layer of our own: a class that changes is a few kilobytes
 * written to the graphics card, so that a threshold can be dragged with thousands of stations.
 */
import { MercatorCoordinate, type CustomLayerInterface, type Map } from 'maplibre-gl'
import { buildProgram, movedMatrix } from './gl-program'
import { medianSpacing, sizeFor } from './station-size'
import { FRAGMENT_SOURCE, VERTEX_SOURCE } from './station-shader'
import { symbolAtlas } from './symbol-atlas'

/** How a station is shown. */
export const PLAIN = 0
export const DIMMED = 1
export const SELECTED = 2
/** Under the others and smaller: depths of a hole crowd along its course. */
export const SMALL = 3

/** Stations to draw; arrays have one entry a station. Later entries stand on top. */
export interface StationMarks {
  /** Degrees. */
  readonly longitudes: Float64Array
  readonly latitudes: Float64Array
  /** RGB, three bytes a station. */
  readonly colours: Uint8Array
  /** The shader's shape number. */
  readonly shapes: Uint8Array
  /** PLAIN, DIMMED, SELECTED or SMALL. */
  readonly states: Uint8Array
  /** 1 for depths of a hole: they stand closer than any station, and do not set the size. */
  readonly inHole: Uint8Array
}

/** What the look decides. */
export interface StationLook {
  /** CSS px. */
  readonly radius: number
  readonly halo: number
  /** RGB 0 to 255. */
  readonly paper: readonly [number, number, number]
  readonly accent: readonly [number, number, number]
}

const NOTHING: StationMarks = {
  longitudes: new Float64Array(),
  latitudes: new Float64Array(),
  colours: new Uint8Array(),
  shapes: new Uint8Array(),
  states: new Uint8Array(),
  inHole: new Uint8Array(),
}

/** All stations as a custom layer of MapLibre’s, which calls it when the map is drawn. */
export class StationLayer implements CustomLayerInterface {
  readonly id = 'stations'
  readonly type = 'custom' as const
  readonly renderingMode = '2d' as const

  #map: Map | null = null
  #gl: WebGL2RenderingContext | null = null
  #program: WebGLProgram | null = null
  #places: WebGLBuffer | null = null
  #looks: WebGLBuffer | null = null
  #array: WebGLVertexArrayObject | null = null
  #symbols: WebGLTexture | null = null
  #marks = NOTHING
  #origin: [number, number] = [0, 0]
  /** Median distance between stations, of the world's width. */
  #spacing = Infinity
  #order: Uint32Array = new Uint32Array()
  #placesStale = true
  #looksStale = true

  constructor(private look: StationLook) {}

  /** Replaces the stations; where only looks changed, positions are not sent again. */
  setMarks(marks: StationMarks): void {
    if (marks.states.length + this.#marks.states.length === 0) return
    const moved =
      marks.longitudes !== this.#marks.longitudes || marks.latitudes !== this.#marks.latitudes
    this.#marks = marks
    if (moved) this.#spacing = medianSpacing(spotsOf(marks))
    this.#placesStale ||= moved
    this.#placesStale ||= reorders(marks.states, this.#order)
    this.#looksStale = true
    this.#map?.triggerRepaint()
  }

  setLook(look: StationLook): void {
    this.look = look
    this.#map?.triggerRepaint()
  }

  /**
   * The station nearest to a point on the screen, within its own size and a finger's slack.
   *
   * @param slack CSS px beyond the symbol's edge
   * @returns its number, or null
   */
  nearest(map: Map, point: { x: number; y: number }, slack: number): number | null {
    const { longitudes, latitudes, states } = this.#marks
    let best: number | null = null
    let bestDistance = this.look.radius * this.#size() + slack
    for (let i = 0; i < longitudes.length; i++) {
      const screen = map.project([longitudes[i], latitudes[i]])
      let distance = Math.hypot(screen.x - point.x, screen.y - point.y)
      if (states[i] === DIMMED) distance += slack / 2
      if (distance < bestDistance) {
        best = i
        bestDistance = distance
      }
    }
    return best
  }

  onAdd(map: Map, gl: WebGL2RenderingContext): void {
    this.#map = map
    this.#gl = gl
    this.#program = buildProgram(gl, 'station', VERTEX_SOURCE, FRAGMENT_SOURCE)
    this.#places = gl.createBuffer()
    this.#looks = gl.createBuffer()
    this.#array = gl.createVertexArray()
    this.#symbols = symbolTexture(gl)
    this.#placesStale = this.#looksStale = true
    gl.bindVertexArray(this.#array)
    bindAttribute(gl, this.#program, this.#places, 'a_place', 2, gl.FLOAT, false, 8, 0)
    bindAttribute(gl, this.#program, this.#looks, 'a_look', 4, gl.UNSIGNED_BYTE, true, 8, 0)
    bindAttribute(gl, this.#program, this.#looks, 'a_mark', 2, gl.UNSIGNED_BYTE, false, 8, 4)
    gl.bindVertexArray(null)
  }

  onRemove(_map: Map, gl: WebGL2RenderingContext): void {
    gl.deleteProgram(this.#program)
    gl.deleteBuffer(this.#places)
    gl.deleteBuffer(this.#looks)
    gl.deleteVertexArray(this.#array)
    gl.deleteTexture(this.#symbols)
    this.#map = null
    this.#gl = null
  }

  render(
    gl: WebGL2RenderingContext,
    options: { defaultProjectionData: { mainMatrix: ArrayLike<number> } },
  ): void {
    const count = this.#marks.longitudes.length
    const program = this.#program
    if (!program || count === 0) return
    if (this.#placesStale) this.#sendPlaces()
    if (this.#looksStale) this.#sendLooks()
    const ratio = gl.drawingBufferWidth / (this.#map?.getCanvas().clientWidth || 1)
    gl.useProgram(program)
    gl.bindVertexArray(this.#array)
    const uniform = (name: string) => gl.getUniformLocation(program, name)
    gl.uniformMatrix4fv(
      uniform('u_matrix'),
      false,
      movedMatrix(options.defaultProjectionData.mainMatrix, this.#origin),
    )
    const size = this.#size()
    gl.uniform1f(uniform('u_radius'), this.look.radius * size)
    gl.uniform1f(uniform('u_halo'), this.look.halo * size)
    gl.uniform1f(uniform('u_ratio'), ratio)
    gl.uniform3f(uniform('u_paper'), ...unit(this.look.paper))
    gl.uniform3f(uniform('u_accent'), ...unit(this.look.accent))
    gl.activeTexture(gl.TEXTURE0)
    gl.bindTexture(gl.TEXTURE_2D, this.#symbols)
    gl.uniform1i(uniform('u_symbols'), 0)
    gl.disable(gl.DEPTH_TEST)
    gl.disable(gl.STENCIL_TEST)
    gl.enable(gl.BLEND)
    gl.blendFunc(gl.ONE, gl.ONE_MINUS_SRC_ALPHA)
    gl.drawArrays(gl.POINTS, 0, count)
    gl.bindVertexArray(null)
  }

  /** The part of the look's own size at which stations are drawn at this zoom. */
  #size(): number {
    const worldWidth = 512 * 2 ** (this.#map?.getZoom() ?? 0)
    return sizeFor(this.look.radius, this.#spacing * worldWidth)
  }

  /** Positions relative to the first station, so that 32 bits hold a millimetre. */
  #sendPlaces(): void {
    const gl = this.#gl
    if (!gl) return
    const { longitudes, latitudes, states } = this.#marks
    const count = longitudes.length
    this.#order = drawingOrder(states)
    const first = MercatorCoordinate.fromLngLat([longitudes[0], latitudes[0]])
    this.#origin = [first.x, first.y]
    const places = new Float32Array(2 * count)
    for (let slot = 0; slot < count; slot++) {
      const i = this.#order[slot]
      const place = MercatorCoordinate.fromLngLat([longitudes[i], latitudes[i]])
      places[2 * slot] = place.x - first.x
      places[2 * slot + 1] = place.y - first.y
    }
    gl.bindBuffer(gl.ARRAY_BUFFER, this.#places)
    gl.bufferData(gl.ARRAY_BUFFER, places, gl.STATIC_DRAW)
    this.#placesStale = false
    this.#looksStale = true
  }

  #sendLooks(): void {
    const gl = this.#gl
    if (!gl) return
    const { colours, shapes, states } = this.#marks
    const looks = new Uint8Array(8 * this.#order.length)
    for (let slot = 0; slot < this.#order.length; slot++) {
      const i = this.#order[slot]
      looks.set([colours[3 * i], colours[3 * i + 1], colours[3 * i + 2], 255], 8 * slot)
      looks[8 * slot + 4] = shapes[i]
      looks[8 * slot + 5] = states[i]
    }
    gl.bindBuffer(gl.ARRAY_BUFFER, this.#looks)
    gl.bufferData(gl.ARRAY_BUFFER, looks, gl.DYNAMIC_DRAW)
    this.#looksStale = false
  }
}

/** Where stations stand in the map's plane, x and y in turn, of the world's width; holes aside. */
function spotsOf({ longitudes, latitudes, inHole }: StationMarks): Float64Array {
  const spots = new Float64Array(2 * longitudes.length)
  let count = 0
  for (let i = 0; i < longitudes.length; i++) {
    if (inHole[i]) continue
    const { x, y } = MercatorCoordinate.fromLngLat([longitudes[i], latitudes[i]])
    spots[count++] = x
    spots[count++] = y
  }
  return spots.subarray(0, count)
}

/** Dimmed stations first, selected ones last, each in their own order. */
function drawingOrder(states: Uint8Array): Uint32Array {
  const rank = [2, 0, 3, 1]
  return Uint32Array.from(states.keys()).sort((a, b) => rank[states[a]] - rank[states[b]] || a - b)
}

function reorders(states: Uint8Array, order: Uint32Array): boolean {
  if (order.length !== states.length) return true
  const fresh = drawingOrder(states)
  return fresh.some((station, slot) => order[slot] !== station)
}

function unit([r, g, b]: readonly [number, number, number]): [number, number, number] {
  return [r / 255, g / 255, b / 255]
}

function symbolTexture(gl: WebGL2RenderingContext): WebGLTexture {
  const { width, height, bytes } = symbolAtlas()
  const texture = gl.createTexture()
  gl.bindTexture(gl.TEXTURE_2D, texture)
  gl.pixelStorei(gl.UNPACK_ALIGNMENT, 1)
  gl.pixelStorei(gl.UNPACK_FLIP_Y_WEBGL, false)
  gl.pixelStorei(gl.UNPACK_PREMULTIPLY_ALPHA_WEBGL, false)
  gl.texImage2D(gl.TEXTURE_2D, 0, gl.R8, width, height, 0, gl.RED, gl.UNSIGNED_BYTE, bytes)
  for (const side of [gl.TEXTURE_WRAP_S, gl.TEXTURE_WRAP_T]) {
    gl.texParameteri(gl.TEXTURE_2D, side, gl.CLAMP_TO_EDGE)
  }
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.LINEAR)
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.LINEAR)
  gl.pixelStorei(gl.UNPACK_ALIGNMENT, 4)
  return texture
}

function bindAttribute(
  gl: WebGL2RenderingContext,
  program: WebGLProgram,
  buffer: WebGLBuffer | null,
  name: string,
  size: number,
  type: number,
  normalised: boolean,
  stride: number,
  offset: number,
): void {
  const location = gl.getAttribLocation(program, name)
  gl.bindBuffer(gl.ARRAY_BUFFER, buffer)
  gl.enableVertexAttribArray(location)
  gl.vertexAttribPointer(location, size, type, normalised, stride, offset)
}
