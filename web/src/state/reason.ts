/** Changes that take back what was signed need a reason: ask for it, and try again. */

import { signal } from "@preact/signals";
import { type Problem, Refused, type Schemas } from "../api/client";
import { changed } from "./held";

interface Question {
  readonly problems: readonly Problem[];
  readonly answer: (reason: string | null) => void;
}

/** The question that waits for an answer. */
export const question = signal<Question | null>(null);

/** What the last change did, until it is put away. */
export const lastChange = signal<Schemas["ChangesOut"] | null>(null);

/** What went wrong with the last change made from the frame of the page. */
export const lastFailure = signal<unknown>(null);

/** When the last change was told [ms], and how long leaving the page leaves it standing. */
let toldAt = 0;
const STAYS = 1500;

globalThis.addEventListener?.("hashchange", () => {
  if (Date.now() - toldAt > STAYS) lastChange.value = null;
});

/** Try a change; where it takes back a signature, ask why and try again. Null when given up. */
export async function withReason<T>(attempt: (reason: string) => Promise<T>): Promise<T | null> {
  try {
    return await attempt("");
  } catch (error) {
    if (!(error instanceof Refused) || !asksWhy(error)) throw error;
    const reason = await ask(error.problems);
    return reason === null ? null : attempt(reason);
  }
}

/** Make a change, tell what it did, and read everything anew. */
export async function change(
  attempt: (reason: string) => Promise<Schemas["Changed"]>,
): Promise<boolean> {
  try {
    const done = await withReason(attempt);
    if (done === null) return false;
    lastChange.value = done.changes;
    lastFailure.value = null;
    toldAt = Date.now();
    return true;
  } finally {
    changed();
  }
}

const asksWhy = (error: Refused): boolean =>
  error.status === 409 && error.problems.some((problem) => problem.subject === "reason");

function ask(problems: readonly Problem[]): Promise<string | null> {
  return new Promise((resolve) => {
    question.value = {
      problems,
      answer: (reason) => {
        question.value = null;
        resolve(reason);
      },
    };
  });
}
