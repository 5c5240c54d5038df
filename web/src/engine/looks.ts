/** Looks: how joints are drawn for what is asked of them. Every look differs in dash or width, not in color alone. */

import inks from "./inks.json";
import type { LineStyle } from "./types";

export type Asked = "kind" | "stage" | "state" | "side" | "look" | "margin" | "leak";

export const ASKED: readonly Asked[] = ["kind", "stage", "state", "side", "look", "margin", "leak"];

/** One joint's answers; a number from 0 to 1 where it is known. */
export interface Answers {
  readonly kind: string;
  readonly stage: string | null;
  readonly state: string;
  readonly side: string;
  readonly look: string;
  readonly margin: number | null;
  readonly leak: number | null;
}

const PIXELS = 4.6;
const [BLACK, GREY, ORANGE, SKY, GREEN, BLUE, RED, PURPLE] = [
  "#000000", "#6b6b6b", "#e69f00", "#56b4e9", "#009e73", "#0072b2", "#d55e00", "#cc79a7",
] as const; // biome-ignore format: the eight colors stand in one row

const style = (color: string, width: number, ...dash: number[]): LineStyle => ({
  color,
  width,
  dash,
  shown: true,
});

const NONE = style(GREY, 2, 2, 5);

const KINDS: Record<string, LineStyle> = Object.fromEntries(
  Object.entries(inks).map(([kind, ink]) => [
    kind,
    style(ink.color, ink.width_mm * PIXELS + 1, ...ink.dash_mm.map((part) => part * PIXELS)),
  ]),
);

/** Stages in the order of the work: the later, the denser the line. */
const STAGES: Record<string, LineStyle> = {
  before_setting: style(PURPLE, 4, 3, 6),
  at_setting: style(RED, 4, 10, 5),
  before_next_panel: style(ORANGE, 4.5, 16, 4),
  before_roof: style(BLUE, 4.5, 14, 3, 3, 3),
  same_day: style(SKY, 4.5, 6, 3),
  weathered_in: style(GREEN, 4),
  rough_in: style(BLACK, 3, 14, 3, 3, 3, 3, 3),
};

const STATES: Record<string, LineStyle> = {
  open: style(RED, 4, 5, 4),
  sealed: style(BLUE, 4, 18, 3),
  checked: style(GREEN, 5),
};

const SIDES: Record<string, LineStyle> = {
  inner: style(BLUE, 5),
  outer: style(GREEN, 5, 18, 4),
  both: style(BLACK, 5, 18, 3, 4, 3),
  inner_unsigned: style(RED, 3.5, 4, 4),
  outer_unsigned: style(ORANGE, 3.5, 9, 4),
  both_unsigned: style(PURPLE, 3.5, 9, 3, 3, 3),
};

const LOOKS: Record<string, LineStyle> = {
  stop: style(RED, 7),
  attention: style(ORANGE, 5, 10, 4),
  none: style(GREY, 2),
};

/** From good to bad in five steps; the worse, the thicker and the more broken. */
const STEPS: readonly LineStyle[] = [
  style("#00224e", 2.5),
  style("#49617f", 3.5, 20, 3),
  style("#8b8655", 4.5, 12, 4),
  style("#c79a1b", 5.5, 7, 4),
  style("#d55e00", 7, 4, 4),
];

export interface LookRow {
  readonly key: string;
  readonly style: LineStyle;
}

const TABLES: Record<Exclude<Asked, "margin" | "leak">, Record<string, LineStyle>> = {
  kind: KINDS,
  stage: STAGES,
  state: STATES,
  side: SIDES,
  look: LOOKS,
};

/** Under which row of the legend a joint falls. */
export function rowOf(asked: Asked, answers: Answers): string {
  if (asked === "margin") return marginStep(answers.margin);
  if (asked === "leak") return leakStep(answers.leak);
  return answers[asked] ?? "none";
}

const legends = new Map<Asked, readonly LookRow[]>();

/** The rows of a legend, in reading order; `none` where there is no answer. */
export function rowsOf(asked: Asked): readonly LookRow[] {
  const old = legends.get(asked);
  if (old !== undefined) return old;
  const rows = laidOut(asked);
  legends.set(asked, rows);
  return rows;
}

function laidOut(asked: Asked): LookRow[] {
  const table = asked === "margin" || asked === "leak" ? null : TABLES[asked];
  const rows =
    table === null
      ? STEPS.map((one, k) => ({ key: `step${k + 1}`, style: one }))
      : Object.entries(table).map(([key, one]) => ({ key, style: one }));
  return rows.some((row) => row.key === "none") ? rows : [...rows, { key: "none", style: NONE }];
}

/** How a row of a legend is drawn. */
export function styleOf(asked: Asked, key: string): LineStyle {
  return rowsOf(asked).find((row) => row.key === key)?.style ?? NONE;
}

/** Margins, as a part of the limit, from which a joint has ample, good, fair or thin ones. Our own choice. */
const MARGINS = [0.5, 0.25, 0.1, 0] as const;

function marginStep(margin: number | null): string {
  if (margin === null) return "none";
  const k = MARGINS.findIndex((one) => margin >= one);
  return `step${k < 0 ? 5 : k + 1}`;
}

/** Chances of a leak at which the next step begins: in ratios, since most places are sound. Our own choice. */
const CHANCES = [0.02, 0.05, 0.1, 0.25] as const;

function leakStep(chance: number | null): string {
  if (chance === null) return "none";
  const k = CHANCES.findIndex((one) => chance < one);
  return `step${k < 0 ? 5 : k + 1}`;
}
