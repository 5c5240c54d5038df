/** The scene as the server packs it, opened: numbers in base64 become typed arrays. */

import type { components } from "../api/schema";
import { pointAt } from "./mesh";
import type { JointLine, NodePoint, Role, Scene, Vec3 } from "./types";
import { minus, size } from "./vector";

export type PackedScene = components["schemas"]["SceneOut"];

/** What a page tells of a scene: everything but the shapes, numbers as typed arrays. */
export interface ToldScene {
  readonly house: string;
  readonly revision: number;
  readonly low: readonly number[];
  readonly high: readonly number[];
  /** The sorts of bodies there are. */
  readonly sorts: readonly string[];
  readonly joints: {
    readonly ids: readonly string[];
    readonly kinds: readonly string[];
    readonly kind: Int16Array;
    readonly stages: readonly string[];
    readonly stage: Int16Array;
    readonly states: readonly string[];
    readonly state: Int16Array;
    readonly faces: readonly string[];
    readonly face: Int16Array;
    readonly signed: Int16Array;
    readonly look: Int16Array;
    readonly length: Float32Array;
  };
  readonly nodes: {
    readonly ids: readonly string[];
    readonly first: Uint32Array;
    readonly joints: Uint32Array;
  };
}

const PANELS: Record<string, Role> = {
  wall: "wall",
  roof: "roof",
  floor: "floor",
  rim: "rim",
  partition: "partition",
  slab: "bearing",
  stem_wall: "bearing",
  deck: "bearing",
  other_wall: "bearing",
};

/** Open a packed scene. A body of a sort nobody knows is a timber. */
export function readScene(packed: PackedScene): Scene {
  const { bodies } = packed;
  return {
    bodies: {
      ids: bodies.ids,
      roles: bodies.sort.map((k) => PANELS[bodies.sorts[k] ?? ""] ?? "timber"),
      firstVertex: bodies.first_vertex,
      firstTriangle: bodies.first_triangle,
      firstEdge: bodies.first_edge,
      positions: floats(bodies.positions_f32),
      triangles: wholes(bodies.triangles_u32),
      edges: wholes(bodies.edges_u32),
      outward: floats(bodies.outward_f32),
    },
    joints: joints(packed),
    nodes: nodes(packed),
  };
}

/** What a page needs to know of a packed scene. */
export function tellScene(packed: PackedScene): ToldScene {
  const of = packed.joints;
  return {
    house: packed.house,
    revision: packed.revision,
    low: packed.low_m,
    high: packed.high_m,
    sorts: packed.bodies.sorts,
    joints: {
      ids: of.ids,
      kinds: of.kinds,
      kind: Int16Array.from(of.kind),
      stages: of.stages,
      stage: Int16Array.from(of.stage),
      states: of.states,
      state: Int16Array.from(of.state),
      faces: of.faces,
      face: Int16Array.from(of.face),
      signed: Int16Array.from(of.signed),
      look: Int16Array.from(of.look),
      length: floats(of.length_f32),
    },
    nodes: {
      ids: packed.nodes.ids,
      first: Uint32Array.from(packed.nodes.first_joint),
      joints: wholes(packed.nodes.joints_u32),
    },
  };
}

/** Little-endian 32-bit floats in base64. */
export function floats(text: string): Float32Array {
  return new Float32Array(bytes(text));
}

/** Little-endian 32-bit whole numbers in base64. */
export function wholes(text: string): Uint32Array {
  return new Uint32Array(bytes(text));
}

function bytes(text: string): ArrayBuffer {
  const letters = atob(text);
  const list = new Uint8Array(letters.length);
  for (let k = 0; k < letters.length; k += 1) list[k] = letters.charCodeAt(k);
  return list.buffer;
}

type Segment = readonly [Vec3, Vec3];

function joints(scene: PackedScene): JointLine[] {
  const packed = scene.joints;
  const ends = floats(packed.ends_f32);
  const joined = wholes(packed.bodies_u32);
  const first = packed.first_body;
  const faces = [floats(packed.inner_f32), floats(packed.outer_f32)];
  return packed.ids.map((id, k) => {
    const own = segmentAt(ends, k);
    const lines = faces.map((list) => segmentAt(list, k)).filter(([a, b]) => size(minus(b, a)) > 0);
    return {
      id,
      kind: packed.kinds[packed.kind[k] ?? 0] ?? "",
      bodies: [...joined.subarray(first[k] ?? 0, first[k + 1] ?? 0)],
      lines: lines.length === 0 ? [own] : lines,
    };
  });
}

function segmentAt(list: Float32Array, k: number): Segment {
  return [pointAt(list, 2 * k), pointAt(list, 2 * k + 1)];
}

function nodes({ nodes: packed }: PackedScene): NodePoint[] {
  const at = floats(packed.at_f32);
  const meeting = wholes(packed.joints_u32);
  return packed.ids.map((id, k) => ({
    id,
    at: pointAt(at, k),
    joints: [...meeting.subarray(packed.first_joint[k], packed.first_joint[k + 1])],
  }));
}
