/** What layers of our own share: a program of two shaders, and a matrix that keeps its precision. */

/**
 * Compiles and links a program.
 *
 * @param what names it in errors
 * @throws Error with the driver's words
 */
export function buildProgram(
  gl: WebGL2RenderingContext,
  what: string,
  vertex: string,
  fragment: string,
): WebGLProgram {
  const program = gl.createProgram()
  gl.attachShader(program, buildShader(gl, what, gl.VERTEX_SHADER, vertex))
  gl.attachShader(program, buildShader(gl, what, gl.FRAGMENT_SHADER, fragment))
  gl.linkProgram(program)
  if (!gl.getProgramParameter(program, gl.LINK_STATUS)) {
    throw new Error(`The ${what} shader does not link: ${gl.getProgramInfoLog(program) ?? ''}`)
  }
  return program
}

function buildShader(
  gl: WebGL2RenderingContext,
  what: string,
  kind: number,
  source: string,
): WebGLShader {
  const shader = gl.createShader(kind)
  if (!shader) throw new Error('The graphics context is lost.')
  gl.shaderSource(shader, source)
  gl.compileShader(shader)
  if (!gl.getShaderParameter(shader, gl.COMPILE_STATUS)) {
    throw new Error(`The ${what} shader does not compile: ${gl.getShaderInfoLog(shader) ?? ''}`)
  }
  return shader
}

/** The matrix times a translation, in double precision before it is rounded to 32 bits. */
export function movedMatrix(
  matrix: ArrayLike<number>,
  [x, y]: readonly [number, number],
): Float32Array {
  const moved = Float32Array.from(matrix)
  for (let row = 0; row < 4; row++) {
    moved[12 + row] = matrix[row] * x + matrix[4 + row] * y + matrix[12 + row]
  }
  return moved
}
