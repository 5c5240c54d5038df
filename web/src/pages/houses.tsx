/** The houses of this desk, and the ways to bring a new one in. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { post, remove, type Schemas } from "../api/client";
import { Failure, Notice, Waiting } from "../parts/notices";
import { Sheet } from "../parts/sheet";
import { Table } from "../parts/table";
import { changed, useRead } from "../state/held";
import { addressOf, goTo } from "../state/route";
import { say } from "../state/say";
import { language, person } from "../state/ways";
import { showMoment } from "../units/moment";
import { DropPlace } from "./drop";

type House = Schemas["HouseRow"];

export function Houses(): JSX.Element {
  const houses = useRead("/api/v1/houses");
  const examples = useRead("/api/v1/examples");
  const failure = useSignal<unknown>(null);
  const busy = useSignal(false);
  const open = async (work: () => Promise<{ id: string }>): Promise<void> => {
    busy.value = true;
    failure.value = null;
    try {
      const house = await work();
      changed();
      goTo(addressOf(house.id, "model"));
    } catch (error) {
      failure.value = error;
    } finally {
      busy.value = false;
    }
  };
  const copy = (name: string): Promise<void> =>
    open(() =>
      post("/api/v1/houses", {
        body: { source: { kind: "example", name }, author: person.value, note: "" },
      }),
    );
  return (
    <Sheet title={say("houses.title")}>
      <p>{say("houses.lead")}</p>
      <div class="row">
        <a class="button main" href={addressOf(null, "new")}>
          {say("houses.draw")}
        </a>
      </div>
      {failure.value !== null && <Failure error={failure.value} />}
      {busy.value && <Waiting />}
      {houses.error !== null && <Failure error={houses.error} />}
      {houses.value !== null && (
        <List
          houses={houses.value.houses}
          onError={(error) => {
            failure.value = error;
          }}
        />
      )}
      <h2>{say("houses.bring")}</h2>
      <DropPlace onHouse={(work) => open(work)} />
      <h2>{say("houses.examples")}</h2>
      <div class="row">
        {examples.value?.examples.map((one) => (
          <button type="button" key={one.name} disabled={busy.value} onClick={() => copy(one.name)}>
            {say("houses.copy", { name: one.title })}
          </button>
        ))}
      </div>
    </Sheet>
  );
}

function List({
  houses,
  onError,
}: {
  houses: readonly House[];
  onError: (error: unknown) => void;
}): JSX.Element {
  if (houses.length === 0) return <Notice>{say("houses.none")}</Notice>;
  return (
    <Table
      title={say("houses.list")}
      rows={houses}
      keyOf={(house) => house.id}
      columns={[
        {
          key: "name",
          head: say("houses.name"),
          value: (house) => house.name,
          cell: (house) => <a href={addressOf(house.id, "model")}>{house.name}</a>,
        },
        {
          key: "revision",
          head: say("houses.revision"),
          value: (house) => house.head,
          number: true,
        },
        {
          key: "changed",
          head: say("houses.changed"),
          value: (house) => house.changed_at,
          cell: (house) => showMoment(house.changed_at, language.value),
        },
        {
          key: "out",
          head: say("houses.out"),
          value: () => null,
          cell: (house) => <TakeOut house={house} onError={onError} />,
        },
      ]}
    />
  );
}

/** Taking a house out asks once more, in the server's own sentence. */
function TakeOut({
  house,
  onError,
}: {
  house: House;
  onError: (error: unknown) => void;
}): JSX.Element {
  const asked = useSignal<Schemas["RemovalOut"] | null>(null);
  const path = { house: house.id };
  const ask = (): Promise<void> =>
    post("/api/v1/houses/{house}/removal", { path }).then((answer) => {
      asked.value = answer;
    }, onError);
  const go = (token: string): Promise<void> =>
    remove("/api/v1/houses/{house}", { path, query: { token } }).then(changed, onError);
  const sure = asked.value;
  if (sure === null) {
    return (
      <button
        type="button"
        class="plain"
        onClick={ask}
        aria-label={say("houses.takeOutOf", { name: house.name })}
      >
        {say("houses.takeOut")}
      </button>
    );
  }
  return (
    <span role="alert">
      {sure.sentence}.{" "}
      <span class="row">
        <button type="button" class="main" onClick={() => go(sure.token)}>
          {say("houses.takeOut")}
        </button>
        <button
          type="button"
          onClick={() => {
            asked.value = null;
          }}
        >
          {say("keep")}
        </button>
      </span>
    </span>
  );
}
