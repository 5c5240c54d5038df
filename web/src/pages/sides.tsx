/** On which face the air seal goes: the evidence for both, side by side, and who signs. */

import type { JSX } from "preact";
import { useEffect } from "preact/hooks";
import type { Schemas } from "../api/client";
import type { HousePage } from "../desk";
import { Failure, Framed, Notice, Waiting } from "../parts/notices";
import { Sheet } from "../parts/sheet";
import { Table } from "../parts/table";
import { useRead } from "../state/held";
import { addressOf } from "../state/route";
import { say, term } from "../state/say";
import { language, units } from "../state/ways";
import { showDay } from "../units/moment";
import { showLength } from "../units/show";
import { SignForm } from "./sides_sign";

type Group = Schemas["DecisionGroup"];
type Evidence = Schemas["FaceEvidence"];

export function Page({ house, item }: HousePage): JSX.Element {
  const held = useRead("/api/v1/houses/{house}/decisions", { path: { house: house.id } });
  const book = useRead("/api/v1/houses/{house}/decisions/book", { path: { house: house.id } });
  const answer = held.value;
  useEffect(() => {
    if (item !== null && answer !== null) document.getElementById(`side-${item}`)?.scrollIntoView();
  }, [item, answer === null]);
  return (
    <Sheet title={say("sides.title")} house={house.name}>
      {held.error !== null && <Failure error={held.error} />}
      {answer === null && held.error === null && <Waiting />}
      {answer !== null && (
        <>
          <p>{say("sides.lead")}</p>
          <Notice>
            <p>
              {answer.climate_zone === ""
                ? say("sides.noZone")
                : say("sides.zone", {
                    zone: answer.climate_zone,
                    edition: answer.zone_edition,
                  })}{" "}
              {answer.disagreement}.
            </p>
            <p class="soft">{answer.source}</p>
          </Notice>
          {answer.groups.some((group) => group.unsigned > 0) && (
            <SignForm
              house={house}
              group={null}
              kinds={answer.groups.filter((group) => !group.locked).map((group) => group.kind)}
            />
          )}
          {answer.groups.map((group) => (
            <GroupSheet key={group.kind} house={house} group={group} />
          ))}
          <Book signatures={book.value?.signatures ?? []} />
        </>
      )}
    </Sheet>
  );
}

function GroupSheet({ house, group }: { house: Schemas["HouseOut"]; group: Group }): JSX.Element {
  return (
    <section id={`side-${group.kind}`} class="side-group">
      <h2>
        {term("kind", group.kind)}{" "}
        {group.unsigned > 0 ? (
          <Framed word={say("unsigned")} />
        ) : (
          <Framed word={say("sides.signed")} kind="done" />
        )}
      </h2>
      <p>
        <a href={addressOf(house.id, "joints", null, { only: term("kind", group.kind) })}>
          {say("sides.joints", {
            n: group.joints.length,
            length: showLength(group.length_m, units.value),
          })}
        </a>
        {". "}
        {say("sides.proposed", {
          faces: Object.entries(group.proposed)
            .map(([face, n]) => `${term("face", face)} (${n})`)
            .join(", "),
        })}
      </p>
      {group.signed.map((one) => (
        <p key={`${one.face} ${one.by}`}>
          <strong>
            {say("sides.signedFor", { face: term("face", one.face), n: one.joints, by: one.by })}
          </strong>
        </p>
      ))}
      <details>
        <summary>{say("sides.why")}</summary>
        <p>{group.reason}</p>
      </details>
      <div class="table-frame low">
        <table>
          <thead>
            <tr>
              <th scope="col">{say("sides.evidence")}</th>
              <th scope="col">{term("face", "inner")}</th>
              <th scope="col">{term("face", "outer")}</th>
            </tr>
          </thead>
          <tbody>
            {EVIDENCE.map(([key, show]) => (
              <tr key={key}>
                <th scope="row">{say(key)}</th>
                <td>{show(group.inner)}</td>
                <td>{show(group.outer)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <SignForm house={house} group={group} kinds={[group.kind]} />
    </section>
  );
}

const listed = (counts: Readonly<Record<string, number>>, group: string): string =>
  Object.entries(counts)
    .map(([name, n]) => `${term(group, name)} (${n})`)
    .join(", ") || "–";

const EVIDENCE = [
  [
    "sides.reachable",
    (face: Evidence) => say("sides.ofJoints", { n: face.reachable, all: face.joints_with_line }),
  ],
  ["sides.before", (face: Evidence) => String(face.before_panels_only)],
  ["sides.never", (face: Evidence) => String(face.never)],
  [
    "sides.strips",
    (face: Evidence) => `${face.strips} · ${showLength(face.strip_length_m, units.value)}`,
  ],
  ["sides.noStock", (face: Evidence) => String(face.without_stock)],
  ["sides.stages", (face: Evidence) => listed(face.stages, "stage")],
  ["sides.hidden", (face: Evidence) => listed(face.hidden_by, "hides")],
] as const;

function Book({ signatures }: { signatures: readonly Schemas["SignatureOut"][] }): JSX.Element {
  if (signatures.length === 0) return <p class="soft">{say("sides.noBook")}</p>;
  return (
    <Table
      title={say("sides.book")}
      rows={[...signatures].reverse()}
      keyOf={(row) => String(row.id)}
      file="signatures"
      columns={[
        {
          key: "date",
          head: say("sides.date"),
          exported: "date",
          value: (row) => row.date,
          cell: (row) => showDay(row.date, language.value),
        },
        {
          key: "action",
          head: say("sides.action"),
          exported: "action",
          value: (row) => term("signature", row.action),
        },
        {
          key: "face",
          head: say("sides.face"),
          exported: "face",
          value: (row) => term("face", row.face),
        },
        {
          key: "for",
          head: say("sides.for"),
          exported: "for",
          value: (row) =>
            [...row.kinds.map((kind) => term("kind", kind)), ...row.joints].join(", ") ||
            say("sides.whole"),
        },
        {
          key: "by",
          head: say("sides.by"),
          exported: "by",
          value: (row) => `${row.signed_by}, ${row.role}`,
        },
        {
          key: "reason",
          head: say("sides.reason"),
          exported: "reason",
          value: (row) =>
            [row.reason, ...row.undone].filter((part) => part !== "").join("; ") || row.note,
        },
      ]}
    />
  );
}
