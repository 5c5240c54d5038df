/** The eye: parallel rays as in a drawing, turned about the vertical and tilted. */

import type { Vec3 } from "./types";
import { add, type Box, cross, dot, middle, minus, scaled, size } from "./vector";

export interface Eye {
  /** Compass bearing from which the house is seen, clockwise from north. [deg] */
  readonly bearing: number;
  /** Height of the eye above the horizon. [deg] */
  readonly tilt: number;
  readonly center: Vec3;
  /** Height of what is seen. [m] */
  readonly span: number;
}

export interface Axes {
  readonly right: Vec3;
  readonly up: Vec3;
  /** From the house to the eye. */
  readonly toward: Vec3;
}

export const LOWEST = -15;
export const HIGHEST = 90;
export const CORNER = { bearing: 148, tilt: 32 };

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

export function axesOf(eye: Pick<Eye, "bearing" | "tilt">): Axes {
  const b = radians(eye.bearing);
  const t = radians(eye.tilt);
  const toward: Vec3 = [Math.sin(b) * Math.cos(t), Math.cos(b) * Math.cos(t), Math.sin(t)];
  const right: Vec3 = [-Math.cos(b), Math.sin(b), 0];
  return { right, up: cross(toward, right), toward };
}

/** The eye that sees the whole box in a window of width / height `shape`. */
export function fitted(box: Box, at: Pick<Eye, "bearing" | "tilt">, shape: number): Eye {
  const axes = axesOf(at);
  const half = scaled(minus(box.high, box.low), 0.5);
  const reach = (axis: Vec3): number =>
    Math.abs(axis[0] * half[0]) + Math.abs(axis[1] * half[1]) + Math.abs(axis[2] * half[2]);
  const span = 2.2 * Math.max(reach(axes.up), reach(axes.right) / Math.max(shape, 0.05), 0.5);
  return { ...at, center: middle([box.low, box.high]), span };
}

export function turned(eye: Eye, byBearing: number, byTilt: number): Eye {
  const bearing = (((eye.bearing + byBearing) % 360) + 360) % 360;
  return { ...eye, bearing, tilt: Math.min(HIGHEST, Math.max(LOWEST, eye.tilt + byTilt)) };
}

/** Moved by pixels in a window `height` pixels tall: the house follows the finger. */
export function moved(eye: Eye, dx: number, dy: number, height: number): Eye {
  const axes = axesOf(eye);
  const metres = eye.span / height;
  const shift = add(scaled(axes.right, -dx * metres), scaled(axes.up, dy * metres));
  return { ...eye, center: add(eye.center, shift) };
}

/** Nearer by `factor`, holding still what lies `x`, `y` pixels from the middle of the window. */
export function nearer(eye: Eye, factor: number, x: number, y: number, height: number): Eye {
  const span = Math.min(2000, Math.max(0.05, eye.span / factor));
  const still = { ...eye, span };
  const real = eye.span / span;
  return moved(still, x * (1 - real), y * (1 - real), height);
}

/** Where a point falls in the window: pixels from its left upper corner, and its nearness. [px, px, m] */
export function seenAt(eye: Eye, axes: Axes, p: Vec3, width: number, height: number): Vec3 {
  const rel = minus(p, eye.center);
  const scale = height / eye.span;
  return [
    width / 2 + dot(rel, axes.right) * scale,
    height / 2 - dot(rel, axes.up) * scale,
    dot(rel, axes.toward),
  ];
}

/** Half the depth that must be drawn so that nothing of the box is clipped. [m] */
export function depthOf(box: Box, apart: number): number {
  return size(minus(box.high, box.low)) + 6 * apart + 10;
}

/** The eye on its way from one place to another, the shorter way around; `part` from 0 to 1. */
export function between(start: Eye, goal: Eye, part: number): Eye {
  const t = part * part * (3 - 2 * part);
  const swing = ((goal.bearing - start.bearing + 540) % 360) - 180;
  return {
    bearing: (start.bearing + swing * t + 360) % 360,
    tilt: start.tilt + (goal.tilt - start.tilt) * t,
    center: add(scaled(start.center, 1 - t), scaled(goal.center, t)),
    span: start.span * (goal.span / start.span) ** t,
  };
}
