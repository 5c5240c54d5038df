/** What stands in the walls of the ground floor, and the ridges above, shown on the squared paper. */

import type { JSX } from "preact";
import { extent, type HouseForm, wallsOf } from "../draft/form";
import { counterClockwise, type Point, sidesOf } from "../draft/outline";
import type { Paper } from "./draw_paper";

export function GroundOpenings({ form, paper }: { form: HouseForm; paper: Paper }): JSX.Element {
  const walls = wallsOf(form);
  return (
    <g class="ground-parts" aria-hidden="true">
      {(form.roof ?? []).map((part) => {
        const line = ridgeOf(form, part.over, part.kind ?? "gable", part.eaves ?? []);
        if (line === null) return null;
        const [a, b] = [paper.paper(line[0]), paper.paper(line[1])];
        return <line key={part.id} class="ridge" x1={a[0]} y1={a[1]} x2={b[0]} y2={b[1]} />;
      })}
      {(form.openings ?? []).map((one) => {
        const wall = walls.find((each) => each.letter === one.host);
        const outline = wall === undefined ? undefined : form.footprints[wall.footprint]?.corners_m;
        const side =
          outline === undefined || wall === undefined
            ? undefined
            : sidesOf(counterClockwise(outline))[wall.side];
        if (side === undefined || side.length === 0) return null;
        const at = (along: number): Point => {
          const t = along / side.length;
          return paper.paper([
            side.from[0] + (side.to[0] - side.from[0]) * t,
            side.from[1] + (side.to[1] - side.from[1]) * t,
          ]);
        };
        const [a, b] = [at(one.along_m), at(one.along_m + one.width_m)];
        return (
          <g key={one.id} class={one.kind === "door" ? "door" : "window"}>
            <line x1={a[0]} y1={a[1]} x2={b[0]} y2={b[1]} />
          </g>
        );
      })}
    </g>
  );
}

/** The ridge of a part of the roof over a rectangle, midway between its eaves; null where it has none. */
function ridgeOf(
  form: HouseForm,
  over: string,
  kind: string,
  eaves: readonly string[],
): readonly [Point, Point] | null {
  const outline = form.footprints.find((one) => one.id === over)?.corners_m;
  if (outline === undefined || kind === "shed" || kind === "hip") return null;
  const [low, high] = extent(outline);
  const [x, y] = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
  const alongEast = eaves.includes("south") || eaves.includes("north");
  return alongEast
    ? [
        [low[0], y],
        [high[0], y],
      ]
    : [
        [x, low[1]],
        [x, high[1]],
      ];
}
