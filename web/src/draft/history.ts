/** What was drawn, step by step: undo and redo over records that never change. */

export interface History<T> {
  readonly past: readonly T[];
  readonly now: T;
  readonly future: readonly T[];
  /** What the last step was about; steps about the same thing in one go count as one. */
  readonly about: string;
}

const LONGEST = 200;

export const begin = <T>(now: T): History<T> => ({ past: [], now, future: [], about: "" });

/** Take a step. `about` other than "" joins it with the step before when that was about the same. */
export function step<T>(history: History<T>, now: T, about = ""): History<T> {
  if (now === history.now) return history;
  const joins = about !== "" && about === history.about && history.past.length > 0;
  const past = joins ? history.past : [...history.past, history.now].slice(-LONGEST);
  return { past, now, future: [], about };
}

export function undo<T>(history: History<T>): History<T> {
  const before = history.past.at(-1);
  if (before === undefined) return history;
  const future = [history.now, ...history.future];
  return { past: history.past.slice(0, -1), now: before, future, about: "" };
}

export function redo<T>(history: History<T>): History<T> {
  const [after, ...future] = history.future;
  if (after === undefined) return history;
  return { past: [...history.past, history.now], now: after, future, about: "" };
}
