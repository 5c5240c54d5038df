/** Flows, pressures and moisture as the pages on air and dryness write them. */

import { type System, showFlow } from "./show";

const HOUR = 3600;
const CUBIC_FOOT = 0.3048 ** 3;

/** A flow told in m³/h: `1250 CFM` or `2124 m³/h`. */
export const showHourly = (cubicMetresAnHour: number, system: System): string =>
  showFlow(cubicMetresAnHour / HOUR, system);

/** A small flow told in m³/h, with one decimal below ten. */
export function showSmallFlow(cubicMetresAnHour: number, system: System): string {
  const shown = flowIn(cubicMetresAnHour, system);
  return `${shown.toFixed(Math.abs(shown) < 10 ? 1 : 0)} ${flowUnit(system)}`;
}

/** A flow told in m³/h, as a number in the reader's unit. */
export const flowIn = (cubicMetresAnHour: number, system: System): number =>
  system === "us" ? cubicMetresAnHour / 60 / CUBIC_FOOT : cubicMetresAnHour;

export const flowUnit = (system: System): string => (system === "us" ? "CFM" : "m³/h");

/** A part of one: `12 %`, with a decimal below ten. */
export function showShare(part: number): string {
  const percent = part * 100;
  return `${percent.toFixed(Math.abs(percent) < 10 ? 1 : 0)} %`;
}

/** A chance never told surer than it is known: `> 99 %`, `< 1 %`. */
export function showChance(part: number): string {
  if (part > 0.99) return "> 99 %";
  return part < 0.01 ? "< 1 %" : `${Math.round(part * 100)} %`;
}
