/** Bodies made ready to draw: flat shading, edges, and which way each moves when the house is drawn apart. */

import { type Bodies, ROLES, type Scene, type Vec3 } from "./types";
import { type Box, unit } from "./vector";

export interface Mesh {
  readonly position: Float32Array;
  readonly away: Float32Array;
  /** Brightness by how the face lies to the light, 0 to 1. */
  readonly shade: Float32Array;
  readonly role: Float32Array;
  readonly edgePosition: Float32Array;
  readonly edgeAway: Float32Array;
  readonly edgeRole: Float32Array;
  /** First corner of each body in the triangle list, one more than there are bodies. */
  readonly starts: readonly number[];
  /** How each body moves: x, y, z. */
  readonly aways: Float32Array;
  /** A ball around each body: x, y, z of its middle, and its radius. */
  readonly balls: Float32Array;
  readonly box: Box;
}

const LIGHT: Vec3 = unit([-0.35, -0.55, 0.76]);

/** Build the mesh of a scene. */
export function buildMesh(scene: Scene): Mesh {
  const { bodies } = scene;
  const box = boxOf(bodies.positions, 0, bodies.positions.length / 3);
  const balls = ballsOf(bodies);
  const aways = awaysOf(bodies, box, balls);
  const faces = spread(bodies, bodies.triangles, bodies.firstTriangle, 3, aways);
  const edges = spread(bodies, bodies.edges, bodies.firstEdge, 2, aways);
  return {
    position: faces.position,
    away: faces.away,
    role: faces.role,
    shade: shades(faces.position),
    edgePosition: edges.position,
    edgeAway: edges.away,
    edgeRole: edges.role,
    starts: bodies.firstTriangle.map((first) => first * 3),
    aways,
    balls,
    box,
  };
}

interface Spread {
  readonly position: Float32Array;
  readonly away: Float32Array;
  readonly role: Float32Array;
}

/** Give every corner of `list` its own place, movement and role. */
function spread(
  bodies: Bodies,
  list: Uint32Array,
  first: readonly number[],
  each: number,
  aways: Float32Array,
): Spread {
  const position = new Float32Array(list.length * 3);
  const away = new Float32Array(list.length * 3);
  const role = new Float32Array(list.length);
  const from = bodies.positions;
  for (let body = 0; body < bodies.ids.length; body += 1) {
    const rank = ROLES.indexOf(bodies.roles[body] ?? "wall");
    const end = (first[body + 1] ?? 0) * each;
    for (let k = (first[body] ?? 0) * each; k < end; k += 1) {
      const corner = (list[k] as number) * 3;
      for (let axis = 0; axis < 3; axis += 1) {
        position[k * 3 + axis] = from[corner + axis] as number;
        away[k * 3 + axis] = aways[body * 3 + axis] as number;
      }
      role[k] = rank;
    }
  }
  return { position, away, role };
}

function shades(position: Float32Array): Float32Array {
  const shade = new Float32Array(position.length / 3);
  for (let k = 0; k < shade.length; k += 3) {
    const at = (corner: number, axis: number): number =>
      (position[(k + corner) * 3 + axis] as number) - (position[k * 3 + axis] as number);
    const x = at(1, 1) * at(2, 2) - at(1, 2) * at(2, 1);
    const y = at(1, 2) * at(2, 0) - at(1, 0) * at(2, 2);
    const z = at(1, 0) * at(2, 1) - at(1, 1) * at(2, 0);
    const size = Math.sqrt(x * x + y * y + z * z);
    const light = size === 0 ? 0 : (x * LIGHT[0] + y * LIGHT[1] + z * LIGHT[2]) / size;
    shade.fill(0.8 + 0.2 * Math.max(light, 0), k, k + 3);
  }
  return shade;
}

/** Outward along each body's own normal, and away from the middle of the house. */
function awaysOf(bodies: Bodies, box: Box, balls: Float32Array): Float32Array {
  const aways = new Float32Array(bodies.ids.length * 3);
  const sizes = [0, 1, 2].map((k) => (box.high[k] as number) - (box.low[k] as number));
  const reach = Math.max(Math.hypot(...sizes) / 2, 1);
  for (let body = 0; body < bodies.ids.length; body += 1) {
    const role = bodies.roles[body];
    const weight = role === "wall" || role === "roof" ? 0.9 : 0;
    for (let k = 0; k < 3; k += 1) {
      const center = ((box.low[k] as number) + (box.high[k] as number)) / 2;
      const out = ((balls[body * 4 + k] as number) - center) * (1.1 / reach);
      aways[body * 3 + k] = (bodies.outward[body * 3 + k] ?? 0) * weight + out;
    }
  }
  return aways;
}

function ballsOf(bodies: Bodies): Float32Array {
  const balls = new Float32Array(bodies.ids.length * 4);
  for (let body = 0; body < bodies.ids.length; body += 1) {
    const { low, high } = boxOf(
      bodies.positions,
      bodies.firstVertex[body] ?? 0,
      bodies.firstVertex[body + 1] ?? 0,
    );
    for (let k = 0; k < 3; k += 1)
      balls[body * 4 + k] = ((low[k] as number) + (high[k] as number)) / 2;
    balls[body * 4 + 3] = Math.hypot(high[0] - low[0], high[1] - low[1], high[2] - low[2]) / 2;
  }
  return balls;
}

/** The box around the points from `first` to before `end`; a unit box where there are none. */
function boxOf(list: Float32Array, first: number, end: number): Box {
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (let k = first * 3; k < end * 3; k += 1) {
    const value = list[k] as number;
    const axis = k % 3;
    if (value < (low[axis] as number)) low[axis] = value;
    if (value > (high[axis] as number)) high[axis] = value;
  }
  return low[0] <= high[0] ? { low, high } : { low: [-1, -1, -1], high: [1, 1, 1] };
}

/** The k-th point of a packed list. */
export function pointAt(list: Float32Array, k: number): Vec3 {
  return [list[k * 3] ?? 0, list[k * 3 + 1] ?? 0, list[k * 3 + 2] ?? 0];
}
