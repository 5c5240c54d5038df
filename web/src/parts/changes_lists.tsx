/** Joints that came, went or changed; those that changed alike stand together. */

import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { addressOf } from "../state/route";
import { count, say, term, type WordKey } from "../state/say";
import { units } from "../state/ways";
import { showCount, showLength, showWidth } from "../units/show";
import { Folded } from "./folded";

type JointChange = Schemas["JointChangeOut"];

interface BriefProps {
  readonly word: WordKey;
  readonly house: string | null;
  readonly joints: readonly Schemas["JointBrief"][];
}

export function Briefs({ word, house, joints }: BriefProps): JSX.Element | null {
  if (joints.length === 0) return null;
  return (
    <>
      <h3>{say(word, { n: joints.length })}</h3>
      <Folded
        lines={joints.map((joint) => ({
          key: joint.id,
          line: (
            <>
              <JointName house={house} id={joint.id} />, {term("kind", joint.kind)},{" "}
              {showLength(joint.length_m, units.value)}
            </>
          ),
        }))}
      />
    </>
  );
}

/** Joints that changed: what changed once, and then every joint it changed at. */
export function Changed({
  house,
  joints,
}: {
  house: string;
  joints: readonly JointChange[];
}): JSX.Element | null {
  if (joints.length === 0) return null;
  return (
    <>
      <h3>{say("changes.changed", { n: joints.length })}</h3>
      <Folded
        lines={alike(joints).map(({ words, joints: some }) => ({
          key: words,
          line: <Alike house={house} words={words} joints={some} />,
        }))}
      />
    </>
  );
}

function Alike({
  house,
  words,
  joints,
}: {
  house: string;
  words: string;
  joints: readonly JointChange[];
}): JSX.Element {
  const [only] = joints;
  if (only !== undefined && joints.length === 1)
    return (
      <>
        <JointName house={house} id={only.id} /> {term("kind", only.kind)}: {words}
      </>
    );
  const kinds = new Map<string, number>();
  for (const one of joints) kinds.set(one.kind, (kinds.get(one.kind) ?? 0) + 1);
  const told = [...kinds].map(([kind, n]) => `${term("kind", kind)} (${n})`).join(", ");
  return (
    <>
      {words}
      <details class="fold">
        <summary>
          {count("changes.joint", "changes.joints", joints.length)}: {told}
        </summary>
        <p>
          {joints.map((one, k) => (
            <>
              {k > 0 && ", "}
              <JointName house={house} id={one.id} />
            </>
          ))}
        </p>
      </details>
    </>
  );
}

function JointName({ house, id }: { house: string | null; id: string }): JSX.Element {
  return house === null ? (
    <span class="figure">{id}</span>
  ) : (
    <a class="figure" href={addressOf(house, "joint", id)}>
      {id}
    </a>
  );
}

interface Group {
  readonly words: string;
  readonly joints: JointChange[];
}

/** Joints by what changed at them, the change of most joints in front. */
function alike(joints: readonly JointChange[]): readonly Group[] {
  const groups = new Map<string, Group>();
  for (const joint of joints) {
    const words = joint.changes.map(changeWords).join("; ");
    const group = groups.get(words) ?? { words, joints: [] };
    group.joints.push(joint);
    groups.set(words, group);
  }
  return [...groups.values()].sort((a, b) => b.joints.length - a.joints.length);
}

function changeWords(change: Schemas["PropertyChange"]): string {
  const name = term("property", change.name.replace(/_m$/, ""));
  return say("changes.fromTo", {
    name,
    before: valueWords(change.name, change.before),
    after: valueWords(change.name, change.after),
  });
}

function valueWords(name: string, value: number | string | null): string {
  if (value === null) return say("changes.none");
  if (typeof value === "number")
    return name.endsWith("_m") ? showWidth(value, units.value) : showCount(value);
  for (const group of ["face", "stage", "kind"]) {
    if (name.includes(group)) return term(group, value);
  }
  return value.replaceAll("_", " ");
}
