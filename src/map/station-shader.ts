/**
 * The shader that draws stations: one point a station, its shape a signed distance, so that it
 * is crisp at any size, with a halo in the paper's colour.
 */

/** Shapes in the shader's numbering; the first eight are the classes' symbols in their order. */
export const RING = 8
export const SLASHED_RING = 9

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
out float v_reach;
void main() {
  gl_Position = u_matrix * vec4(a_place, 0.0, 1.0);
  v_colour = a_look.rgb;
  v_shape = int(a_mark.x + 0.5);
  v_state = int(a_mark.y + 0.5);
  float size = v_state == 2 ? u_radius * 1.35 : u_radius;
  v_reach = size + u_halo * (v_state == 2 ? 2.6 : 1.0) + 2.0;
  gl_PointSize = 2.0 * v_reach * u_ratio;
}`

export const FRAGMENT_SOURCE = `#version 300 es
precision highp float;
uniform float u_radius;
uniform float u_halo;
uniform float u_ratio;
uniform vec3 u_paper;
uniform vec3 u_accent;
in vec3 v_colour;
flat in int v_shape;
flat in int v_state;
in float v_reach;
out vec4 o_colour;

float box(vec2 p, vec2 b) { vec2 d = abs(p) - b; return length(max(d, 0.0)) + min(max(d.x, d.y), 0.0); }

float ngon(vec2 p, float r, float n) {
  float a = 6.2831853 / n;
  float t = atan(p.x, p.y);
  t = mod(t + 0.5 * a, a) - 0.5 * a;
  return length(p) * cos(t) - r * cos(0.5 * a);
}

float triangle(vec2 p, float r) {
  const float k = 1.7320508;
  p.x = abs(p.x) - r;
  p.y = p.y + r / k;
  if (p.x + k * p.y > 0.0) p = vec2(p.x - k * p.y, -k * p.x - p.y) / 2.0;
  p.x -= clamp(p.x, -2.0 * r, 0.0);
  return -length(p) * sign(p.y);
}

float star(vec2 p, float r) {
  const vec2 k1 = vec2(0.809016994, -0.587785252);
  const vec2 k2 = vec2(-0.809016994, -0.587785252);
  p.x = abs(p.x);
  p -= 2.0 * max(dot(k1, p), 0.0) * k1;
  p -= 2.0 * max(dot(k2, p), 0.0) * k2;
  p.x = abs(p.x);
  p.y -= r;
  vec2 ba = 0.5 * vec2(-k1.y, k1.x) - vec2(0.0, 1.0);
  float h = clamp(dot(p, ba) / dot(ba, ba), 0.0, r);
  return length(p - ba * h) * sign(p.y * ba.x - p.x * ba.y);
}

/* Distance to the shape's edge, css px, negative inside. y points up. */
float shape(vec2 p, float r) {
  if (v_shape == 0) return length(p) - r * 0.92;
  if (v_shape == 1) return box(p, vec2(r * 0.82));
  if (v_shape == 2) return triangle(p + vec2(0.0, r * 0.12), r * 1.02);
  if (v_shape == 3) return box(mat2(0.7071, 0.7071, -0.7071, 0.7071) * p, vec2(r * 0.78));
  if (v_shape == 4) return min(box(p, vec2(r, r * 0.36)), box(p, vec2(r * 0.36, r)));
  if (v_shape == 5) return star(p, r * 1.22);
  if (v_shape == 6) return ngon(p, r, 6.0);
  if (v_shape == 7) return triangle(vec2(p.x, -p.y) + vec2(0.0, r * 0.12), r * 1.02);
  float ring = abs(length(p) - r * 0.66) - r * 0.2;
  if (v_shape == 8) return ring;
  return min(ring, box(mat2(0.7071, 0.7071, -0.7071, 0.7071) * p, vec2(r * 0.12, r * 0.66)));
}

void main() {
  vec2 p = (gl_PointCoord - 0.5) * 2.0 * v_reach;
  p.y = -p.y;
  float r = v_state == 2 ? u_radius * 1.35 : u_radius;
  float d = shape(p, r);
  float edge = 0.75 / u_ratio;
  float inside = 1.0 - smoothstep(-edge, edge, d);
  float halo = 1.0 - smoothstep(-edge, edge, d - u_halo);
  vec3 colour = mix(u_paper, v_colour, inside);
  float alpha = halo;
  if (v_state == 2) {
    float outer = 1.0 - smoothstep(-edge, edge, d - u_halo * 2.6);
    colour = mix(u_accent, colour, halo);
    alpha = outer;
  }
  if (v_state == 1) alpha *= 0.22;
  if (alpha < 0.004) discard;
  o_colour = vec4(colour * alpha, alpha);
}`
