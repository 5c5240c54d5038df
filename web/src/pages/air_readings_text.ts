/** Typed readings as the text of a file of readings. */

import type { System } from "../units/show";

export const PHASES = ["before", "reading", "after"] as const;
export type Phase = (typeof PHASES)[number];

export interface Reading {
  readonly phase: Phase;
  readonly pressure: string;
  readonly flow: string;
}

export interface Facts {
  readonly house: string;
  readonly date: string;
  readonly tester: string;
  readonly stage: string;
  readonly indoor: string;
  readonly outdoor: string;
  readonly wind: string;
  readonly elevation: string;
}

export interface Readings {
  readonly system: System;
  readonly facts: Facts;
  readonly rows: readonly Reading[];
}

/** An empty test: baseline, six readings, baseline. */
export function firstReadings(house: string, system: System): Readings {
  const row = (phase: Phase): Reading => ({ phase, pressure: "", flow: "" });
  return {
    system,
    facts: {
      house,
      date: "",
      tester: "",
      stage: "",
      indoor: "",
      outdoor: "",
      wind: "",
      elevation: "",
    },
    rows: [row("before"), ...Array.from({ length: 6 }, () => row("reading")), row("after")],
  };
}

const key = (house: string): string => `seamwright.readings.${house}`;

export function keptReadings(house: string): Readings | null {
  try {
    const text = localStorage.getItem(key(house));
    return text === null ? null : (JSON.parse(text) as Readings);
  } catch {
    return null;
  }
}

export function keepReadings(house: string, readings: Readings): void {
  try {
    localStorage.setItem(key(house), JSON.stringify(readings));
  } catch {
    // A browser that keeps nothing still sends what is typed.
  }
}

const PHASE_WORDS: Readonly<Record<Phase, string>> = {
  before: "baseline before",
  reading: "reading",
  after: "baseline after",
};

/** A decimal written with a comma as one with a point; words that would break the table made plain. */
const number = (text: string): string => text.trim().replace(",", ".");
const plain = (text: string): string => text.replace(/[,\s]+/g, " ").trim();

/** The text of the file: facts first, one to a line, then the table. */
export function readingsText({ system, facts, rows }: Readings): string {
  const us = system === "us";
  const told: readonly (readonly [string, string])[] = [
    ["house", plain(facts.house)],
    ["date", plain(facts.date)],
    ["tester", plain(facts.tester)],
    ["stage", plain(facts.stage)],
    [`indoor temperature [${us ? "F" : "C"}]`, number(facts.indoor)],
    [`outdoor temperature [${us ? "F" : "C"}]`, number(facts.outdoor)],
    [`wind [${us ? "mph" : "m/s"}]`, number(facts.wind)],
    [`elevation [${us ? "ft" : "m"}]`, number(facts.elevation)],
  ];
  const head = told.filter(([, value]) => value !== "").map(([name, value]) => `${name}, ${value}`);
  const body = rows
    .filter((row) => row.pressure.trim() !== "")
    .map((row) =>
      [
        PHASE_WORDS[row.phase],
        number(row.pressure),
        row.phase === "reading" ? number(row.flow) : "",
      ].join(", "),
    );
  return `${[...head, "", `phase, pressure [Pa], flow [${us ? "cfm" : "m3/h"}]`, ...body].join("\n")}\n`;
}
