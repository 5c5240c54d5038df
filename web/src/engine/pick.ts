/** What lies under a finger: the nearest joint or node that is not hidden behind a body. */

import { type Axes, axesOf, type Eye, seenAt } from "./camera";
import type { Mesh } from "./mesh";
import { type Cut, type Pick, ROLES, type Scene, type Standing, type Vec3 } from "./types";
import { add, cross, dot, minus, scaled } from "./vector";

export interface PickWorld {
  readonly scene: Scene;
  readonly mesh: Mesh;
  readonly jointAways: readonly Vec3[];
  readonly nodeAways: readonly Vec3[];
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
  const axes = axesOf(world.eye);
  const found: Candidate[] = [];
  const seen = (p: Vec3): Vec3 => seenAt(world.eye, axes, p, width, height);
  world.scene.joints.forEach((joint, index) => {
    if (!world.shown(index)) return;
    const shift = scaled(world.jointAways[index] ?? [0, 0, 0], world.apart);
    for (const [from, to] of joint.lines) {
      const [a, b] = [add(from, shift), add(to, shift)];
      const [distance, t] = toSegment(seen(a), seen(b), x, y);
      if (distance > radius) continue;
      const at = add(a, scaled(minus(b, a), t));
      if (!isCutAway(world, at))
        found.push({ pick: { what: "joint", id: joint.id }, distance, at });
    }
  });
  if (world.nodesShown) found.push(...nodesNear(world, seen, x, y, radius));
  found.sort((a, b) => a.distance - b.distance);
  found.splice(MOST);
  return found.find((one) => !isBehind(world, axes, one.at))?.pick ?? null;
}

function nodesNear(
  world: PickWorld,
  seen: (p: Vec3) => Vec3,
  x: number,
  y: number,
  radius: number,
): Candidate[] {
  const found: Candidate[] = [];
  world.scene.nodes.forEach((node, index) => {
    const at = add(node.at, scaled(world.nodeAways[index] ?? [0, 0, 0], world.apart));
    const [u, v] = seen(at);
    const distance = Math.hypot(u - x, v - y) - 6;
    if (distance > radius || isCutAway(world, at)) return;
    found.push({ pick: { what: "node", id: node.id }, distance, at });
  });
  return found;
}

function toSegment(a: Vec3, b: Vec3, x: number, y: number): [number, number] {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length2 = dx * dx + dy * dy;
  const raw = length2 === 0 ? 0 : ((x - a[0]) * dx + (y - a[1]) * dy) / length2;
  const t = Math.min(1, Math.max(0, raw));
  return [Math.hypot(a[0] + t * dx - x, a[1] + t * dy - y), t];
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
  const { normal, limit } = cutPlane(world.cut, world.mesh);
  return dot(p, normal) > limit + 0.01;
}

const NEAR = 0.06;
/** Candidates looked at; behind a thick bundle of lines nothing is picked rather than waited for. */
const MOST = 60;

/** Whether a solid body stands between the eye and a point, more than a few centimetres before it. */
function isBehind(world: PickWorld, axes: Axes, p: Vec3): boolean {
  const { position, away, role, starts } = world.mesh;
  const shape = (k: number): Vec3 => [
    (position[k * 3] as number) + (away[k * 3] as number) * world.apart,
    (position[k * 3 + 1] as number) + (away[k * 3 + 1] as number) * world.apart,
    (position[k * 3 + 2] as number) + (away[k * 3 + 2] as number) * world.apart,
  ];
  for (let body = 0; body + 1 < starts.length; body += 1) {
    const first = starts[body] as number;
    const standing = world.standing[ROLES[role[first] ?? 0] ?? "wall"];
    if (standing !== "solid" || !isNearRay(world, axes, p, body)) continue;
    for (let k = first; k < (starts[body + 1] as number); k += 3) {
      const hit = rayHit(p, axes.toward, shape(k), shape(k + 1), shape(k + 2));
      if (hit === null || hit < NEAR) continue;
      if (!isCutAway(world, add(p, scaled(axes.toward, hit)))) return true;
    }
  }
  return false;
}

/** Whether the ray from `p` to the eye passes through the ball around a body. */
function isNearRay(world: PickWorld, axes: Axes, p: Vec3, body: number): boolean {
  const ball = world.mesh.balls[body];
  const away = world.mesh.aways[body];
  if (ball === undefined || away === undefined) return false;
  const rel = minus(add(ball.at, scaled(away, world.apart)), p);
  const along = dot(rel, axes.toward);
  const across = dot(rel, rel) - along * along;
  return along > -ball.radius && across <= ball.radius * ball.radius;
}

/** How far along `dir` from `p` a triangle is met, or null. [m] */
function rayHit(p: Vec3, dir: Vec3, a: Vec3, b: Vec3, c: Vec3): number | null {
  const [ab, ac] = [minus(b, a), minus(c, a)];
  const h = cross(dir, ac);
  const det = dot(ab, h);
  if (Math.abs(det) < 1e-9) return null;
  const s = minus(p, a);
  const u = dot(s, h) / det;
  if (u < 0 || u > 1) return null;
  const q = cross(s, ab);
  const v = dot(dir, q) / det;
  if (v < 0 || u + v > 1) return null;
  const t = dot(ac, q) / det;
  return t > 0 ? t : null;
}
