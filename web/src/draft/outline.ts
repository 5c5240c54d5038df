/** Outlines on the ground, in metres: x east, y north, corners in order. Nothing is changed in place. */

export type Point = readonly [number, number];
export type Outline = readonly Point[];

export interface Side {
  readonly from: Point;
  readonly to: Point;
  readonly length: number;
}

/** The nearest point of a grid. */
export function snapped(p: Point, grid: number): Point {
  return [rounded(Math.round(p[0] / grid) * grid), rounded(Math.round(p[1] / grid) * grid)];
}

/** Sides in order; side `k` runs from corner `k` to the next. */
export function sidesOf(outline: Outline): Side[] {
  return outline.map((from, k) => {
    const to = outline[(k + 1) % outline.length] ?? from;
    return { from, to, length: Math.hypot(to[0] - from[0], to[1] - from[1]) };
  });
}

/** The area inside, positive when the corners run counter-clockwise. [m²] */
export function areaOf(outline: Outline): number {
  return sidesOf(outline).reduce(
    (sum, { from, to }) => sum + (from[0] * to[1] - to[0] * from[1]) / 2,
    0,
  );
}

/** The same outline, counter-clockwise, its first corner kept. */
export function counterClockwise(outline: Outline): Outline {
  const [first, ...rest] = outline;
  return first === undefined || areaOf(outline) >= 0 ? outline : [first, ...rest.reverse()];
}

export function withCorner(outline: Outline, k: number, p: Point): Outline {
  return outline.map((old, j) => (j === k ? p : old));
}

/** Move a side parallel to itself by the part of `by` that is square to it. */
export function withSideMoved(outline: Outline, k: number, by: Point): Outline {
  const side = sidesOf(outline)[k];
  if (side === undefined || side.length === 0) return outline;
  const out: Point = [
    (side.to[1] - side.from[1]) / side.length,
    -(side.to[0] - side.from[0]) / side.length,
  ];
  const reach = by[0] * out[0] + by[1] * out[1];
  const shift = (p: Point): Point => [
    rounded(p[0] + out[0] * reach),
    rounded(p[1] + out[1] * reach),
  ];
  const next = (k + 1) % outline.length;
  return outline.map((p, j) => (j === k || j === next ? shift(p) : p));
}

/** A new corner in the middle of side `k`. */
export function withCornerIn(outline: Outline, k: number, grid: number): Outline {
  const side = sidesOf(outline)[k];
  if (side === undefined) return outline;
  const middle: Point = [(side.from[0] + side.to[0]) / 2, (side.from[1] + side.to[1]) / 2];
  return [...outline.slice(0, k + 1), snapped(middle, grid), ...outline.slice(k + 1)];
}

/** Without corner `k`; three corners always stay. */
export function withoutCorner(outline: Outline, k: number): Outline {
  return outline.length <= 3 ? outline : outline.filter((_, j) => j !== k);
}

/**
 * Give side `k` a length: what lies beyond its end moves with it. The corner at its end moves along the
 * side; so do the corners after it, up to the first side that runs the opposite way and can take it up.
 */
export function withSideLength(outline: Outline, k: number, length: number): Outline {
  const side = sidesOf(outline)[k];
  if (side === undefined || side.length === 0 || length <= 0) return outline;
  const [ux, uy] = [
    (side.to[0] - side.from[0]) / side.length,
    (side.to[1] - side.from[1]) / side.length,
  ];
  const by = length - side.length;
  const n = outline.length;
  const moving = new Set([(k + 1) % n]);
  for (let j = (k + 1) % n; (j + 1) % n !== k; j = (j + 1) % n) {
    const other = sidesOf(outline)[j];
    if (other === undefined) break;
    const along =
      ((other.to[0] - other.from[0]) * ux + (other.to[1] - other.from[1]) * uy) /
      (other.length || 1);
    if (along < -0.7) break;
    moving.add((j + 1) % n);
  }
  moving.delete(k);
  return outline.map((p, j) =>
    moving.has(j) ? [rounded(p[0] + ux * by), rounded(p[1] + uy * by)] : p,
  );
}

export function moved(outline: Outline, by: Point): Outline {
  return outline.map((p) => [rounded(p[0] + by[0]), rounded(p[1] + by[1])]);
}

export function rectangle(x: number, y: number, width: number, depth: number): Outline {
  return [
    [rounded(x), rounded(y)],
    [rounded(x + width), rounded(y)],
    [rounded(x + width), rounded(y + depth)],
    [rounded(x), rounded(y + depth)],
  ];
}

export function isRectangle(outline: Outline): boolean {
  const sides = sidesOf(outline);
  return (
    outline.length === 4 &&
    sides.every(
      ({ from, to }) => Math.abs(from[0] - to[0]) < 1e-6 || Math.abs(from[1] - to[1]) < 1e-6,
    )
  );
}

/** The compass word of a side seen from outside: where it faces. */
export function facing(side: Side): "south" | "east" | "north" | "west" {
  const [nx, ny] = [side.to[1] - side.from[1], side.from[0] - side.to[0]];
  if (Math.abs(nx) > Math.abs(ny)) return nx > 0 ? "east" : "west";
  return ny > 0 ? "north" : "south";
}

/** The letter of the n-th wall counted over all outlines: A to Z, then AA, AB ... */
export function letterOf(n: number): string {
  const tail = String.fromCharCode(65 + (n % 26));
  return n < 26 ? tail : letterOf(Math.floor(n / 26) - 1) + tail;
}

/** A tenth of a millimetre, so that sums of steps do not drift. */
function rounded(metres: number): number {
  return Math.round(metres * 1e7) / 1e7;
}
