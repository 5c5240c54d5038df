/** What the scene knows of a house: bodies, joints as lines, nodes. Metres, x east, y north, z up. */

export type Vec3 = readonly [number, number, number];

export type Role = "wall" | "roof" | "floor" | "rim" | "partition" | "timber" | "bearing";

export const ROLES: readonly Role[] = [
  "wall",
  "roof",
  "floor",
  "rim",
  "partition",
  "timber",
  "bearing",
];

/** All bodies as one list of corners. Body `i` owns corners, triangles and edges from `first*[i]`. */
export interface Bodies {
  readonly ids: readonly string[];
  readonly roles: readonly Role[];
  readonly firstVertex: readonly number[];
  readonly firstTriangle: readonly number[];
  readonly firstEdge: readonly number[];
  /** x, y, z of each corner. */
  readonly positions: Float32Array;
  /** Three corners to a triangle, counter-clockwise from outside. */
  readonly triangles: Uint32Array;
  /** Two corners to an edge. */
  readonly edges: Uint32Array;
  /** The unit vector out of each body's outer face. */
  readonly outward: Float32Array;
}

export interface JointLine {
  readonly id: string;
  readonly kind: string;
  /** The bodies it joins, by their place in the list. */
  readonly bodies: readonly number[];
  /** One line, or one on each face. */
  readonly lines: readonly (readonly [Vec3, Vec3])[];
}

export interface NodePoint {
  readonly id: string;
  readonly at: Vec3;
  /** The joints that meet here, by their place in the list. */
  readonly joints: readonly number[];
}

export interface Scene {
  readonly bodies: Bodies;
  readonly joints: readonly JointLine[];
  readonly nodes: readonly NodePoint[];
}

/** How a joint is drawn. Dash lengths in pixels, empty for a full line. */
export interface LineStyle {
  readonly color: string;
  readonly width: number;
  readonly dash: readonly number[];
  readonly shown: boolean;
}

export type Standing = "solid" | "ghost" | "hidden";

export type Axis = "x" | "y" | "z";

/** What lies beyond `at` (0 to 1 through the house) along `axis` is cut away, or what lies before. */
export interface Cut {
  readonly axis: Axis;
  readonly at: number;
  readonly keep: "below" | "above";
}

export type Pick = { readonly what: "joint" | "node"; readonly id: string };
