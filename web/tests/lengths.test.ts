import { describe, expect, it } from "vitest";
import { toNumber } from "../src/units/fraction";
import { parseLength } from "../src/units/parse";
import { type System, showLength, showTime, showWidth } from "../src/units/show";
import cases from "./lengths.json";

const SYSTEMS: System[] = ["us", "metric"];

describe("lengths", () => {
  it("print to the same sixteenth and millimetre as in the packet", () => {
    for (const row of cases.shown) {
      for (const system of SYSTEMS) {
        expect(showLength(row.metres, system)).toBe(row.run[system]);
        expect(showWidth(row.metres, system)).toBe(row.width[system]);
      }
    }
  });

  it("are read to the same value as in a plan, and refused where a plan refuses them", () => {
    for (const row of cases.read) {
      const read = parseLength(row.text, "us");
      if (row.metres === null) expect(read, row.text).toBeNull();
      else expect(read === null ? null : toNumber(read), row.text).toBeCloseTo(row.metres, 12);
    }
  });

  it("take a bare number as feet or metres, as the page is switched", () => {
    expect(toNumber(parseLength("10", "us") ?? { over: 0n, under: 1n })).toBeCloseTo(3.048, 12);
    expect(toNumber(parseLength("10", "metric") ?? { over: 0n, under: 1n })).toBe(10);
  });
});

describe("durations", () => {
  it("leave out what is zero", () => {
    expect([30, 60, 3600, 8100].map(showTime)).toEqual(["30 s", "1 min", "1 h", "2 h 15 min"]);
  });
});
