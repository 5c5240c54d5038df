/** What lies under a finger: the nearest joint or node that is not hidden behind a body. */

import { axesOf, type Eye } from "./camera";
import type { Mesh } from "./mesh";
import type { Segments, Spots } from "./segments";
import { type Cut, type Pick, ROLES, type Standing, type Vec3 } from "./types";

export interface PickWorld {
  readonly joints: readonly string[];
  readonly nodes: readonly string[];
  readonly mesh: Mesh;
  readonly segments: Segments;
  readonly spots: Spots;
  readonly eye: Eye;
  readonly apart: number;
  readonly cut: Cut | null;
  readonly standing: Readonly<Record<string, Standing>>;
  readonly shown: (joint: number) => boolean;
  readonly nodesShown: boolean;
}

interface Candidate {
  readonly pick: Pick;
  readonly distance: number;
  readonly at: Vec3;
}

/** The pick within `radius` pixels of (x, y) in a window `width` by `height`, or null. */
export function pickAt(
  world: PickWorld,
  x: number,
  y: number,
  width: number,
  height: number,
  radius: number,
): Pick | null {
  const found: Candidate[] = [];
  const seen = sight(world.eye, width, height);
  jointsNear(world, seen, x, y, radius, found);
  if (world.nodesShown) nodesNear(world, seen, x, y, radius, found);
  found.sort((a, b) => a.distance - b.distance);
  found.splice(MOST);
  const toward = axesOf(world.eye).toward;
  return found.find((one) => !isBehind(world, toward, one.at))?.pick ?? null;
}

/** Where a point falls in the window: two rows of a matrix, each with its shift. */
type Sight = readonly [number, number, number, number, number, number, number, number];

function sight(eye: Eye, width: number, height: number): Sight {
  const { right, up } = axesOf(eye);
  const s = height / eye.span;
  const c = eye.center;
  const [a, b] = [right[0] * s, right[1] * s];
  const [d, e, f] = [-up[0] * s, -up[1] * s, -up[2] * s];
  const r2 = right[2] * s;
  return [
    a, b, r2, width / 2 - (a * c[0] + b * c[1] + r2 * c[2]),
    d, e, f, height / 2 - (d * c[0] + e * c[1] + f * c[2]),
  ]; // biome-ignore format: two rows
}

function jointsNear(
  world: PickWorld,
  m: Sight,
  x: number,
  y: number,
  radius: number,
  found: Candidate[],
): void {
  const { from, to, away, owner } = world.segments;
  const part = (list: Float32Array, k: number): number =>
    (list[k] as number) + (away[k] as number) * world.apart;
  for (let k = 0; k < owner.length; k += 1) {
    const at = 3 * k;
    const [a0, a1, a2] = [part(from, at), part(from, at + 1), part(from, at + 2)];
    const [b0, b1, b2] = [part(to, at), part(to, at + 1), part(to, at + 2)];
    const u = m[0] * a0 + m[1] * a1 + m[2] * a2 + m[3];
    const v = m[4] * a0 + m[5] * a1 + m[6] * a2 + m[7];
    const dx = m[0] * b0 + m[1] * b1 + m[2] * b2 + m[3] - u;
    const dy = m[4] * b0 + m[5] * b1 + m[6] * b2 + m[7] - v;
    const length2 = dx * dx + dy * dy;
    const raw = length2 === 0 ? 0 : ((x - u) * dx + (y - v) * dy) / length2;
    const t = Math.min(1, Math.max(0, raw));
    const distance = Math.sqrt((u + t * dx - x) ** 2 + (v + t * dy - y) ** 2);
    if (distance > radius) continue;
    const joint = owner[k] as number;
    const place: Vec3 = [a0 + t * (b0 - a0), a1 + t * (b1 - a1), a2 + t * (b2 - a2)];
    if (!world.shown(joint) || isCutAway(world, place)) continue;
    found.push({ pick: { what: "joint", id: world.joints[joint] ?? "" }, distance, at: place });
  }
}

function nodesNear(
  world: PickWorld,
  m: Sight,
  x: number,
  y: number,
  radius: number,
  found: Candidate[],
): void {
  const { at, away } = world.spots;
  for (let k = 0; k < at.length; k += 3) {
    const place: [number, number, number] = [0, 0, 0];
    for (let axis = 0; axis < 3; axis += 1)
      place[axis] = (at[k + axis] as number) + (away[k + axis] as number) * world.apart;
    const u = m[0] * place[0] + m[1] * place[1] + m[2] * place[2] + m[3];
    const v = m[4] * place[0] + m[5] * place[1] + m[6] * place[2] + m[7];
    const distance = Math.sqrt((u - x) ** 2 + (v - y) ** 2) - 6;
    if (distance > radius || isCutAway(world, place)) continue;
    found.push({ pick: { what: "node", id: world.nodes[k / 3] ?? "" }, distance, at: place });
  }
}

/** The plane of a cut: what has `p · normal` above `limit` is cut away. */
export function cutPlane(cut: Cut | null, mesh: Mesh): { normal: Vec3; limit: number } {
  if (cut === null) return { normal: [0, 0, 0], limit: 1 };
  const k = cut.axis === "x" ? 0 : cut.axis === "y" ? 1 : 2;
  const low = mesh.box.low[k] as number;
  const at = low + ((mesh.box.high[k] as number) - low) * cut.at;
  const sign = cut.keep === "below" ? 1 : -1;
  const normal: Vec3 = [k === 0 ? sign : 0, k === 1 ? sign : 0, k === 2 ? sign : 0];
  return { normal, limit: sign * at };
}

function isCutAway(world: PickWorld, p: Vec3): boolean {
  if (world.cut === null) return false;
  const { normal, limit } = cutPlane(world.cut, world.mesh);
  return p[0] * normal[0] + p[1] * normal[1] + p[2] * normal[2] > limit + 0.01;
}

const NEAR = 0.06;
/** Candidates looked at; behind a thick bundle of lines nothing is picked rather than waited for. */
const MOST = 60;

/** Whether a solid body stands between the eye and a point, more than a few centimetres before it. */
function isBehind(world: PickWorld, dir: Vec3, p: Vec3): boolean {
  const { role, starts, balls, aways } = world.mesh;
  for (let body = 0; body + 1 < starts.length; body += 1) {
    let [along, square] = [0, 0];
    for (let axis = 0; axis < 3; axis += 1) {
      const rel = (balls[body * 4 + axis] as number) +
        (aways[body * 3 + axis] as number) * world.apart - (p[axis] as number); // biome-ignore format: one sum
      along += rel * (dir[axis] as number);
      square += rel * rel;
    }
    const radius = balls[body * 4 + 3] as number;
    if (along <= -radius || square - along * along > radius * radius) continue;
    const first = starts[body] as number;
    const last = starts[body + 1] as number;
    if (first === last || world.standing[ROLES[role[first] ?? 0] ?? "wall"] !== "solid") continue;
    for (let k = first; k < last; k += 3) {
      const hit = rayHit(world, p, dir, k);
      if (hit < NEAR) continue;
      if (!isCutAway(world, [p[0] + dir[0] * hit, p[1] + dir[1] * hit, p[2] + dir[2] * hit]))
        return true;
    }
  }
  return false;
}

/** How far along `dir` from `p` the triangle at corner `k` is met; -1 where it is not. [m] */
function rayHit(world: PickWorld, p: Vec3, dir: Vec3, k: number): number {
  const { position, away } = world.mesh;
  const at = (corner: number, axis: number): number => {
    const place = (k + corner) * 3 + axis;
    return (position[place] as number) + (away[place] as number) * world.apart;
  };
  const [ax, ay, az] = [at(0, 0), at(0, 1), at(0, 2)];
  const [bx, by, bz] = [at(1, 0) - ax, at(1, 1) - ay, at(1, 2) - az];
  const [cx, cy, cz] = [at(2, 0) - ax, at(2, 1) - ay, at(2, 2) - az];
  const [hx, hy, hz] = [
    dir[1] * cz - dir[2] * cy,
    dir[2] * cx - dir[0] * cz,
    dir[0] * cy - dir[1] * cx,
  ];
  const det = bx * hx + by * hy + bz * hz;
  if (Math.abs(det) < 1e-9) return -1;
  const [sx, sy, sz] = [p[0] - ax, p[1] - ay, p[2] - az];
  const u = (sx * hx + sy * hy + sz * hz) / det;
  if (u < 0 || u > 1) return -1;
  const [qx, qy, qz] = [sy * bz - sz * by, sz * bx - sx * bz, sx * by - sy * bx];
  const v = (dir[0] * qx + dir[1] * qy + dir[2] * qz) / det;
  if (v < 0 || u + v > 1) return -1;
  return (cx * qx + cy * qy + cz * qz) / det;
}
