/** Exact fractions, because a length rounded through binary shows another sixteenth than the packet. */

export interface Fraction {
  readonly over: bigint;
  /** Always above zero. */
  readonly under: bigint;
}

const MANTISSA = 52;
const view = new DataView(new ArrayBuffer(8));

/** The fraction of two whole numbers. */
export function fraction(over: bigint, under = 1n): Fraction {
  return under < 0n ? { over: -over, under: -under } : { over, under };
}

/** The exact value of a finite double. */
export function exact(value: number): Fraction {
  if (!Number.isFinite(value)) throw new RangeError(`${value} is no finite number`);
  view.setFloat64(0, value);
  const bits = view.getBigUint64(0);
  const exponent = Number((bits >> 52n) & 0x7ffn);
  const tail = bits & 0xfffffffffffffn;
  const digits = exponent === 0 ? tail : tail | (1n << BigInt(MANTISSA));
  const signed = bits >> 63n === 1n ? -digits : digits;
  const shift = Math.max(exponent, 1) - 1023 - MANTISSA;
  return shift >= 0 ? fraction(signed << BigInt(shift)) : fraction(signed, 1n << BigInt(-shift));
}

export function times(a: Fraction, b: Fraction): Fraction {
  return fraction(a.over * b.over, a.under * b.under);
}

export function over(a: Fraction, b: Fraction): Fraction {
  return fraction(a.over * b.under, a.under * b.over);
}

export function plus(a: Fraction, b: Fraction): Fraction {
  return fraction(a.over * b.under + b.over * a.under, a.under * b.under);
}

/** The nearest whole number, halves away from zero. */
export function nearest(value: Fraction): bigint {
  const size = value.over < 0n ? -value.over : value.over;
  const whole = (2n * size + value.under) / (2n * value.under);
  return value.over < 0n ? -whole : whole;
}

/** A decimal with exactly `places` decimals, halves away from zero. */
export function fixed(value: Fraction, places: number): string {
  const scaled = nearest(times(value, fraction(10n ** BigInt(places))));
  const size = scaled < 0n ? -scaled : scaled;
  const text = size.toString().padStart(places + 1, "0");
  const cut = text.length - places;
  const shown = places === 0 ? text : `${text.slice(0, cut)}.${text.slice(cut)}`;
  return scaled < 0n ? `-${shown}` : shown;
}

export function toNumber(value: Fraction): number {
  const whole = value.over / value.under;
  const rest = value.over - whole * value.under;
  return Number(whole) + Number(rest) / Number(value.under);
}

export function greatestDivisor(a: bigint, b: bigint): bigint {
  return b === 0n ? (a < 0n ? -a : a) : greatestDivisor(b, a % b);
}
