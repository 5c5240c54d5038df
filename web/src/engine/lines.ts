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
import type { Segments, Spots } from "./segments";
import type { LineStyle } from "./types";

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

/** How joints are drawn: a few styles, and which of them each joint has. */
export interface Painted {
  readonly styles: readonly LineStyle[];
  readonly of: Uint8Array;
}

/** Ribbons in blocks, so that a weak machine can draw them a block at a time. */
export interface Ribbons {
  readonly blocks: readonly InstancedBufferGeometry[];
  readonly segments: Segments;
}

const QUAD = Float32Array.from([0, -1, 0, 1, -1, 0, 1, 1, 0, 0, 1, 0]);
const CORNERS = Float32Array.from([-1, -1, 0, 1, -1, 0, 1, 1, 0, -1, 1, 0]);
const BLOCK = 4096;

/** Ribbons for the pieces of joints. */
export function buildRibbons(segments: Segments): Ribbons {
  const n = segments.owner.length;
  const blocks: InstancedBufferGeometry[] = [];
  for (let start = 0; start < n; start += BLOCK) {
    const end = Math.min(n, start + BLOCK);
    const geometry = quads(QUAD, end - start);
    const part = (list: Float32Array): InstancedBufferAttribute =>
      new InstancedBufferAttribute(list.subarray(start * 3, end * 3), 3);
    geometry.setAttribute("from", part(segments.from));
    geometry.setAttribute("to", part(segments.to));
    geometry.setAttribute("away", part(segments.away));
    for (const name of ["ink", "look"]) {
      const empty = new Float32Array((end - start) * 3);
      geometry.setAttribute(name, new InstancedBufferAttribute(empty, 3));
    }
    blocks.push(geometry);
  }
  return { blocks, segments };
}

/** Set color, width and dashes of every ribbon: nothing else of them is sent anew. */
export function paintRibbons(ribbons: Ribbons, painted: Painted, dashes: Dashes): void {
  const rows = painted.styles.map((style) => {
    const { row, period } = dashes.of(style.dash);
    return [...parts(style.color), style.shown ? style.width : 0, row, period];
  });
  const none = [0, 0, 0, 2, 0, 0];
  let k = 0;
  for (const block of ribbons.blocks) {
    const ink = block.getAttribute("ink") as InstancedBufferAttribute;
    const look = block.getAttribute("look") as InstancedBufferAttribute;
    for (let at = 0; at < ink.array.length; at += 3) {
      const style = rows[painted.of[ribbons.segments.owner[k] as number] ?? -1] ?? none;
      for (let part = 0; part < 3; part += 1) {
        ink.array[at + part] = style[part] as number;
        look.array[at + part] = style[part + 3] as number;
      }
      k += 1;
    }
    ink.needsUpdate = true;
    look.needsUpdate = true;
  }
}

/** Dots for the nodes; `big` 0 plain, 1 chosen, -1 not shown. */
export function buildDots(spots: Spots): InstancedBufferGeometry {
  const n = spots.at.length / 3;
  const geometry = quads(CORNERS, n);
  geometry.setAttribute("at", new InstancedBufferAttribute(spots.at, 3));
  geometry.setAttribute("away", new InstancedBufferAttribute(spots.away, 3));
  geometry.setAttribute("big", new InstancedBufferAttribute(new Float32Array(n), 1));
  return geometry;
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
