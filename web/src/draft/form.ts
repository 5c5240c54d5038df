/** The guided form as it starts, and the changes its fields make. */

import type { Schemas } from "../api/client";
import type { System } from "../units/show";
import { counterClockwise, letterOf, type Outline, rectangle, sidesOf } from "./outline";

export type HouseForm = Schemas["HouseForm"];
export type Footprint = Schemas["FootprintForm"];
export type Roof = Required<Schemas["RoofForm"]>;

const INCH = 0.0254;
const FOOT = 0.3048;

/** A house to begin with: one storey, a gable roof. Sizes are common practice, no source. */
export function firstForm(units: System, name: string): HouseForm {
  const us = units === "us";
  const panel = (thickness: number): Schemas["PanelForm"] => ({
    thickness_m: thickness,
    skin_m: (7 / 16) * INCH,
    max_width_m: 4 * FOOT,
    max_length_m: 24 * FOOT,
    spline: "surface",
  });
  return {
    units,
    name,
    place: "",
    latitude_deg: null,
    longitude_deg: null,
    climate_zone: "",
    zone_edition: "",
    wall_panel: panel(6.5 * INCH),
    roof_panel: panel(10.25 * INCH),
    base: { kind: "slab", thickness_m: 4 * INCH, sill_m: 1.5 * INCH },
    storeys: [
      {
        height_m: us ? 8 * FOOT : 2.5,
        floor: "platform",
        floor_depth_m: 11.875 * INCH,
        deck_m: 0.75 * INCH,
      },
    ],
    footprints: [
      {
        id: "main",
        corners_m: pairs(us ? rectangle(0, 0, 32 * FOOT, 24 * FOOT) : rectangle(0, 0, 10, 7.5)),
        storeys: null,
      },
    ],
    roof: [roofOver("main", us ? rectangle(0, 0, 32, 24) : rectangle(0, 0, 10, 7.5), us)],
    openings: [],
    services: [],
  };
}

/** A gable over an outline, its ridge along the longer way. */
export function roofOver(id: string, outline: Outline, us: boolean): Roof {
  const [low, high] = extent(outline);
  const wide = high[0] - low[0] >= high[1] - low[1];
  return {
    id,
    kind: "gable",
    over: id,
    eaves: wide ? ["south", "north"] : ["east", "west"],
    pitch_rise: 6 / 12,
    second_pitch_rise: null,
    break_run_m: null,
    eave_plate_m: 0,
    overhang_eave_m: us ? FOOT : 0.3,
    overhang_rake_m: us ? 8 * INCH : 0.2,
    ridge_beam: { width_m: 3.5 * INCH, depth_m: 11.875 * INCH },
  };
}

export function extent(outline: Outline): [readonly [number, number], readonly [number, number]] {
  const [xs, ys] = [outline.map((p) => p[0]), outline.map((p) => p[1])];
  return [
    [Math.min(...xs), Math.min(...ys)],
    [Math.max(...xs), Math.max(...ys)],
  ];
}

export interface Wall {
  readonly letter: string;
  readonly footprint: number;
  readonly side: number;
  readonly length: number;
}

/** The walls of the ground floor with their letters, over all outlines. */
export function wallsOf(form: HouseForm): Wall[] {
  let n = 0;
  return form.footprints.flatMap((one, footprint) =>
    sidesOf(counterClockwise(one.corners_m)).map(({ length }, side) => {
      const wall = { letter: letterOf(n), footprint, side, length };
      n += 1;
      return wall;
    }),
  );
}

/** Every wall an opening may stand in, upstairs with the number of its storey in front. */
export function hostsOf(form: HouseForm): { name: string; length: number }[] {
  const walls = wallsOf(form);
  return form.storeys.flatMap((_, storey) =>
    walls
      .filter((wall) => (form.footprints[wall.footprint]?.storeys ?? form.storeys.length) > storey)
      .map((wall) => ({
        name: storey === 0 ? wall.letter : `${storey + 1}${wall.letter}`,
        length: wall.length,
      })),
  );
}

/** A name that no part of the form has yet: `W1`, `W2`, ... */
export function freeName(form: HouseForm, start: string): string {
  const parts = [
    ...(form.openings ?? []),
    ...(form.services ?? []),
    ...form.footprints,
    ...(form.roof ?? []),
  ];
  const taken = new Set(parts.map((one) => one.id));
  for (let n = 1; ; n += 1) {
    if (!taken.has(`${start}${n}`)) return `${start}${n}`;
  }
}

export function pairs(outline: Outline): [number, number][] {
  return outline.map(([x, y]) => [x, y]);
}

/** The form with one outline replaced. */
export function withOutline(form: HouseForm, index: number, outline: Outline): HouseForm {
  const corners_m = pairs(outline);
  return {
    ...form,
    footprints: form.footprints.map((one, k) => (k === index ? { ...one, corners_m } : one)),
  };
}

/** The form with a wing: an outline of its own against the east of the last, with its own roof. */
export function withWing(form: HouseForm, us: boolean): HouseForm {
  const last = form.footprints.at(-1)?.corners_m ?? rectangle(0, 0, 8, 6);
  const [low, high] = extent(last);
  const [width, depth] = us ? [12 * FOOT, 12 * FOOT] : [4, 4];
  const outline = rectangle(high[0], low[1], width, depth);
  const id = freeName(form, "wing");
  const roof = { ...roofOver(id, outline, us), eaves: ["south", "north"] as Roof["eaves"] };
  return {
    ...form,
    footprints: [...form.footprints, { id, corners_m: pairs(outline), storeys: 1 }],
    roof: [...(form.roof ?? []), roof],
  };
}

/** The form without an outline and the roof over it. */
export function withoutFootprint(form: HouseForm, index: number): HouseForm {
  const id = form.footprints[index]?.id;
  if (form.footprints.length < 2) return form;
  return {
    ...form,
    footprints: form.footprints.filter((_, k) => k !== index),
    roof: (form.roof ?? []).filter((part) => part.over !== id),
  };
}
