/** What a change did: joints that came, went and changed, the order, work done, what was signed. */

import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { count, say } from "../state/say";
import { units } from "../state/ways";
import { showCount, showLength, showSealant } from "../units/show";
import { Briefs, Changed } from "./changes_lists";
import { Folded } from "./folded";

type Changes = Schemas["ChangesOut"];

/** The change in one sentence, naming only what there is of it. */
export function changeSentence(changes: Changes): string {
  const parts = [
    ["changes.cameOne", "changes.cameN", changes.joints_came.length],
    ["changes.wentOne", "changes.wentN", changes.joints_went.length],
    ["changes.changedOne", "changes.changedN", changes.joints_changed.length],
    ["changes.orderOne", "changes.orderN", changes.order.length],
  ] as const;
  const told = parts.filter(([, , n]) => n > 0).map(([one, many, n]) => count(one, many, n));
  return told.length === 0
    ? say("changes.keptOnly")
    : say("changes.kept", { what: told.join(", ") });
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
          <Folded
            lines={changes.work_touched.map((one) => ({ key: one.joint, line: one.sentence }))}
          />
        </div>
      )}
      <Briefs word="changes.came" house={house} joints={changes.joints_came} />
      <Briefs word="changes.went" house={null} joints={changes.joints_went} />
      <Changed house={house} joints={changes.joints_changed} />
      {changes.order.length > 0 && (
        <>
          <h3>{say("changes.order")}</h3>
          <Folded
            lines={changes.order.map((line) => ({ key: line.item, line: orderWords(line) }))}
          />
        </>
      )}
    </>
  );
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
