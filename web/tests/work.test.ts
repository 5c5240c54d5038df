import { describe, expect, it } from "vitest";
import { belowStep, chanceCurve } from "../src/charts/chance";
import { readingsText } from "../src/pages/air_readings_text";
import { readCrews } from "../src/pages/days_form";
import { lanesOn, partOn, type Task, workDays } from "../src/pages/days_sorts";
import { readDiary, recordsText } from "../src/pages/search_diary";
import { fitName } from "../src/parts/fields_more";
import { type Job, shownWork, standingOf, told, type Wishes } from "../src/state/work";
import { flowIn, showChance, showHourly, showShare, showSmallFlow } from "../src/units/flow";

const job = (id: string, kind: string, state: Job["state"]): Job => ({
  id,
  kind,
  state,
  house: "h",
  revision: 1,
  is_current: true,
  title: kind,
  phase: "",
  progress: 0,
  problems: [],
  files: [],
  made_at: "2026-05-01T08:00:00",
  started_at: null,
  ended_at: null,
});

const task = (id: string, start: string, end: string, more: Partial<Task> = {}): Task => ({
  id,
  start,
  end,
  title: id,
  work: "tape",
  crew: "sealers",
  people: 2,
  float_working_h: 0,
  critical: false,
  crane: false,
  window: null,
  seals: [],
  refs: [],
  hold_point: null,
  released_by: null,
  duration_s: { low: 1, likely: 2, high: 3 },
  ...more,
});

describe("work", () => {
  const all = [
    job("5", "days", "running"),
    job("4", "hunt", "interrupted"),
    job("3", "days", "done"),
    job("2", "hunt", "done"),
    job("1", "fan", "done"),
  ];

  it("stands by the newest of each kind", () => {
    expect(standingOf(all, "days")).toMatchObject({
      open: { id: "5" },
      last: { id: "3" },
      done: { id: "3" },
    });
    expect(standingOf(all, "hunt")).toMatchObject({
      open: null,
      last: { id: "4" },
      done: { id: "2" },
    });
    expect(standingOf(all, "report")).toEqual({ open: null, last: null, done: null });
  });

  it("is shown under way or broken off, not when it was over before this page opened", () => {
    expect(shownWork(all, new Set()).map((one) => one.id)).toEqual(["5", "4"]);
    expect(shownWork(all, new Set(["4"])).map((one) => one.id)).toEqual(["5"]);
  });

  it("asks again with nothing but what was asked for", () => {
    const wishes = {
      start: null,
      rain: [],
      no_crane: ["2026-05-04"],
      limit_s: 5,
    } as unknown as Wishes;
    expect(told(wishes)).toEqual({ no_crane: ["2026-05-04"], limit_s: 5 });
  });
});

describe("the run of days", () => {
  it("counts the days on which a crew works", () => {
    const tasks = [
      task("a", "2026-05-04T08:00", "2026-05-04T10:00"),
      task("b", "2026-05-06T08:00", "2026-05-06T08:00", { crew: "" }),
      task("c", "2026-05-05T15:00", "2026-05-07T09:00"),
    ];
    expect(workDays(tasks)).toEqual(["2026-05-04", "2026-05-05", "2026-05-07"]);
  });

  it("cuts a task at midnight, and leaves out what only touches a day", () => {
    const long = task("a", "2026-05-04T15:30", "2026-05-05T09:00");
    expect(partOn(long, "2026-05-04")).toEqual([15.5, 24]);
    expect(partOn(long, "2026-05-05")).toEqual([0, 9]);
    expect(partOn(long, "2026-05-06")).toBeNull();
    expect(partOn(task("b", "2026-05-04T08:00", "2026-05-04T08:00"), "2026-05-04")).toBeNull();
  });

  it("joins like work that follows on, and lays what overlaps into lanes", () => {
    const lanes = lanesOn(
      [
        task("a", "2026-05-04T08:00", "2026-05-04T09:00", { hold_point: "look" }),
        task("b", "2026-05-04T09:00", "2026-05-04T10:00"),
        task("c", "2026-05-04T09:30", "2026-05-04T11:00", { work: "clean" }),
      ],
      "2026-05-04",
    );
    expect(lanes).toHaveLength(2);
    expect(lanes[0]).toMatchObject([{ from: 8, to: 10, sort: "strips", holds: 1 }]);
    expect(lanes[1]).toMatchObject([{ from: 9.5, to: 11, sort: "cleaning" }]);
  });

  it("reads people from the words of the server", () => {
    expect(readCrews("setting=4,finishing+trades=2")).toEqual({
      setting: "4",
      "finishing+trades": "2",
    });
    expect(readCrews("")).toEqual({});
  });
});

describe("readings", () => {
  it("become the file that the fan test reads", () => {
    const text = readingsText({
      system: "metric",
      facts: {
        house: "Wren, the",
        date: "2026-05-04",
        tester: "",
        stage: "",
        indoor: "20,5",
        outdoor: "7",
        wind: "",
        elevation: "",
      },
      rows: [
        { phase: "before", pressure: "-1,2", flow: "9" },
        { phase: "reading", pressure: "-20", flow: "300" },
        { phase: "reading", pressure: "", flow: "" },
      ],
    });
    expect(text).toBe(
      "house, Wren the\ndate, 2026-05-04\nindoor temperature [C], 20.5\noutdoor temperature [C], 7\n\nphase, pressure [Pa], flow [m3/h]\nbaseline before, -1.2, \nreading, -20, 300\n",
    );
  });
});

describe("the diary", () => {
  it("becomes records with what the desk knows, and is read again from them", () => {
    const row = (id: string, state: string): never => ({ id, state }) as never;
    const diary = {
      log: [{ look: "A.1-A.2", by: "smoke" as const, saw: 4 as const }],
      target: "900 m3/h",
    };
    const text = recordsText(diary, [
      row("A.1-A.2", "checked"),
      row("A.2-A.3", "sealed"),
      row("ridge", "open"),
    ]);
    expect(JSON.parse(text)).toEqual({
      target: "900 m3/h",
      seals: [
        { at: ["A.1-A.2", "A.2-A.3"], sealed: "yes" },
        { at: ["A.1-A.2"], checked: "yes" },
      ],
      log: [{ look: "A.1-A.2", by: "smoke", saw: 4 }],
    });
    expect(readDiary(text)?.log).toEqual(diary.log);
    expect(readDiary("log:\n  - {mend: ridge}")).toBeNull();
  });
});

describe("figures of air", () => {
  it("are written in the reader's unit", () => {
    expect(showHourly(1699.0108, "us")).toBe("1000 CFM");
    expect(showHourly(1699.0108, "metric")).toBe("1699 m³/h");
    expect(showSmallFlow(3.2, "metric")).toBe("3.2 m³/h");
    expect(flowIn(1.699010796, "us")).toBeCloseTo(1, 6);
  });

  it("never claim a chance surer than it is", () => {
    expect(showChance(1)).toBe("> 99 %");
    expect(showChance(0.001)).toBe("< 1 %");
    expect(showChance(0.456)).toBe("46 %");
    expect(showShare(0.051)).toBe("5.1 %");
  });

  it("follow the normal law between the parts that are told", () => {
    expect(belowStep(0)).toBe(0.5);
    expect(belowStep(1.6449)).toBeCloseTo(0.95, 4);
    const curve = chanceCurve({ p05: 10, p10: 12, p50: 20, p90: 40, p95: 50 });
    expect(curve[0]?.[0]).toBeCloseTo(10, 9);
    expect(curve[16]).toEqual([expect.closeTo(20, 9), 50]);
    expect(curve.at(-1)?.[0]).toBeCloseTo(50, 9);
    for (const [k, [x, y]] of curve.entries()) {
      const next = curve[k + 1];
      if (next !== undefined) expect(next[0] > x && next[1] > y).toBe(true);
    }
  });
});

describe("names of files", () => {
  it("are made fit for the server", () => {
    expect(fitName("Wetter 2026 (neu).CSV")).toBe("Wetter_2026__neu_.csv");
    expect(fitName("station.epw")).toBe("station.epw");
    expect(fitName(".json")).toBe("file.json");
  });
});
