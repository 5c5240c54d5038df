/** Bodies made ready to draw: flat shading, edges, and which way each moves when the house is drawn apart. */

import { type Bodies, ROLES, type Scene, type Vec3 } from "./types";
import { add, type Box, boxAround, cross, dot, middle, minus, scaled, size, unit } from "./vector";

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
  readonly aways: readonly Vec3[];
  /** A ball around each body: its middle and radius. */
  readonly balls: readonly { readonly at: Vec3; readonly radius: number }[];
  readonly box: Box;
}

const LIGHT: Vec3 = unit([-0.35, -0.55, 0.76]);

/** Build the mesh of a scene. */
export function buildMesh(scene: Scene): Mesh {
  const { bodies } = scene;
  const box = boxAround(corners(bodies.positions));
  const aways = awaysOf(bodies, box);
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
    balls: ballsOf(bodies),
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
  aways: readonly Vec3[],
): Spread {
  const position = new Float32Array(list.length * 3);
  const away = new Float32Array(list.length * 3);
  const role = new Float32Array(list.length);
  bodies.ids.forEach((_, body) => {
    const shift = aways[body] ?? [0, 0, 0];
    const rank = ROLES.indexOf(bodies.roles[body] ?? "wall");
    for (let k = (first[body] ?? 0) * each; k < (first[body + 1] ?? 0) * each; k += 1) {
      const corner = (list[k] as number) * 3;
      position.set(bodies.positions.subarray(corner, corner + 3), k * 3);
      away.set(shift, k * 3);
      role[k] = rank;
    }
  });
  return { position, away, role };
}

function shades(position: Float32Array): Float32Array {
  const shade = new Float32Array(position.length / 3);
  for (let k = 0; k < shade.length; k += 3) {
    const [a, b, c] = [pointAt(position, k), pointAt(position, k + 1), pointAt(position, k + 2)];
    const normal = unit(cross(minus(b, a), minus(c, a)));
    shade.fill(0.8 + 0.2 * Math.max(dot(normal, LIGHT), 0), k, k + 3);
  }
  return shade;
}

/** Outward along each body's own normal, and away from the middle of the house. */
function awaysOf(bodies: Bodies, box: Box): Vec3[] {
  const center = middle([box.low, box.high]);
  const reach = Math.max(size(minus(box.high, box.low)) / 2, 1);
  return bodies.ids.map((_, body) => {
    const own = boxAround(
      corners(bodies.positions, bodies.firstVertex[body], bodies.firstVertex[body + 1]),
    );
    const out = scaled(minus(middle([own.low, own.high]), center), 1.1 / reach);
    const role = bodies.roles[body];
    const weight = role === "wall" || role === "roof" ? 0.9 : 0;
    return add(scaled(pointAt(bodies.outward, body), weight), out);
  });
}

function ballsOf(bodies: Bodies): Mesh["balls"] {
  return bodies.ids.map((_, body) => {
    const own = boxAround(
      corners(bodies.positions, bodies.firstVertex[body], bodies.firstVertex[body + 1]),
    );
    return { at: middle([own.low, own.high]), radius: size(minus(own.high, own.low)) / 2 };
  });
}

function* corners(list: Float32Array, first = 0, end = list.length / 3): Generator<Vec3> {
  for (let k = first; k < end; k += 1) yield pointAt(list, k);
}

/** The k-th point of a packed list. */
export function pointAt(list: Float32Array, k: number): Vec3 {
  return [list[k * 3] ?? 0, list[k * 3 + 1] ?? 0, list[k * 3 + 2] ?? 0];
}
