/**
 * The shader that draws stations: one point a station, its shape read off an atlas of distances,
 * so that it is crisp at any size, with a halo in the paper's colour.
 */

import { DISTANCE_SPAN, EXTENTS, SHAPES, SYMBOL_REACH } from './symbol-atlas'

/** CSS px over which an edge is smoothed, to either side, on a screen of one pixel each. */
const EDGE = 0.7

export const VERTEX_SOURCE = `#version 300 es
const float EXTENTS[${SHAPES}] = float[](${EXTENTS.map((extent) => extent.toFixed(4)).join(', ')});
uniform mat4 u_matrix;
uniform float u_radius;
uniform float u_halo;
uniform float u_ratio;
uniform vec3 u_paper;
uniform vec3 u_accent;
in vec2 a_place;
in vec4 a_look;
in vec2 a_mark;
out vec3 v_colour;
flat out vec3 v_rim;
flat out float v_alpha;
flat out float v_shape;
flat out float v_radius;
flat out float v_reach;
flat out vec2 v_halo;
void main() {
  gl_Position = u_matrix * vec4(a_place, 0.0, 1.0);
  int state = int(a_mark.y + 0.5);
  bool selected = state == 2;
  v_colour = a_look.rgb;
  v_rim = selected ? u_accent : u_paper;
  v_alpha = state == 1 ? 0.2 : 1.0;
  v_shape = floor(a_mark.x + 0.5);
  v_radius = u_radius * (selected ? 1.35 : state == 3 ? 0.6 : 1.0);
  v_halo = u_halo * vec2(state == 3 ? 0.5 : 1.0, selected ? 2.6 : state == 3 ? 0.5 : 1.0);
  // A larger square would only be painted clear.
  float extent = EXTENTS[int(v_shape)] * v_radius + v_halo.y + ${EDGE} / u_ratio;
  v_reach = min(${SYMBOL_REACH}.0 * v_radius, extent);
  gl_PointSize = 2.0 * v_reach * u_ratio;
}`

/** No branches: drawn in software, all sides of one are worked out at every pixel. */
export const FRAGMENT_SOURCE = `#version 300 es
precision highp float;
uniform float u_ratio;
uniform vec3 u_paper;
uniform sampler2D u_symbols;
in vec3 v_colour;
flat in vec3 v_rim;
flat in float v_alpha;
flat in float v_shape;
flat in float v_radius;
flat in float v_reach;
/* Css px beyond the outline: of the paper's colour, and of the rim's beyond it. */
flat in vec2 v_halo;
out vec4 o_colour;

void main() {
  vec2 p = (gl_PointCoord - 0.5) * 2.0 * v_reach;
  vec2 within = clamp(p / (2.0 * ${SYMBOL_REACH}.0 * v_radius) + 0.5, 0.01, 0.99);
  float kept = texture(u_symbols, vec2((v_shape + within.x) / ${SHAPES}.0, within.y)).r;
  /* Distance to the shape's edge, css px, negative inside. */
  float d = (kept * 2.0 - 1.0) * ${DISTANCE_SPAN}.0 * v_radius;
  float edge = ${EDGE} / u_ratio;
  vec3 part = 1.0 - smoothstep(-edge, edge, d - vec3(0.0, v_halo));
  vec3 colour = mix(v_rim, mix(u_paper, v_colour, part.x), part.y);
  float alpha = part.z * v_alpha;
  o_colour = vec4(colour * alpha, alpha);
}`
