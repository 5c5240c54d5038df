/** Sorts of work, and days and hours of tasks. */

import type { Schemas } from "../api/client";

export type Task = Schemas["TaskOut"];

/** Sorts of work as they are drawn: the patterns of the packet's chart. */
export const SORTS = [
  "setting",
  "beads",
  "strips",
  "covering",
  "cleaning",
  "testing",
  "finishing",
] as const;
export type Sort = (typeof SORTS)[number];

const SORT_OF: Readonly<Record<string, Sort>> = {
  set_panel: "setting", set_timber: "setting", set_buck: "setting",
  lay_beads: "beads", gasket: "beads", plug_chase: "beads", dam: "beads", fill: "beads",
  tape: "strips", drape_strip: "strips", apron: "strips", patch_node: "strips", seal_service: "strips", prime: "strips",
  cover_roof: "covering",
  clean: "cleaning", dry: "cleaning", inspect: "cleaning",
  fan_test: "testing", mend: "testing",
}; // biome-ignore format: one row to a sort

export const sortOf = (task: Task): Sort => SORT_OF[task.work] ?? "finishing";

export const dayOf = (moment: string): string => moment.slice(0, 10);
export const clock = (moment: string): string => moment.slice(11, 16);

/** Hours since midnight. */
export const hourOf = (moment: string): number =>
  Number(moment.slice(11, 13)) + Number(moment.slice(14, 16)) / 60;

/** Days on which somebody works, in order. */
export function workDays(tasks: readonly Task[]): string[] {
  return [
    ...new Set(
      tasks
        .filter((task) => task.crew !== "")
        .flatMap((task) => [dayOf(task.start), dayOf(task.end)]),
    ),
  ].sort();
}

/** The part of a task that lies on a day, in hours of that day; null when none does. */
export function partOn(task: Task, day: string): readonly [number, number] | null {
  const [first, last] = [dayOf(task.start), dayOf(task.end)];
  if (day < first || day > last) return null;
  const from = day === first ? hourOf(task.start) : 0;
  const to = day === last ? hourOf(task.end) : 24;
  return to > from ? [from, to] : null;
}

export interface Bar {
  readonly from: number;
  readonly to: number;
  readonly sort: Sort;
  readonly critical: boolean;
  readonly holds: number;
}

/** Runs of like work of one crew on one day, each in the first lane with room for it. */
export function lanesOn(tasks: readonly Task[], day: string): Bar[][] {
  const parts = tasks
    .map((task) => ({ task, part: partOn(task, day) }))
    .filter((one): one is { task: Task; part: readonly [number, number] } => one.part !== null)
    .sort((a, b) => a.part[0] - b.part[0]);
  const lanes: Bar[][] = [];
  for (const { task, part } of parts) {
    const bar = {
      from: part[0],
      to: part[1],
      sort: sortOf(task),
      critical: task.critical,
      holds: task.hold_point === null ? 0 : 1,
    };
    const lane = lanes.find((one) => (one.at(-1)?.to ?? 0) <= bar.from);
    if (lane === undefined) {
      lanes.push([bar]);
      continue;
    }
    const last = lane.at(-1);
    if (
      last !== undefined &&
      last.sort === bar.sort &&
      last.critical === bar.critical &&
      last.to === bar.from
    ) {
      lane[lane.length - 1] = { ...last, to: bar.to, holds: last.holds + bar.holds };
    } else lane.push(bar);
  }
  return lanes;
}
