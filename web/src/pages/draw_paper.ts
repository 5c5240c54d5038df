/** Between metres on the ground and pixels on the paper; north is up. */

import type { Point } from "../draft/outline";

export interface Paper {
  /** Pixels to a metre. */
  readonly scale: number;
  readonly paper: (p: Point) => Point;
  readonly ground: (p: Point) => Point;
}

const MARGIN = 64;

/** Paper of `shape` pixels that shows what lies between two corners, with room around it. */
export function paperFor(
  [low, high]: readonly [Point, Point],
  shape: readonly [number, number],
): Paper {
  const wide = Math.max(high[0] - low[0], 2);
  const deep = Math.max(high[1] - low[1], 2);
  const room = [Math.max(shape[0] - 2 * MARGIN, 40), Math.max(shape[1] - 2 * MARGIN, 40)] as const;
  const scale = Math.min(room[0] / wide, room[1] / deep);
  const center: Point = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
  return {
    scale,
    paper: (p) => [
      shape[0] / 2 + (p[0] - center[0]) * scale,
      shape[1] / 2 - (p[1] - center[1]) * scale,
    ],
    ground: (p) => [
      center[0] + (p[0] - shape[0] / 2) / scale,
      center[1] - (p[1] - shape[1] / 2) / scale,
    ],
  };
}
