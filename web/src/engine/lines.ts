/** Joints and nodes as instanced ribbons and dots, and the table of dashes they share. */

import {
  BufferAttribute,
  DataTexture,
  InstancedBufferAttribute,
  InstancedBufferGeometry,
  NearestFilter,
  RedFormat,
  RepeatWrapping,
} from "three";
import type { Mesh } from "./mesh";
import type { JointLine, LineStyle, NodePoint, Scene, Vec3 } from "./types";
import { add, scaled } from "./vector";

const CELLS = 128;
const ROWS = 64;

/** Dash patterns, each a row of a texture; equal patterns share a row. */
export class Dashes {
  readonly texture: DataTexture;
  readonly rows = ROWS;
  private readonly cells = new Uint8Array(CELLS * ROWS);
  private readonly known = new Map<string, { row: number; period: number }>();

  constructor() {
    this.texture = new DataTexture(this.cells, CELLS, ROWS, RedFormat);
    this.texture.magFilter = NearestFilter;
    this.texture.minFilter = NearestFilter;
    this.texture.wrapS = RepeatWrapping;
  }

  /** The row and length of a pattern; a full line has length 0. */
  of(dash: readonly number[]): { row: number; period: number } {
    if (dash.length === 0) return { row: 0, period: 0 };
    const key = dash.join(" ");
    const old = this.known.get(key);
    if (old !== undefined) return old;
    const row = Math.min(this.known.size, ROWS - 1);
    const period = dash.reduce((sum, part) => sum + part, 0);
    for (let cell = 0; cell < CELLS; cell += 1) {
      this.cells[row * CELLS + cell] = isInk(dash, ((cell + 0.5) / CELLS) * period) ? 255 : 0;
    }
    this.texture.needsUpdate = true;
    const found = { row, period };
    this.known.set(key, found);
    return found;
  }
}

function isInk(dash: readonly number[], at: number): boolean {
  let end = 0;
  for (let k = 0; k < dash.length; k += 1) {
    end += dash[k] ?? 0;
    if (at < end) return k % 2 === 0;
  }
  return false;
}

export interface Ribbons {
  readonly geometry: InstancedBufferGeometry;
  /** Which joint each ribbon belongs to. */
  readonly owner: readonly number[];
}

const QUAD = Float32Array.from([0, -1, 0, 1, -1, 0, 1, 1, 0, 0, 1, 0]);
const CORNERS = Float32Array.from([-1, -1, 0, 1, -1, 0, 1, 1, 0, -1, 1, 0]);

/** How a joint moves when the house is drawn apart: as the panels it joins, on average. */
export function jointAway(joint: JointLine, mesh: Mesh): Vec3 {
  const found = joint.bodies.map((body) => mesh.aways[body]).filter((away) => away !== undefined);
  const sum = found.reduce<Vec3>((total, away) => add(total, away), [0, 0, 0]);
  return found.length === 0 ? sum : scaled(sum, 1 / found.length);
}

/** Ribbons for the lines of `joints`, one for each face. */
export function buildRibbons(joints: readonly JointLine[], mesh: Mesh): Ribbons {
  const from: number[] = [];
  const to: number[] = [];
  const away: number[] = [];
  const owner: number[] = [];
  joints.forEach((joint, index) => {
    const shift = jointAway(joint, mesh);
    for (const [a, b] of joint.lines) {
      from.push(...a);
      to.push(...b);
      away.push(...shift);
      owner.push(index);
    }
  });
  const geometry = quads(QUAD, owner.length);
  geometry.setAttribute("from", new InstancedBufferAttribute(Float32Array.from(from), 3));
  geometry.setAttribute("to", new InstancedBufferAttribute(Float32Array.from(to), 3));
  geometry.setAttribute("away", new InstancedBufferAttribute(Float32Array.from(away), 3));
  const empty = (): InstancedBufferAttribute =>
    new InstancedBufferAttribute(new Float32Array(owner.length * 3), 3);
  geometry.setAttribute("ink", empty());
  geometry.setAttribute("look", empty());
  return { geometry, owner };
}

/** Set color, width and dashes of every ribbon. */
export function paintRibbons(
  ribbons: Ribbons,
  styleOf: (joint: number) => LineStyle,
  dashes: Dashes,
): void {
  const ink = ribbons.geometry.getAttribute("ink");
  const look = ribbons.geometry.getAttribute("look");
  ribbons.owner.forEach((joint, k) => {
    const style = styleOf(joint);
    const [r, g, b] = parts(style.color);
    const { row, period } = dashes.of(style.dash);
    ink.setXYZ(k, r, g, b);
    look.setXYZ(k, style.shown ? style.width : 0, row, period);
  });
  ink.needsUpdate = true;
  look.needsUpdate = true;
}

/** Dots for the nodes; `big` 0 plain, 1 chosen, -1 not shown. */
export function buildDots(
  scene: Scene,
  mesh: Mesh,
): { geometry: InstancedBufferGeometry; aways: readonly Vec3[] } {
  const aways = scene.nodes.map((node) => nodeAway(node, scene, mesh));
  const geometry = quads(CORNERS, scene.nodes.length);
  const at = Float32Array.from(scene.nodes.flatMap((node) => [...node.at]));
  geometry.setAttribute("at", new InstancedBufferAttribute(at, 3));
  geometry.setAttribute("away", new InstancedBufferAttribute(Float32Array.from(aways.flat()), 3));
  const big = new Float32Array(scene.nodes.length);
  geometry.setAttribute("big", new InstancedBufferAttribute(big, 1));
  return { geometry, aways };
}

function nodeAway(node: NodePoint, scene: Scene, mesh: Mesh): Vec3 {
  const found = node.joints.map((k) => scene.joints[k]).filter((joint) => joint !== undefined);
  const sum = found.reduce<Vec3>((total, joint) => add(total, jointAway(joint, mesh)), [0, 0, 0]);
  return found.length === 0 ? sum : scaled(sum, 1 / found.length);
}

function quads(corners: Float32Array, count: number): InstancedBufferGeometry {
  const geometry = new InstancedBufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(corners, 3));
  geometry.setIndex([0, 1, 2, 0, 2, 3]);
  geometry.instanceCount = count;
  return geometry;
}

function parts(color: string): [number, number, number] {
  const value = Number.parseInt(color.slice(1), 16);
  return [(value >> 16) / 255, ((value >> 8) & 255) / 255, (value & 255) / 255];
}
