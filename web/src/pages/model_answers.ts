/** What the scene says of each joint, in words that the looks know. */

import type { Schemas } from "../api/client";
import { type Answers, type Asked, rowOf, rowsOf } from "../engine/looks";
import type { ToldScene } from "../engine/read";

const LOOKS = ["none", "attention", "stop"] as const;

/** The answers of every joint, in the order of the scene. */
export function answersOf({ joints }: ToldScene, values: Schemas["JointValues"] | null): Answers[] {
  return joints.ids.map((_, k) => {
    const face = joints.faces[joints.face[k] ?? -1];
    const signed = joints.signed[k] === 1;
    return {
      kind: joints.kinds[joints.kind[k] ?? -1] ?? "none",
      stage: joints.stages[joints.stage[k] ?? -1] ?? null,
      state: joints.states[joints.state[k] ?? -1] ?? "open",
      side: face === undefined ? "none" : signed ? face : `${face}_unsigned`,
      look: LOOKS[joints.look[k] ?? 0] ?? "none",
      margin: values?.moisture_margin[k] ?? null,
      leak: values?.leak_chance[k] ?? null,
    };
  });
}

/** Under which row of the legend each joint falls, by the row's place in it. */
export function ranksOf(asked: Asked, answers: readonly Answers[]): Uint8Array {
  const place = new Map(rowsOf(asked).map((row, k) => [row.key, k]));
  const none = place.get("none") ?? 0;
  return Uint8Array.from(answers, (one) => place.get(rowOf(asked, one)) ?? none);
}
