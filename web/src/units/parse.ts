/** Lengths as the trade writes them, read exactly. What is refused is told by the server's sentence. */

import { type Fraction, fraction, plus, times } from "./fraction";
import type { System } from "./show";

const INCH = fraction(127n, 5000n);
const FOOT = fraction(381n, 1250n);
const SIZES: Record<string, Fraction> = {
  m: fraction(1n),
  cm: fraction(1n, 100n),
  mm: fraction(1n, 1000n),
  in: INCH,
  ft: FOOT,
};
const SPELLINGS: Record<string, string> = {
  "'": "ft",
  ft: "ft",
  foot: "ft",
  feet: "ft",
  pie: "ft",
  pies: "ft",
  '"': "in",
  in: "in",
  inch: "in",
  inches: "in",
  pulgada: "in",
  pulgadas: "in",
  m: "m",
  meter: "m",
  meters: "m",
  metre: "m",
  metres: "m",
  metro: "m",
  metros: "m",
  cm: "cm",
  mm: "mm",
};
const NUMBER = String.raw`(?:\d+\s*[-\s]\s*\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?|[.]\d+)`;
const FEET = new RegExp(
  String.raw`^(?<feet>${NUMBER})\s*(?:'|(?:ft|feet|foot|pies?)\b\.?)\s*(?:[-,]?\s*(?<inches>${NUMBER})\s*(?:"|(?:inches|inch|in|pulgadas?)\b\.?)?)?$`,
);
const ONE = new RegExp(String.raw`^(?<number>${NUMBER})\s*(?<unit>[a-z]+\.?|['"])?$`);
const LONGEST = 64;

/** The length written in `text` as an exact fraction of metres, or null where it cannot be read. */
export function parseLength(text: string, system: System): Fraction | null {
  const plain = plainText(text);
  if (plain === "" || text.length > LONGEST) return null;
  const negative = plain.startsWith("-");
  const body = plain.replace(/^[+-]\s*/, "");
  const value = feetInches(body) ?? oneUnit(body, system);
  return value === null ? null : negative ? fraction(-value.over, value.under) : value;
}

function feetInches(body: string): Fraction | null {
  const match = FEET.exec(body.replace(/(?<=[a-z])(?=\d)/, " "));
  const feet = match?.groups?.feet;
  if (feet === undefined) return null;
  const whole = plainNumber(feet);
  if (whole === null) return null;
  const told = match?.groups?.inches;
  if (told === undefined) return times(whole, FOOT);
  const inches = plainNumber(told);
  const broken = whole.over % whole.under !== 0n;
  if (inches === null || broken || inches.over >= 12n * inches.under) return null;
  return plus(times(whole, FOOT), times(inches, INCH));
}

function oneUnit(body: string, system: System): Fraction | null {
  const match = ONE.exec(body);
  const number = match?.groups?.number;
  if (number === undefined) return null;
  const value = plainNumber(number);
  if (value === null) return null;
  const told = match?.groups?.unit?.replace(/\.$/, "");
  const unit = told === undefined ? (system === "us" ? "ft" : "m") : SPELLINGS[told];
  const size = unit === undefined ? undefined : SIZES[unit];
  return size === undefined ? null : times(value, size);
}

function plainNumber(written: string): Fraction | null {
  const mixed = /^(\d+)\s*[-\s]\s*(\d+)\/(\d+)$/.exec(written);
  if (mixed !== null) {
    const [, whole = "", over = "", under = ""] = mixed;
    if (BigInt(under) === 0n || BigInt(over) >= BigInt(under)) return null;
    return plus(fraction(BigInt(whole)), fraction(BigInt(over), BigInt(under)));
  }
  if (written.includes("/")) {
    const [over = "", under = ""] = written.split("/");
    return BigInt(under) === 0n ? null : fraction(BigInt(over), BigInt(under));
  }
  const [before = "", after = ""] = written.split(/[.,]/);
  if (written.includes(",") && after.length === 3 && !before.startsWith("0")) return null;
  return fraction(BigInt(`${before}${after}` || "0"), 10n ** BigInt(after.length));
}

function plainText(text: string): string {
  return text
    .replace(/[′’‘‛`´ʹ]/g, "'")
    .replace(/[″”“„‟ʺ]/g, '"')
    .replace(/[‐‑‒–—―−]/g, "-")
    .replace(/([¼½¾⅛⅜⅝⅞])/g, " $1")
    .normalize("NFKC")
    .replace(/⁄/g, "/")
    .replace(/''/g, '"')
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== "")
    .join(" ");
}
