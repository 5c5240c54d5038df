/** Revisions of a plan, and what differs between two of them. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { post, read, type Schemas } from "../api/client";
import { ChangesView } from "../parts/changes";
import { Failure, Framed, Waiting } from "../parts/notices";
import { saveText } from "../parts/save";
import { Table } from "../parts/table";
import { useRead } from "../state/held";
import { change } from "../state/reason";
import { addressOf } from "../state/route";
import { say, term } from "../state/say";
import { language, person, units } from "../state/ways";
import { showMoment } from "../units/moment";

type House = Schemas["HouseOut"];
type Revision = Schemas["RevisionOut"];

export function Revisions({ house }: { house: House }): JSX.Element {
  const held = useRead("/api/v1/houses/{house}/revisions", { path: { house: house.id } });
  const failure = useSignal<unknown>(null);
  const path = { house: house.id };
  const back = async (row: Revision): Promise<void> => {
    failure.value = null;
    try {
      const source = { kind: "revision" as const, number: row.number };
      const note = say("revisions.backNote", { n: row.number });
      await change((reason) =>
        post("/api/v1/houses/{house}/revisions", {
          path,
          query: { units: units.value },
          body: { base: house.head, source, author: person.value, note, reason },
        }),
      );
    } catch (error) {
      failure.value = error;
    }
  };
  const save = async (row: Revision): Promise<void> => {
    const plan = await read("/api/v1/houses/{house}/plan", {
      path,
      query: { revision: row.number },
    });
    saveText(`${house.name} ${row.number}.yaml`, plan.text, "application/yaml");
  };
  if (held.error !== null) return <Failure error={held.error} />;
  if (held.value === null) return <Waiting />;
  return (
    <>
      {failure.value !== null && <Failure error={failure.value} />}
      <Table
        title={say("revisions.title")}
        rows={held.value.revisions}
        keyOf={(row) => String(row.number)}
        columns={[
          {
            key: "number",
            head: say("revisions.number"),
            number: true,
            value: (row) => row.number,
          },
          {
            key: "when",
            head: say("revisions.when"),
            value: (row) => row.made_at,
            cell: (row) => showMoment(row.made_at, language.value),
          },
          { key: "from", head: say("revisions.from"), value: (row) => term("origin", row.origin) },
          { key: "who", head: say("revisions.who"), value: (row) => row.author || null },
          { key: "note", head: say("revisions.note"), value: (row) => row.note || null },
          {
            key: "act",
            head: say("revisions.act"),
            value: () => null,
            cell: (row) => (
              <span class="row">
                {row.is_head ? (
                  <Framed word={say("revisions.head")} kind="done" />
                ) : (
                  <>
                    <a
                      class="button"
                      href={addressOf(house.id, "house", "changes", {
                        before: String(row.number),
                        after: String(house.head),
                      })}
                    >
                      {say("revisions.compare")}
                    </a>
                    <button type="button" onClick={() => back(row)}>
                      {say("revisions.back")}
                    </button>
                  </>
                )}
                <button
                  type="button"
                  onClick={() => save(row)}
                  aria-label={say("revisions.saveOf", { n: row.number })}
                >
                  {say("revisions.save")}
                </button>
              </span>
            ),
          },
        ]}
      />
    </>
  );
}

interface ComparedProps {
  readonly house: House;
  readonly before: number;
  readonly after: number | null;
}

export function Compared({ house, before, after }: ComparedProps): JSX.Element {
  const held = useRead("/api/v1/houses/{house}/changes", {
    path: { house: house.id },
    query: { before, after },
  });
  return (
    <>
      <p>
        <a href={addressOf(house.id, "house")}>{say("compare.back")}</a>
      </p>
      {held.error !== null && <Failure error={held.error} />}
      {held.value === null && held.error === null && <Waiting />}
      {held.value !== null && <ChangesView house={house.id} changes={held.value} />}
    </>
  );
}
