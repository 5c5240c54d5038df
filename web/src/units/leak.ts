/** What a joint leaks on each metre of its length, told in m³/(h·m) at 50 Pa. */

import type { System } from "./show";

const CUBIC_FOOT = 0.3048 ** 3;
const FOOT = 0.3048;

/** As a number in the reader's unit. */
export const leakIn = (perMetre: number, system: System): number =>
  system === "us" ? (perMetre / 60 / CUBIC_FOOT) * FOOT : perMetre;

export const leakUnit = (system: System): string => (system === "us" ? "CFM/ft" : "m³/(h·m)");

/** With two figures that count: `0.16 CFM/ft`. */
export const showLeak = (perMetre: number, system: System): string =>
  `${Number(leakIn(perMetre, system).toPrecision(2))} ${leakUnit(system)}`;
