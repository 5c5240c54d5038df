/** What a change did: joints that came, went and changed, the order, work done, what was signed. */

import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { addressOf } from "../state/route";
import { say, term, type WordKey } from "../state/say";
import { units } from "../state/ways";
import { showCount, showLength, showSealant, showWidth } from "../units/show";

type Changes = Schemas["ChangesOut"];
type Change = Schemas["PropertyChange"];

/** The change in one sentence. */
export function changeSentence(changes: Changes): string {
  return say("changes.brief", {
    came: changes.joints_came.length,
    went: changes.joints_went.length,
    changed: changes.joints_changed.length,
    order: changes.order.length,
  });
}

export function ChangesView({ house, changes }: { house: string; changes: Changes }): JSX.Element {
  const nothing =
    changes.joints_came.length +
      changes.joints_went.length +
      changes.joints_changed.length +
      changes.order.length ===
    0;
  if (nothing && changes.undone.length === 0) return <p>{say("changes.nothing")}</p>;
  return (
    <>
      {changes.undone.length > 0 && (
        <div class="notice bad">
          <h3>{say("changes.undone")}</h3>
          <ul>
            {changes.undone.map((one) => (
              <li key={one.sentence}>{one.sentence}.</li>
            ))}
          </ul>
        </div>
      )}
      {changes.work_touched.length > 0 && (
        <div class="notice bad">
          <h3>{say("changes.work")}</h3>
          <ul>
            {changes.work_touched.map((one) => (
              <li key={one.joint}>{one.sentence}</li>
            ))}
          </ul>
        </div>
      )}
      <Briefs word="changes.came" house={house} joints={changes.joints_came} />
      <Briefs word="changes.went" house={null} joints={changes.joints_went} />
      {changes.joints_changed.length > 0 && (
        <>
          <h3>{say("changes.changed", { n: changes.joints_changed.length })}</h3>
          <ul>
            {changes.joints_changed.slice(0, MOST).map((joint) => (
              <li key={joint.id}>
                <a class="figure" href={addressOf(house, "joint", joint.id)}>
                  {joint.id}
                </a>{" "}
                {term("kind", joint.kind)}: {joint.changes.map(changeWords).join("; ")}
              </li>
            ))}
          </ul>
          <More n={changes.joints_changed.length} />
        </>
      )}
      {changes.order.length > 0 && (
        <>
          <h3>{say("changes.order")}</h3>
          <ul>
            {changes.order.map((line) => (
              <li key={line.item}>{orderWords(line)}</li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

const MOST = 40;

function More({ n }: { n: number }): JSX.Element | null {
  return n > MOST ? <p class="soft">{say("changes.more", { n: n - MOST })}</p> : null;
}

interface BriefProps {
  readonly word: WordKey;
  readonly house: string | null;
  readonly joints: readonly Schemas["JointBrief"][];
}

function Briefs({ word, house, joints }: BriefProps): JSX.Element | null {
  if (joints.length === 0) return null;
  return (
    <>
      <h3>{say(word, { n: joints.length })}</h3>
      <ul>
        {joints.slice(0, MOST).map((joint) => (
          <li key={joint.id}>
            {house === null ? (
              <span class="figure">{joint.id}</span>
            ) : (
              <a class="figure" href={addressOf(house, "joint", joint.id)}>
                {joint.id}
              </a>
            )}
            , {term("kind", joint.kind)}, {showLength(joint.length_m, units.value)}
          </li>
        ))}
      </ul>
      <More n={joints.length} />
    </>
  );
}

function changeWords(change: Change): string {
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

function orderWords(line: Schemas["OrderChangeOut"]): string {
  const amount = (value: number): string =>
    line.unit === "m"
      ? showLength(value, units.value)
      : line.unit === "m3"
        ? showSealant(value, units.value)
        : showCount(value);
  return say("changes.orderLine", {
    what: line.description,
    before: amount(line.amount_before),
    after: amount(line.amount_after),
    packsBefore: line.packs_before,
    packsAfter: line.packs_after,
  });
}
