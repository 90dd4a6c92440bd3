/**
 * The shader that draws stations: one point a station, its shape read off an atlas of distances,
 * so that it is crisp at any size, with a halo in the paper's colour.
 */

import { SYMBOLS } from '../classes/rule'

/** Shapes in the shader's numbering; the first are the classes' symbols in their order. */
export const RING = SYMBOLS.length
export const SLASHED_RING = RING + 1

export const VERTEX_SOURCE = `#version 300 es
uniform mat4 u_matrix;
uniform float u_radius;
uniform float u_halo;
uniform float u_ratio;
in vec2 a_place;
in vec4 a_look;
in vec2 a_mark;
out vec3 v_colour;
flat out int v_shape;
flat out int v_state;
flat out float v_radius;
flat out float v_reach;
void main() {
  gl_Position = u_matrix * vec4(a_place, 0.0, 1.0);
  v_colour = a_look.rgb;
  v_shape = int(a_mark.x + 0.5);
  v_state = int(a_mark.y + 0.5);
  v_radius = u_radius * (v_state == 2 ? 1.35 : v_state == 3 ? 0.6 : 1.0);
  // No outline reaches past 1.6 radii; a larger square would only be painted clear.
  v_reach = min(2.0 * v_radius, v_radius * 1.6 + u_halo * (v_state == 2 ? 2.6 : 1.0) + 1.5);
  gl_PointSize = 2.0 * v_reach * u_ratio;
}`

export const FRAGMENT_SOURCE = `#version 300 es
precision highp float;
uniform float u_halo;
uniform float u_ratio;
uniform vec3 u_paper;
uniform vec3 u_accent;
uniform sampler2D u_symbols;
in vec3 v_colour;
flat in int v_shape;
flat in int v_state;
flat in float v_radius;
flat in float v_reach;
out vec4 o_colour;

float slash(vec2 p, vec2 b) {
  p = mat2(0.7071, 0.7071, -0.7071, 0.7071) * p;
  vec2 d = abs(p) - b;
  return length(max(d, 0.0)) + min(max(d.x, d.y), 0.0);
}

/* Distance to the shape's edge, css px, negative inside. y points down. */
float distance_to_shape(vec2 p) {
  float r = v_radius;
  if (v_shape < ${RING}) {
    vec2 within = clamp(p / (2.0 * 2.0 * r) + 0.5, 0.01, 0.99);
    float kept = texture(u_symbols, vec2((float(v_shape) + within.x) / ${RING}.0, within.y)).r;
    return (kept * 2.0 - 1.0) * r;
  }
  float ring = abs(length(p) - r * 0.62) - r * 0.18;
  if (v_shape == ${RING}) return ring;
  return min(ring, slash(p, vec2(r * 0.62, r * 0.13)));
}

void main() {
  vec2 p = (gl_PointCoord - 0.5) * 2.0 * v_reach;
  float d = distance_to_shape(p);
  float edge = 0.7 / u_ratio;
  float inside = 1.0 - smoothstep(-edge, edge, d);
  float halo = 1.0 - smoothstep(-edge, edge, d - (v_state == 3 ? 0.5 : 1.0) * u_halo);
  vec3 colour = mix(u_paper, v_colour, inside);
  float alpha = halo;
  if (v_state == 2) {
    colour = mix(u_accent, colour, halo);
    alpha = 1.0 - smoothstep(-edge, edge, d - u_halo * 2.6);
  }
  if (v_state == 1) alpha *= 0.2;
  if (alpha < 0.004) discard;
  o_colour = vec4(colour * alpha, alpha);
}`
