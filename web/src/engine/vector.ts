/** Arithmetic on points and directions. */

import type { Vec3 } from "./types";

export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scaled = (a: Vec3, by: number): Vec3 => [a[0] * by, a[1] * by, a[2] * by];
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const size = (a: Vec3): number => Math.hypot(a[0], a[1], a[2]);

/** The unit vector along `a`, or zero where `a` has no length. */
export function unit(a: Vec3): Vec3 {
  const length = size(a);
  return length === 0 ? [0, 0, 0] : scaled(a, 1 / length);
}

/** The mean of points; the origin where there are none. */
export function middle(points: readonly Vec3[]): Vec3 {
  const sum = points.reduce<Vec3>((total, p) => add(total, p), [0, 0, 0]);
  return points.length === 0 ? sum : scaled(sum, 1 / points.length);
}

/** The normal of a flat outline by Newell's sum, of unit length. */
export function normalOf(ring: readonly Vec3[]): Vec3 {
  let sum: Vec3 = [0, 0, 0];
  ring.forEach((p, i) => {
    const q = ring[(i + 1) % ring.length] ?? p;
    sum = add(sum, [
      (p[1] - q[1]) * (p[2] + q[2]),
      (p[2] - q[2]) * (p[0] + q[0]),
      (p[0] - q[0]) * (p[1] + q[1]),
    ]);
  });
  return unit(sum);
}

export interface Box {
  readonly low: Vec3;
  readonly high: Vec3;
}

/** The box around points; a unit box around the origin where there are none. */
export function boxAround(points: Iterable<Vec3>): Box {
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (const p of points) {
    for (let k = 0; k < 3; k += 1) {
      low[k] = Math.min(low[k] as number, p[k] as number);
      high[k] = Math.max(high[k] as number, p[k] as number);
    }
  }
  return low[0] <= high[0] ? { low, high } : { low: [-1, -1, -1], high: [1, 1, 1] };
}
