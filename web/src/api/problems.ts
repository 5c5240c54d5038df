/** The sentences of the server in what it answered when something was wrong. */

import type { components } from "./schema";

export type Problem = components["schemas"]["ProblemOut"];

export function problemsIn(text: string): readonly Problem[] {
  try {
    return (JSON.parse(text) as components["schemas"]["Problems"]).problems ?? [];
  } catch {
    return [];
  }
}
