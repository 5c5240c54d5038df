/** A spread as a smooth curve: straight in the logarithm of the flow over the normal law's steps. */

export interface Known {
  readonly p05: number;
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
  readonly p95: number;
}

/** Steps of the normal law below which 5, 10, 50, 90 and 95 % lie. */
const STEPS = [-1.6449, -1.2816, 0, 1.2816, 1.6449] as const;
const POINTS = 33;

/** Points (value, percent at or below) between the 5 and the 95 % value. */
export function chanceCurve(known: Known): readonly (readonly [number, number])[] {
  const logs = [known.p05, known.p10, known.p50, known.p90, known.p95].map((value) =>
    Math.log(Math.max(value, 1e-12)),
  );
  return Array.from({ length: POINTS }, (_, k) => {
    const step = STEPS[0] + ((STEPS[4] - STEPS[0]) * k) / (POINTS - 1);
    return [Math.exp(between(step, logs)), 100 * belowStep(step)] as const;
  });
}

function between(step: number, logs: readonly number[]): number {
  const k = Math.min(3, Math.max(0, STEPS.findIndex((one) => one >= step) - 1));
  const [from, to] = [STEPS[k] ?? 0, STEPS[k + 1] ?? 1];
  const part = (step - from) / (to - from);
  return (logs[k] ?? 0) * (1 - part) + (logs[k + 1] ?? 0) * part;
}

/** The part of the normal law below a step, by its series; good to 1e-9 within three steps. */
export function belowStep(step: number): number {
  let [term, sum] = [step, step];
  for (let k = 1; k < 60; k += 1) {
    term *= (step * step) / (2 * k + 1);
    sum += term;
  }
  return 0.5 + (sum * Math.exp((-step * step) / 2)) / Math.sqrt(2 * Math.PI);
}
