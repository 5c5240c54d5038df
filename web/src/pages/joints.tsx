/** The register: every joint, every node, what needs a look. */

import { useComputed, useSignal } from "@preact/signals";
import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import type { HousePage } from "../desk";
import { Failure, Framed, Gravity, Waiting } from "../parts/notices";
import { Sheet } from "../parts/sheet";
import { type Shown, Table } from "../parts/table";
import { useRead } from "../state/held";
import { addressOf } from "../state/route";
import { say, term } from "../state/say";
import { units } from "../state/ways";
import { showLength } from "../units/show";
import { RecordMany } from "./joint_record";

type Row = Schemas["JointRow"];
type Node = Schemas["NodeRow"];

export function Page({ house, choices }: HousePage): JSX.Element {
  const table = useRead("/api/v1/houses/{house}/joints", { path: { house: house.id } });
  const chosen = useSignal<ReadonlySet<string>>(new Set());
  const columns = useComputed(() => jointColumns(house.id));
  const places = useComputed(() => nodeColumns(house.id));
  return (
    <Sheet title={say("joints.title")} house={house.name}>
      {table.error !== null && <Failure error={table.error} />}
      {table.value === null && table.error === null && <Waiting />}
      {table.value !== null && (
        <>
          <p>
            {say("joints.lead", {
              n: table.value.joints.length,
              nodes: table.value.nodes.length,
              length: showLength(house.counted.joint_length_m, units.value),
            })}
          </p>
          <Table
            title={say("joints.table")}
            rows={table.value.joints}
            columns={columns.value}
            keyOf={(row) => row.id}
            file={`${house.name} joints`}
            filter={choices.get("only") ?? ""}
            selectable
            onSelect={(keys) => {
              chosen.value = keys;
            }}
            tools={<RecordMany house={house.id} joints={[...chosen.value]} />}
          />
          <Table
            title={say("joints.nodes")}
            rows={table.value.nodes}
            columns={places.value}
            keyOf={(row) => row.id}
            file={`${house.name} nodes`}
          />
        </>
      )}
    </Sheet>
  );
}

function jointColumns(house: string): Shown<Row>[] {
  return [
    {
      key: "id",
      head: say("joints.id"),
      exported: "joint",
      id: true,
      value: (row) => row.id,
      cell: (row) => <a href={addressOf(house, "joint", row.id)}>{row.id}</a>,
    },
    {
      key: "kind",
      head: say("joints.kind"),
      exported: "kind",
      value: (row) => term("kind", row.kind),
    },
    { key: "storey", head: say("joints.storey"), exported: "storey", value: (row) => row.storey },
    {
      key: "length",
      head: say("joints.length"),
      exported: "length_m",
      number: true,
      value: (row) => row.length_m,
      cell: (row) => showLength(row.length_m, units.value),
    },
    {
      key: "face",
      head: say("joints.face"),
      exported: "face",
      value: (row) =>
        row.face === ""
          ? null
          : `${term("face", row.face)}${row.signed ? "" : ` ${say("unsigned")}`}`,
      cell: (row) =>
        row.face === "" ? (
          "–"
        ) : (
          <>
            {term("face", row.face)} {!row.signed && <Framed word={say("unsigned")} />}
          </>
        ),
    },
    {
      key: "strips",
      head: say("joints.strips"),
      exported: "strips",
      value: (row) => row.strips.join(", ") || null,
    },
    {
      key: "stage",
      head: say("joints.stage"),
      exported: "stage",
      value: (row) => term("stage", row.stage),
    },
    {
      key: "state",
      head: say("joints.state"),
      exported: "state",
      value: (row) => term("state", row.state),
    },
    {
      key: "look",
      head: say("joints.look"),
      exported: "look",
      value: (row) => (row.look === "" ? null : term("severity", row.look)),
      cell: (row) => <Gravity severity={row.look} />,
    },
    {
      key: "corrected",
      head: say("joints.corrected"),
      exported: "corrected",
      value: (row) => (row.corrected ? say("joints.yes") : null),
    },
  ];
}

function nodeColumns(house: string): Shown<Node>[] {
  return [
    {
      key: "id",
      head: say("joints.node"),
      exported: "node",
      id: true,
      value: (row) => row.id,
      cell: (row) => <a href={addressOf(house, "node", row.id)}>{row.id}</a>,
    },
    {
      key: "kind",
      head: say("joints.meets"),
      exported: "kinds",
      value: (row) => kindsOf(row.kind),
    },
    {
      key: "n",
      head: say("joints.count"),
      exported: "joints",
      number: true,
      value: (row) => row.joints.length,
    },
    {
      key: "height",
      head: say("joints.height"),
      exported: "height_m",
      number: true,
      value: (row) => row.at_m[2],
      cell: (row) => showLength(row.at_m[2], units.value),
    },
  ];
}

/** The kinds that meet at a node, in words. */
export function kindsOf(kind: string): string {
  return kind
    .split("+")
    .map((part) => term("kind", part))
    .join(" + ");
}
