/** The house in numbers, what needs a look, and every revision of its plan. */

import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import type { HousePage } from "../desk";
import inks from "../engine/inks.json";
import { Failure, Gravity, Notice, Waiting } from "../parts/notices";
import { Sheet } from "../parts/sheet";
import { Table } from "../parts/table";
import { useRead } from "../state/held";
import { addressOf } from "../state/route";
import { say, term } from "../state/say";
import { units } from "../state/ways";
import { showLength } from "../units/show";
import { Compared, Revisions } from "./house_revisions";

type House = Schemas["HouseOut"];

export function Page({ house, item, choices }: HousePage): JSX.Element {
  const before = Number(choices.get("before"));
  const after = Number(choices.get("after"));
  if (item === "changes" && before > 0) {
    return (
      <Sheet
        title={say("compare.title", { before, after: after > 0 ? after : house.head })}
        house={house.name}
      >
        <Compared house={house} before={before} after={after > 0 ? after : null} />
      </Sheet>
    );
  }
  return (
    <Sheet title={house.name} house={undefined}>
      {house.place !== "" && <p>{house.place}</p>}
      <div class="row">
        {house.has_form ? (
          <a class="button main" href={addressOf(house.id, "draw")}>
            {say("house.redraw")}
          </a>
        ) : null}
        <a class={`button ${house.has_form ? "" : "main"}`} href={addressOf(house.id, "plan")}>
          {say("house.text")}
        </a>
        {house.has_draft && <span class="framed attention">{say("house.draft")}</span>}
      </div>
      <Numbers house={house} />
      <Findings house={house} />
      {house.lost_overrides.length > 0 && (
        <Notice>
          <p>{say("house.lost", { ids: house.lost_overrides.join(", ") })}</p>
        </Notice>
      )}
      {house.notes.length > 0 && (
        <details class="notes">
          <summary>{say("verdict.notes", { n: house.notes.length })}</summary>
          <ul>
            {house.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </details>
      )}
      <Revisions house={house} />
    </Sheet>
  );
}

function Numbers({ house }: { house: House }): JSX.Element {
  const { counted } = house;
  const rows: readonly (readonly [string, string | number, string | null])[] = [
    [say("house.panels"), counted.panels, null],
    [say("house.joints"), counted.joints, addressOf(house.id, "joints")],
    [say("house.length"), showLength(counted.joint_length_m, units.value), null],
    [say("house.nodes"), counted.nodes, addressOf(house.id, "joints")],
    [say("house.unsigned"), counted.unsigned, addressOf(house.id, "sides")],
    [say("house.breaks"), counted.breaks, null],
    [say("house.zone"), house.climate_zone === "" ? "–" : house.climate_zone, null],
  ];
  return (
    <>
      <h2>{say("house.numbers")}</h2>
      <dl class="facts">
        {rows.map(([name, value, link]) => (
          <>
            <dt>{name}</dt>
            <dd class="figure">{link === null ? value : <a href={link}>{value}</a>}</dd>
          </>
        ))}
      </dl>
    </>
  );
}

function Findings({ house }: { house: House }): JSX.Element {
  const held = useRead("/api/v1/houses/{house}/findings", {
    path: { house: house.id },
    query: { units: units.value },
  });
  if (held.error !== null) return <Failure error={held.error} />;
  if (held.value === null) return <Waiting />;
  const { findings } = held.value;
  if (findings.length === 0) return <Notice>{say("house.noFindings")}</Notice>;
  return (
    <Table
      title={say("house.findings")}
      rows={findings}
      keyOf={(row) => row.id}
      file={`${house.name} findings`}
      columns={[
        {
          key: "severity",
          head: say("joints.look"),
          exported: "severity",
          value: (row) => row.severity,
          cell: (row) => <Gravity severity={row.severity} />,
        },
        {
          key: "subject",
          head: say("house.concerns"),
          exported: "subject",
          id: true,
          value: (row) => row.subject,
          cell: (row) => (
            <a href={subjectAddress(house.id, row.subject)}>{subjectWords(row.subject)}</a>
          ),
        },
        {
          key: "sentence",
          head: say("house.what"),
          exported: "what",
          value: (row) => row.sentence,
        },
        { key: "out", head: say("house.wayOut"), exported: "way_out", value: (row) => row.way_out },
      ]}
    />
  );
}

/** A kind of joint in words, anything else by its name. */
const subjectWords = (subject: string): string =>
  subject in inks ? term("kind", subject) : subject;

/** Where a finding's subject is seen: a kind of joint among the sides, a node, or a joint. */
function subjectAddress(house: string, subject: string): string {
  if (subject in inks) return addressOf(house, "sides", subject);
  return addressOf(house, subject.startsWith("N-") ? "node" : "joint", subject);
}
