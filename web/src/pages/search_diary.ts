/** What was seen on site, in the order it happened; kept with the work and in this browser. */

import { type Signal, useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Schemas } from "../api/client";
import { type Job, jobs, standingOf, useWishes } from "../state/work";

export type Method = "smoke" | "infrared" | "hand";
export type Sight = "nothing" | "something" | 1 | 2 | 3 | 4 | 5;

export type Entry =
  | {
      readonly look: string;
      readonly by: Method;
      readonly saw: Sight;
      readonly day?: string;
      readonly pressure?: number;
    }
  | { readonly mend: string; readonly day?: string }
  | Test;

export interface Test {
  readonly test: string;
  readonly flow: string;
  readonly low?: string;
  readonly high?: string;
  readonly masked?: readonly string[];
  readonly unsealed?: readonly string[];
  readonly day?: string;
}

/** What a records file says beside its diary: who made what, how it was sealed. */
export interface SiteNotes {
  readonly workmanship?: string;
  readonly crews?: readonly object[];
  readonly seals?: readonly object[];
}

export interface Diary extends SiteNotes {
  readonly log: readonly Entry[];
  readonly target?: string;
}

const EMPTY: Diary = { log: [] };
const key = (house: string): string => `seamwright.diary.${house}`;

/** The diary written in this browser, or null. */
function kept(house: string): Diary | null {
  try {
    const text = localStorage.getItem(key(house));
    return text === null ? null : readDiary(text);
  } catch {
    return null;
  }
}

/** A diary from its text; null where it is none that these pages wrote. */
export function readDiary(text: string): Diary | null {
  try {
    const held: unknown = JSON.parse(text);
    if (typeof held !== "object" || held === null || !("log" in held) || !Array.isArray(held.log))
      return null;
    return held as Diary;
  } catch {
    return null;
  }
}

/** The diary of a house: this browser's, else that of the last search asked for. */
export function useDiary(house: string): Signal<Diary> {
  const held = useSignal<Diary>(kept(house) ?? EMPTY);
  const last: Job | null =
    jobs.value === null ? null : (jobs.value.find((job) => job.kind === "hunt") ?? null);
  const asked = useWishes(last);
  useEffect(() => {
    if (held.peek().log.length > 0 || asked?.records == null) return;
    const found = readDiary(asked.records);
    if (found !== null) held.value = found;
  }, [asked]);
  return held;
}

export function keepDiary(house: string, held: Signal<Diary>, next: Diary): void {
  held.value = next;
  try {
    localStorage.setItem(key(house), JSON.stringify(next));
  } catch {
    // Kept with the work once it is asked for.
  }
}

/** The records as the search reads them: JSON is YAML too. `places` are those it knows. */
export function recordsText(diary: Diary, joints: readonly Schemas["JointRow"][]): string {
  const at = (...states: readonly string[]): string[] =>
    joints.filter((row) => states.includes(row.state)).map((row) => row.id);
  const [sealed, checked] = [at("sealed", "checked"), at("checked")];
  const seals = [
    ...(diary.seals ?? []),
    ...(sealed.length === 0 ? [] : [{ at: sealed, sealed: "yes" }]),
    ...(checked.length === 0 ? [] : [{ at: checked, checked: "yes" }]),
  ];
  return JSON.stringify(
    {
      ...(diary.target === undefined || diary.target === "" ? {} : { target: diary.target }),
      ...(diary.workmanship === undefined ? {} : { workmanship: diary.workmanship }),
      ...(diary.crews === undefined || diary.crews.length === 0 ? {} : { crews: diary.crews }),
      seals,
      log: diary.log,
    },
    null,
    1,
  );
}

/** A diary with what a records file brought; entries it has already are not written twice. */
export function withSiteFile(diary: Diary, found: Schemas["SiteFileOut"]): Diary {
  const has = new Set(diary.log.map((entry) => JSON.stringify(entry)));
  const news = found.diary.map((entry) => bare(entry) as Entry);
  return {
    log: [...diary.log, ...news.filter((entry) => !has.has(JSON.stringify(entry)))],
    workmanship: found.workmanship,
    crews: found.crews.map(bare),
    seals: found.seals.map((note) => yesAndNo(bare(note))),
    ...(found.target === null ? keptTarget(diary) : { target: found.target }),
  };
}

const keptTarget = ({ target }: Diary): { target?: string } =>
  target === undefined ? {} : { target };

/** Without what was left unsaid. */
const bare = (row: object): object =>
  Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null));

const yesAndNo = (row: object): object =>
  Object.fromEntries(
    Object.entries(row).map(([key, value]) => [
      key,
      value === true ? "yes" : value === false ? "no" : value,
    ]),
  );

/** The entry of a fan test that was worked out here. */
export function fanEntry(job: Job, fan: Schemas["FanOut"]): Test {
  const flow = (value: number): string => `${Number(value.toPrecision(5))} m3/h`;
  return {
    test: `F-${job.id.slice(0, 6)}`,
    flow: flow(fan.flow_50.value_m3_h),
    low: flow(fan.flow_50.low_m3_h),
    high: flow(fan.flow_50.high_m3_h),
    day: (job.ended_at ?? job.made_at).slice(0, 10),
  };
}

export const isTest = (entry: Entry): entry is Test => "test" in entry;
export const isLook = (entry: Entry): entry is Extract<Entry, { look: string }> => "look" in entry;
export const isMend = (entry: Entry): entry is Extract<Entry, { mend: string }> => "mend" in entry;

export { standingOf };
