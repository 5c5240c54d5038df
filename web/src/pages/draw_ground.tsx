/** The ground as squared paper: outlines with corners and sides that are dragged, or moved by arrow keys. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { extent, type HouseForm, wallsOf, withOutline } from "../draft/form";
import {
  counterClockwise,
  type Outline,
  type Point,
  sidesOf,
  snapped,
  withCorner,
  withCornerIn,
  withoutCorner,
  withSideMoved,
} from "../draft/outline";
import { say } from "../state/say";
import { units } from "../state/ways";
import { showLength } from "../units/show";
import { GroundOpenings } from "./draw_ground_openings";
import { type Paper, paperFor } from "./draw_paper";

interface Props {
  readonly form: HouseForm;
  readonly grid: number;
  readonly current: number;
  readonly onCurrent: (footprint: number) => void;
  readonly onForm: (form: HouseForm, about: string) => void;
}

interface Drag {
  readonly footprint: number;
  readonly what: "corner" | "side";
  readonly index: number;
  readonly start: Point;
  readonly outline: Outline;
}

export function Ground({ form, grid, current, onCurrent, onForm }: Props): JSX.Element {
  const frame = useRef<SVGSVGElement>(null);
  const shape = useSignal<readonly [number, number]>([640, 480]);
  const drag = useSignal<Drag | null>(null);
  const held = useSignal<Paper | null>(null);
  useEffect(() => {
    const svg = frame.current;
    if (svg === null) return;
    const watcher = new ResizeObserver(() => {
      shape.value = [Math.max(svg.clientWidth, 200), Math.max(svg.clientHeight, 200)];
    });
    watcher.observe(svg);
    return () => watcher.disconnect();
  }, []);
  const fresh = paperFor(extent(form.footprints.flatMap((one) => one.corners_m)), shape.value);
  const paper = drag.value === null ? fresh : (held.value ?? fresh);

  const spot = (event: PointerEvent): Point => {
    const box = frame.current?.getBoundingClientRect();
    return paper.ground([event.clientX - (box?.left ?? 0), event.clientY - (box?.top ?? 0)]);
  };
  const begin =
    (footprint: number, what: Drag["what"], index: number) =>
    (event: PointerEvent): void => {
      const outline = form.footprints[footprint]?.corners_m;
      if (outline === undefined || event.button !== 0) return;
      frame.current?.setPointerCapture(event.pointerId);
      onCurrent(footprint);
      held.value = paper;
      drag.value = { footprint, what, index, start: spot(event), outline };
    };
  const move = (event: PointerEvent): void => {
    const now = drag.value;
    if (now === null) return;
    const at = spot(event);
    const about = `${now.what} ${now.footprint} ${now.index} ${now.start.join(" ")}`;
    const by: Point = [at[0] - now.start[0], at[1] - now.start[1]];
    const outline =
      now.what === "corner"
        ? withCorner(now.outline, now.index, snapped(at, grid))
        : withSideMoved(now.outline, now.index, snapped(by, grid));
    onForm(withOutline(form, now.footprint, outline), about);
  };
  const end = (): void => {
    const now = drag.value;
    drag.value = null;
    if (now === null) return;
    const outline = form.footprints[now.footprint]?.corners_m ?? now.outline;
    const turned = counterClockwise(outline);
    if (turned !== outline) onForm(withOutline(form, now.footprint, turned), "turn");
  };
  const walls = wallsOf(form);
  return (
    <svg
      ref={frame}
      class="ground"
      role="group"
      aria-label={say("ground.name")}
      onPointerMove={move}
      onPointerUp={end}
      onPointerCancel={end}
    >
      <Squares paper={paper} grid={grid} shape={shape.value} />
      {form.footprints.map((one, footprint) => (
        <g key={one.id} class={footprint === current ? "outline current" : "outline"}>
          <polygon points={one.corners_m.map((p) => paper.paper(p).join(",")).join(" ")} />
        </g>
      ))}
      <GroundOpenings form={form} paper={paper} />
      {form.footprints.map((one, footprint) => (
        <Handles
          key={one.id}
          paper={paper}
          outline={one.corners_m}
          grid={grid}
          letters={walls.filter((wall) => wall.footprint === footprint).map((wall) => wall.letter)}
          onGrab={(what, index) => begin(footprint, what, index)}
          onOutline={(outline, about) => {
            onCurrent(footprint);
            onForm(withOutline(form, footprint, outline), about);
          }}
        />
      ))}
    </svg>
  );
}

interface SquaresProps {
  readonly paper: Paper;
  readonly grid: number;
  readonly shape: readonly [number, number];
}

function Squares({ paper, grid, shape }: SquaresProps): JSX.Element {
  let step = grid;
  while (step * paper.scale < 9) step *= 2;
  const [low, high] = [paper.ground([0, shape[1]]), paper.ground([shape[0], 0])];
  const lines: JSX.Element[] = [];
  for (const axis of [0, 1] as const) {
    for (let k = Math.ceil(low[axis] / step); k * step <= high[axis]; k += 1) {
      const at = paper.paper(axis === 0 ? [k * step, 0] : [0, k * step])[axis];
      const ends =
        axis === 0
          ? { x1: at, x2: at, y1: 0, y2: shape[1] }
          : { y1: at, y2: at, x1: 0, x2: shape[0] };
      lines.push(<line key={`${axis} ${k}`} {...ends} class={k % 4 === 0 ? "heavy" : ""} />);
    }
  }
  return (
    <g class="squares" aria-hidden="true">
      {lines}
    </g>
  );
}

interface HandlesProps {
  readonly paper: Paper;
  readonly outline: Outline;
  readonly grid: number;
  readonly letters: readonly string[];
  readonly onGrab: (what: Drag["what"], index: number) => (event: PointerEvent) => void;
  readonly onOutline: (outline: Outline, about: string) => void;
}

const ARROWS: Record<string, Point> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

function Handles({ paper, outline, grid, letters, onGrab, onOutline }: HandlesProps): JSX.Element {
  const arrow = (event: KeyboardEvent, act: (by: Point) => void): void => {
    const by = ARROWS[event.key];
    if (by === undefined) return;
    event.preventDefault();
    act([by[0] * grid, by[1] * grid]);
  };
  const cornerKey =
    (k: number, p: Point) =>
    (event: KeyboardEvent): void => {
      if (event.key === "Delete" || event.key === "Backspace") {
        event.preventDefault();
        onOutline(withoutCorner(outline, k), "");
      } else
        arrow(event, (by) =>
          onOutline(withCorner(outline, k, [p[0] + by[0], p[1] + by[1]]), `key corner ${k}`),
        );
    };
  const sideKey =
    (k: number) =>
    (event: KeyboardEvent): void => {
      if (event.key === "Enter" || event.key === " ") {
        event.preventDefault();
        onOutline(withCornerIn(outline, k, grid), "");
      } else arrow(event, (by) => onOutline(withSideMoved(outline, k, by), `key side ${k}`));
    };
  return (
    <g class="handles">
      {sidesOf(outline).map((side, k) => {
        const a = paper.paper(side.from);
        const b = paper.paper(side.to);
        const at: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
        const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
        const out: Point = [-(b[1] - a[1]) / length, (b[0] - a[0]) / length];
        const words = showLength(side.length, units.value);
        const [x, y] = [at[0] + out[0] * 25, at[1] + out[1] * 25];
        const turn = Math.abs(out[0]) > 0.5 ? -90 : 0;
        return (
          <g key={`side ${k}`}>
            <g
              class="side"
              role="button"
              tabindex={0}
              aria-label={say("ground.side", { wall: letters[k] ?? "", length: words })}
              onPointerDown={onGrab("side", k)}
              onDblClick={() => onOutline(withCornerIn(outline, k, grid), "")}
              onKeyDown={sideKey(k)}
            >
              <circle class="reach" cx={at[0]} cy={at[1]} r="22" />
              <circle class="letter" cx={at[0]} cy={at[1]} r="13" />
            </g>
            <g aria-hidden="true">
              <text class="letter" x={at[0]} y={at[1]} dy="0.36em" text-anchor="middle">
                {letters[k]}
              </text>
              <text
                class="length"
                transform={`translate(${x} ${y}) rotate(${turn})`}
                dy="0.36em"
                text-anchor="middle"
              >
                {words}
              </text>
            </g>
          </g>
        );
      })}
      {outline.map((p, k) => {
        const at = paper.paper(p);
        return (
          <g
            key={`corner ${k}`}
            class="corner"
            role="button"
            tabindex={0}
            aria-label={say("ground.corner", {
              n: k + 1,
              east: showLength(p[0], units.value),
              north: showLength(p[1], units.value),
            })}
            onPointerDown={onGrab("corner", k)}
            onKeyDown={cornerKey(k, p)}
          >
            <circle class="reach" cx={at[0]} cy={at[1]} r="22" />
            <rect x={at[0] - 6} y={at[1] - 6} width="12" height="12" />
          </g>
        );
      })}
    </g>
  );
}
