/** One node: where it is and which joints meet there. */

import type { JSX } from "preact";
import type { HousePage } from "../desk";
import { Failure, Notice, Waiting } from "../parts/notices";
import { Sheet } from "../parts/sheet";
import { Table } from "../parts/table";
import { useRead } from "../state/held";
import { addressOf } from "../state/route";
import { say, term } from "../state/say";
import { units } from "../state/ways";
import { showLength } from "../units/show";
import { kindsOf } from "./joints";

export function Page({ house, item }: HousePage): JSX.Element {
  const table = useRead("/api/v1/houses/{house}/joints", { path: { house: house.id } });
  const node = table.value?.nodes.find((one) => one.id === item);
  const joints = table.value?.joints.filter((joint) => node?.joints.includes(joint.id)) ?? [];
  const [east, north, up] = node?.at_m ?? [0, 0, 0];
  return (
    <Sheet title={say("node.title", { id: item ?? "" })} house={house.name}>
      {table.error !== null && <Failure error={table.error} />}
      {table.value === null && table.error === null && <Waiting />}
      {table.value !== null && node === undefined && <Notice>{say("node.gone")}</Notice>}
      {node !== undefined && (
        <>
          <p>
            {kindsOf(node.kind)}.{" "}
            {say("node.at", {
              east: showLength(east, units.value),
              north: showLength(north, units.value),
              up: showLength(up, units.value),
            })}
          </p>
          <p>{say("node.help")}</p>
          <a class="button" href={addressOf(house.id, "model", node.id)}>
            {say("joint.inModel")}
          </a>
          <Table
            title={say("node.joints")}
            rows={joints}
            keyOf={(row) => row.id}
            columns={[
              {
                key: "id",
                head: say("joints.id"),
                id: true,
                value: (row) => row.id,
                cell: (row) => <a href={addressOf(house.id, "joint", row.id)}>{row.id}</a>,
              },
              { key: "kind", head: say("joints.kind"), value: (row) => term("kind", row.kind) },
              { key: "stage", head: say("joints.stage"), value: (row) => term("stage", row.stage) },
              { key: "state", head: say("joints.state"), value: (row) => term("state", row.state) },
            ]}
          />
        </>
      )}
    </Sheet>
  );
}
