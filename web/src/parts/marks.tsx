/** Our own marks and line samples, the same as on the drawings. */

import type { JSX } from "preact";
import type { LineStyle } from "../engine/types";

export type Mark =
  | "square" | "box" | "disc" | "ring" | "wedge" | "delta" | "lozenge" | "rhomb"
  | "cross" | "plus" | "bar" | "bars" | "tee" | "vee" | "hat" | "star"; // biome-ignore format: one list

const OUTLINES: Partial<Record<Mark, readonly [string, boolean]>> = {
  square: ["-7,-7 7,-7 7,7 -7,7", true],
  box: ["-7,-7 7,-7 7,7 -7,7", false],
  wedge: ["0,-8 8,7 -8,7", true],
  delta: ["0,-8 8,7 -8,7", false],
  lozenge: ["0,-9 9,0 0,9 -9,0", true],
  rhomb: ["0,-9 9,0 0,9 -9,0", false],
};

const STROKES: Partial<Record<Mark, string>> = {
  cross: "M-7-7 7 7M-7 7 7-7",
  plus: "M-8 0H8M0-8V8",
  bar: "M0-9V9",
  bars: "M-3-9V9M3-9V9",
  tee: "M-8-7H8M0-7V9",
  vee: "M-8-7 0 8 8-7",
  hat: "M-8 8 0-7 8 8",
  star: "M-9 0H9M-5-8 5 8M-5 8 5-8",
};

/** A mark in a square of its own, drawn in the color of the text around it. */
export function MarkSign({ mark, full }: { mark: Mark; full?: boolean }): JSX.Element {
  const outline = OUTLINES[mark];
  const stroke = STROKES[mark];
  return (
    <svg viewBox="-11 -11 22 22" width="22" height="22" aria-hidden="true">
      {(mark === "disc" || mark === "ring") && (
        <circle
          r="7.500"
          fill={mark === "disc" || full ? "currentColor" : "#fff"}
          stroke="currentColor"
          stroke-width="2.500"
        />
      )}
      {outline !== undefined && (
        <polygon
          points={outline[0]}
          fill={outline[1] || full ? "currentColor" : "#fff"}
          stroke="currentColor"
          stroke-width="2.500"
        />
      )}
      {stroke !== undefined && (
        <path d={stroke} fill="none" stroke="currentColor" stroke-width="3" />
      )}
    </svg>
  );
}

/** A sample of a line, as the legend shows it. */
export function LineSample({ style }: { style: LineStyle }): JSX.Element {
  return (
    <svg width="64" height="14" viewBox="0 0 64 14" aria-hidden="true">
      <line
        x1="1"
        x2="63"
        y1="7"
        y2="7"
        stroke={style.color}
        stroke-width={style.width}
        {...(style.dash.length === 0 ? {} : { "stroke-dasharray": style.dash.join(" ") })}
      />
    </svg>
  );
}
