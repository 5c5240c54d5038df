/** What to buy, how to cut it, and what could not be counted. */

import type { JSX } from "preact";
import { type Schemas, urlOf } from "../api/client";
import type { HousePage } from "../desk";
import { Failure, Notice, Waiting } from "../parts/notices";
import { Sheet } from "../parts/sheet";
import { Table } from "../parts/table";
import { useRead } from "../state/held";
import { addressOf } from "../state/route";
import { say, term } from "../state/say";
import { language, units } from "../state/ways";
import { showCount, showLength, showSealant, showTime, showWidth } from "../units/show";
import { Cutting } from "./order_cutting";

type Order = Schemas["OrderOut"];
type Line = Schemas["OrderLineOut"];

export function Page({ house }: HousePage): JSX.Element {
  const held = useRead("/api/v1/houses/{house}/order", { path: { house: house.id } });
  const order = held.value;
  const link = (
    path: "/api/v1/houses/{house}/order.xlsx" | "/api/v1/houses/{house}/order.csv",
  ): string =>
    urlOf(path, {
      path: { house: house.id },
      query: { units: units.value, language: language.value },
    });
  return (
    <Sheet title={say("order.title")} house={house.name}>
      <p>{say("order.lead")}</p>
      <div class="row">
        <a class="button main" href={link("/api/v1/houses/{house}/order.xlsx")} download>
          {say("order.xlsx")}
        </a>
        <a class="button" href={link("/api/v1/houses/{house}/order.csv")} download>
          {say("order.csv")}
        </a>
      </div>
      {held.error !== null && <Failure error={held.error} />}
      {order === null && held.error === null && <Waiting />}
      {order !== null && (
        <>
          {order.left_out.length > 0 && <LeftOut house={house.id} order={order} />}
          <Lines order={order} />
          <Cutting house={house.id} order={order} />
          <Labor order={order} />
        </>
      )}
    </Sheet>
  );
}

function LeftOut({ house, order }: { house: string; order: Order }): JSX.Element {
  return (
    <div class="notice bad">
      <p>{say("order.leftOut")}</p>
      <ul>
        {order.left_out.map((one) => (
          <li key={`${one.ref} ${one.what}`}>
            <a class="figure" href={addressOf(house, "joint", one.ref)}>
              {one.ref}
            </a>
            : {one.what}, {one.why}
          </li>
        ))}
      </ul>
    </div>
  );
}

/** An amount in the reader's units. */
export function amountWords(unit: Line["unit"], amount: number): string {
  if (unit === "m") return showLength(amount, units.value);
  return unit === "m3" ? showSealant(amount, units.value) : showCount(amount);
}

function Lines({ order }: { order: Order }): JSX.Element {
  const priced = order.lines.some((line) => line.cost !== null);
  return (
    <>
      <Table
        title={say("order.lines")}
        rows={order.lines}
        keyOf={(line) => line.id}
        file="order"
        selectable
        columns={[
          {
            key: "id",
            head: say("order.item"),
            exported: "item",
            id: true,
            value: (line) => line.id,
          },
          {
            key: "what",
            head: say("order.what"),
            exported: "what",
            value: (line) =>
              line.width_m === null
                ? line.description
                : `${line.description}, ${showWidth(line.width_m, units.value)}`,
          },
          {
            key: "net",
            head: say("order.net"),
            exported: "net_m_m3_or_pieces",
            number: true,
            value: (line) => line.net,
            cell: (line) => amountWords(line.unit, line.net),
          },
          {
            key: "reserve",
            head: say("order.reserve"),
            exported: "reserve",
            number: true,
            value: (line) => line.reserve,
            cell: (line) => amountWords(line.unit, line.reserve),
          },
          {
            key: "packs",
            head: say("order.packs"),
            exported: "packs",
            number: true,
            value: (line) => line.packs,
            cell: (line) => (line.included_in_other_lines ? "–" : String(line.packs)),
          },
          {
            key: "cartons",
            head: say("order.cartons"),
            exported: "cartons",
            number: true,
            value: (line) => line.cartons,
            cell: (line) => (line.cartons === 0 ? "–" : `${line.cartons} × ${line.per_carton}`),
          },
          ...(priced
            ? [
                {
                  key: "cost",
                  head: say("order.cost", { currency: order.currency }),
                  exported: "cost",
                  number: true,
                  value: (line: Line) => line.cost,
                  cell: (line: Line) => (line.cost === null ? "–" : line.cost.toFixed(2)),
                },
              ]
            : []),
          {
            key: "for",
            head: say("order.for"),
            exported: "joints_or_nodes",
            number: true,
            value: (line) => line.refs.length,
          },
          {
            key: "note",
            head: say("order.note"),
            exported: "note",
            value: (line) => [line.note, line.source].filter((part) => part !== "").join("; "),
            cell: (line) => (
              <span class="soft">
                {[line.note, line.source].filter((part) => part !== "").join("; ")}
              </span>
            ),
          },
        ]}
      />
      {order.cost !== null && (
        <p>{say("order.total", { cost: `${order.currency} ${order.cost.toFixed(2)}` })}</p>
      )}
      {order.unpriced.length > 0 && (
        <Notice>{say("order.unpriced", { items: order.unpriced.join(", ") })}</Notice>
      )}
    </>
  );
}

function Labor({ order }: { order: Order }): JSX.Element | null {
  if (order.labor.length === 0) return null;
  return (
    <Table
      title={say("order.labor")}
      rows={order.labor}
      keyOf={(row) => row.work}
      columns={[
        { key: "work", head: say("order.work"), value: (row) => term("work", row.work) },
        {
          key: "amount",
          head: say("order.net"),
          number: true,
          value: (row) => row.amount,
          cell: (row) => amountWords(row.unit, row.amount),
        },
        {
          key: "time",
          head: say("order.time"),
          number: true,
          value: (row) => row.time_s,
          cell: (row) => (row.time_s === null ? "–" : showTime(row.time_s)),
        },
      ]}
    />
  );
}
