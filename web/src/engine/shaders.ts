/** The three shaders of the scene: bodies with hatched cuts, dashed ribbons for joints, nodes. */

/** Only a house that is cut looks at the plane: to discard costs time on weak machines. */
const CUT = `
uniform vec4 cut;
varying vec3 place;
#ifdef CUTTING
#define CUT_AWAY if (dot(place, cut.xyz) > cut.w) discard;
#else
#define CUT_AWAY
#endif
`;

export const BODY_VERTEX = `
attribute vec3 away;
attribute float shade;
attribute float role;
uniform float apart;
uniform float standing[7];
uniform float pass;
varying vec3 place;
varying float tone;
varying float rank;
varying float mine;
void main() {
  place = position + away * apart;
  tone = shade;
  rank = role;
  mine = standing[int(role + 0.5)];
  bool drawn = pass < 0.0 ? mine < 1.5 : abs(mine - pass) < 0.5;
  vec4 p = projectionMatrix * modelViewMatrix * vec4(place, 1.0);
  gl_Position = drawn ? p : vec4(2.0, 2.0, 2.0, 1.0);
}`;

export const BODY_FRAGMENT = `
${CUT}
uniform float pass;
uniform float pixel;
varying float tone;
varying float rank;
void main() {
  CUT_AWAY
  int row = int(rank + 0.5);
  vec3 paper = row == 5 ? vec3(0.91, 0.84, 0.72) : row == 6 ? vec3(0.86) : vec3(1.0, 0.995, 0.98);
  if (pass > 0.5) { gl_FragColor = vec4(vec3(0.35), 0.07); return; }
  if (!gl_FrontFacing) {
    float stripe = mod(gl_FragCoord.x + gl_FragCoord.y, 7.0 * pixel);
    gl_FragColor = vec4(stripe < 1.6 * pixel ? vec3(0.25) : vec3(0.93, 0.9, 0.82), 1.0);
    return;
  }
  gl_FragColor = vec4(paper * tone, 1.0);
}`;

export const EDGE_FRAGMENT = `
${CUT}
varying float mine;
void main() {
  CUT_AWAY
  gl_FragColor = vec4(vec3(0.30), mine > 0.5 ? 0.35 : 1.0);
}`;

export const LINE_VERTEX = `
attribute vec3 from;
attribute vec3 to;
attribute vec3 away;
attribute vec3 ink;
attribute vec3 look;
uniform float apart;
uniform vec2 window;
uniform float pixel;
uniform float widen;
uniform float lift;
varying vec3 place;
varying vec3 hue;
varying float along;
varying float row;
varying float period;
varying float across;
void main() {
  vec3 a = from + away * apart;
  vec3 b = to + away * apart;
  vec4 pa = projectionMatrix * modelViewMatrix * vec4(a, 1.0);
  vec4 pb = projectionMatrix * modelViewMatrix * vec4(b, 1.0);
  vec2 run = (pb.xy - pa.xy) * window * 0.5;
  float length2 = length(run);
  vec2 dir = length2 > 1e-4 ? run / length2 : vec2(1.0, 0.0);
  vec2 side = vec2(-dir.y, dir.x);
  float half_width = 0.5 * (look.x + widen) * pixel;
  vec4 p = mix(pa, pb, position.x);
  vec2 shift = side * position.y * half_width + dir * (position.x * 2.0 - 1.0) * half_width * 0.5;
  p.xy += shift / (window * 0.5);
  p.z -= lift;
  place = mix(a, b, position.x);
  hue = ink;
  row = look.y;
  period = look.z * pixel;
  along = position.x * length2;
  across = position.y;
  gl_Position = look.x > 0.0 ? p : vec4(2.0, 2.0, 2.0, 1.0);
}`;

export const LINE_FRAGMENT = `
${CUT}
uniform sampler2D dashes;
uniform float rows;
uniform float strength;
uniform vec3 over;
uniform float useOver;
varying vec3 hue;
varying float along;
varying float row;
varying float period;
varying float across;
void main() {
  CUT_AWAY
  if (useOver < 0.5 && period > 0.0) {
    float ink = texture2D(dashes, vec2(fract(along / period), (row + 0.5) / rows)).r;
    if (ink < 0.5) discard;
  }
  gl_FragColor = vec4(useOver > 0.5 ? over : hue, strength);
}`;

export const NODE_VERTEX = `
attribute vec3 at;
attribute vec3 away;
attribute float big;
uniform float apart;
uniform vec2 window;
uniform float pixel;
uniform float lift;
varying vec3 place;
varying vec2 spot;
varying float chosen;
void main() {
  place = at + away * apart;
  vec4 p = projectionMatrix * modelViewMatrix * vec4(place, 1.0);
  p.xy += position.xy * (big > 0.5 ? 10.0 : 4.0) * pixel / (window * 0.5);
  p.z -= lift;
  spot = position.xy;
  chosen = big;
  gl_Position = big < -0.5 ? vec4(2.0, 2.0, 2.0, 1.0) : p;
}`;

export const NODE_FRAGMENT = `
${CUT}
varying vec2 spot;
varying float chosen;
void main() {
  float r = length(spot);
  CUT_AWAY
  if (r > 1.0) discard;
  vec3 inside = chosen > 0.5 ? vec3(0.94, 0.89, 0.26) : vec3(1.0);
  gl_FragColor = vec4(r > 0.6 ? vec3(0.0) : inside, 1.0);
}`;
