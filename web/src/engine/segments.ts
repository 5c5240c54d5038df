/** Joints as straight pieces and nodes as points, in lists of numbers: what is drawn and what is picked. */

import type { Mesh } from "./mesh";
import type { JointLine, NodePoint } from "./types";

export interface Segments {
  /** x, y, z of both ends of each piece, and how it moves when the house is drawn apart. */
  readonly from: Float32Array;
  readonly to: Float32Array;
  readonly away: Float32Array;
  /** Which joint each piece belongs to, by its place in the list. */
  readonly owner: Uint32Array;
}

export interface Spots {
  readonly at: Float32Array;
  readonly away: Float32Array;
}

/** How each joint moves when the house is drawn apart: as the panels it joins, on average. */
export function jointAways(joints: readonly JointLine[], mesh: Mesh): Float32Array {
  const found = new Float32Array(joints.length * 3);
  joints.forEach((joint, k) => {
    const known = joint.bodies.filter((body) => body * 3 < mesh.aways.length);
    for (const body of known) {
      for (let axis = 0; axis < 3; axis += 1) {
        found[k * 3 + axis] = (found[k * 3 + axis] as number) +
          (mesh.aways[body * 3 + axis] as number) / known.length; // biome-ignore format: one sum
      }
    }
  });
  return found;
}

/** The lines of joints, one for each face. */
export function segmentsOf(joints: readonly JointLine[], aways: Float32Array): Segments {
  const n = joints.reduce((sum, joint) => sum + joint.lines.length, 0);
  const [from, to, away] = [0, 1, 2].map(() => new Float32Array(n * 3)) as [
    Float32Array,
    Float32Array,
    Float32Array,
  ];
  const owner = new Uint32Array(n);
  let k = 0;
  joints.forEach((joint, index) => {
    for (const [a, b] of joint.lines) {
      for (let axis = 0; axis < 3; axis += 1) {
        from[k * 3 + axis] = a[axis] as number;
        to[k * 3 + axis] = b[axis] as number;
        away[k * 3 + axis] = aways[index * 3 + axis] as number;
      }
      owner[k] = index;
      k += 1;
    }
  });
  return { from, to, away, owner };
}

/** The places of nodes; each moves as the joints that meet there, on average. */
export function spotsOf(nodes: readonly NodePoint[], aways: Float32Array): Spots {
  const at = new Float32Array(nodes.length * 3);
  const away = new Float32Array(nodes.length * 3);
  nodes.forEach((node, k) => {
    for (let axis = 0; axis < 3; axis += 1) {
      at[k * 3 + axis] = node.at[axis] as number;
      let sum = 0;
      for (const joint of node.joints) sum += aways[joint * 3 + axis] ?? 0;
      away[k * 3 + axis] = sum / Math.max(node.joints.length, 1);
    }
  });
  return { at, away };
}
