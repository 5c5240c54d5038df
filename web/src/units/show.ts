/** SI quantities as people read them. Rounding happens only here; the rules are the packet's. */

import {
  exact,
  type Fraction,
  fixed,
  fraction,
  greatestDivisor,
  nearest,
  over,
  times,
} from "./fraction";

export type System = "us" | "metric";

const INCH = fraction(127n, 5000n);
const FOOT = fraction(381n, 1250n);
const SQUARE_FOOT = times(FOOT, FOOT);
const CUBIC_FOOT = times(SQUARE_FOOT, FOOT);
const GALLON = times(fraction(231n), times(INCH, times(INCH, INCH)));
const FLUID_OUNCE = over(GALLON, fraction(128n));
const PASCAL_PLACES = 0;

type Quantity = number | Fraction;

const asFraction = (value: Quantity): Fraction =>
  typeof value === "number" ? exact(value) : value;

/** A run: `24'-6 1/2"` or `7.480 m` (whole `468 mm` below one metre). */
export function showLength(metres: Quantity, system: System, denominator = 16): string {
  if (system === "metric") {
    const mm = nearest(times(asFraction(metres), fraction(1000n)));
    const short = mm < 1000n && mm > -1000n;
    return short ? `${mm} mm` : `${fixed(fraction(mm, 1000n), 3)} m`;
  }
  const parts = inchParts(metres, denominator);
  const size = parts < 0n ? -parts : parts;
  const foot = BigInt(12 * denominator);
  const feet = size / foot;
  const rest = size % foot;
  const sign = parts < 0n ? "-" : "";
  const inches = inchText(rest, BigInt(denominator));
  const zero = rest > 0n && rest < BigInt(denominator) ? "0 " : "";
  return feet > 0n ? `${sign}${feet}'-${zero}${inches}` : `${sign}${inches}`;
}

/** A small length: `17 1/2"` or `102 mm` (one decimal below 20 mm). */
export function showWidth(metres: Quantity, system: System, denominator = 16): string {
  if (system === "metric") {
    const mm = times(asFraction(metres), fraction(1000n));
    const size = mm.over < 0n ? -mm.over : mm.over;
    return size < 20n * mm.under ? `${trimmed(fixed(mm, 1))} mm` : `${nearest(mm)} mm`;
  }
  const parts = inchParts(metres, denominator);
  const size = parts < 0n ? -parts : parts;
  return (parts < 0n ? "-" : "") + inchText(size, BigInt(denominator));
}

/** An area: `1234.5 ft²` or `114.69 m²`. */
export function showArea(squareMetres: Quantity, system: System): string {
  const area = asFraction(squareMetres);
  return system === "us" ? `${fixed(over(area, SQUARE_FOOT), 1)} ft²` : `${fixed(area, 2)} m²`;
}

/** A volume: `12.3 ft³` or `0.348 m³`. */
export function showVolume(cubicMetres: Quantity, system: System): string {
  const volume = asFraction(cubicMetres);
  return system === "us" ? `${fixed(over(volume, CUBIC_FOOT), 1)} ft³` : `${fixed(volume, 3)} m³`;
}

/** A volume of sealant or foam as on a label: `10.1 fl oz` or `300 ml`. */
export function showSealant(cubicMetres: Quantity, system: System): string {
  const volume = asFraction(cubicMetres);
  return system === "us"
    ? `${fixed(over(volume, FLUID_OUNCE), 1)} fl oz`
    : `${nearest(times(volume, fraction(1_000_000n)))} ml`;
}

/** A flow of air: `1250 CFM` or `2124 m³/h`. */
export function showFlow(cubicMetresPerSecond: number, system: System): string {
  const flow = exact(cubicMetresPerSecond);
  return system === "us"
    ? `${nearest(times(over(flow, CUBIC_FOOT), fraction(60n)))} CFM`
    : `${nearest(times(flow, fraction(3600n)))} m³/h`;
}

/** A temperature: `48 °F` or `8.9 °C`. */
export function showTemperature(celsius: number, system: System): string {
  return system === "us"
    ? `${fixed(exact(celsius * 1.8 + 32), 0)} °F`
    : `${trimmed(fixed(exact(celsius), 1))} °C`;
}

/** A pressure: `50 Pa`; both systems use it in fan tests. */
export function showPressure(pascals: number): string {
  return `${fixed(exact(pascals), PASCAL_PLACES)} Pa`;
}

/** A plain number: whole when it is, else with at most two decimals. */
export function showCount(value: number): string {
  return trimmed(fixed(exact(value), 2));
}

/** An angle in degrees with one decimal: `33.7°`. */
export function showAngle(degrees: number): string {
  return `${fixed(exact(degrees), 1)}°`;
}

/** A duration: `2 h 15 min`, `45 min`, or `30 s` below one minute. */
export function showTime(seconds: number): string {
  const whole = exact(seconds);
  if (Math.abs(seconds) < 60) return `${nearest(whole)} s`;
  const minutes = nearest(over(whole, fraction(60n)));
  const size = minutes < 0n ? -minutes : minutes;
  const parts = [
    size / 60n > 0n ? `${size / 60n} h` : "",
    size % 60n > 0n ? `${size % 60n} min` : "",
  ];
  return (minutes < 0n ? "-" : "") + parts.filter((part) => part !== "").join(" ");
}

function inchParts(metres: Quantity, denominator: number): bigint {
  return nearest(times(over(asFraction(metres), INCH), fraction(BigInt(denominator))));
}

function inchText(parts: bigint, denominator: bigint): string {
  const whole = parts / denominator;
  const rest = parts % denominator;
  if (rest === 0n) return `${whole}"`;
  const shared = greatestDivisor(rest, denominator);
  const text = `${rest / shared}/${denominator / shared}`;
  return whole > 0n ? `${whole} ${text}"` : `${text}"`;
}

function trimmed(shown: string): string {
  return shown.includes(".") ? shown.replace(/\.?0+$/, "") : shown;
}
