/** What the scene says of each joint, in words that the looks know. */

import type { Schemas } from "../api/client";
import type { Answers } from "../engine/looks";

const LOOKS = ["none", "attention", "stop"] as const;

/** The answers of every joint, in the order of the scene. */
export function answersOf(
  { joints }: Schemas["SceneOut"],
  values: Schemas["JointValues"] | null,
): Answers[] {
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
