/** Does every joint stay dry, sealed on which face, and how tight must it be for that. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import type { HousePage } from "../desk";
import { ChoiceField } from "../parts/fields_more";
import { Failure, Framed, Notice, Waiting } from "../parts/notices";
import { Sheet } from "../parts/sheet";
import { Table } from "../parts/table";
import { Files, ResultLine, useStanding } from "../parts/work_result";
import { useRead } from "../state/held";
import { addressOf } from "../state/route";
import { count, say, term } from "../state/say";
import { language, units } from "../state/ways";
import { jobs, useWishes } from "../state/work";
import { showMoment } from "../units/moment";
import { showLength } from "../units/show";
import { DryForm } from "./dryness_form";
import { Glance } from "./dryness_glance";
import { DryType, leakWords, marginWords } from "./dryness_type";

type Dry = Schemas["DrynessOut"];

export function Page({ house }: HousePage): JSX.Element {
  const standing = useStanding("dryness");
  const done = standing?.done ?? null;
  const asked = useWishes(done);
  const current = (jobs.value ?? []).some(
    (job) => job.kind === "dryness" && job.state === "done" && job.is_current,
  );
  const gathered = useRead(current ? "/api/v1/houses/{house}/dryness" : null, {
    path: { house: house.id },
  });
  const old = useRead(current || done === null ? null : "/api/v1/jobs/{job}/dryness", {
    path: { job: done?.id ?? "" },
  });
  const held = current ? gathered : old;
  const dry: Dry | null = done === null ? null : held.value;
  const chosen = useSignal("");
  const type = dry?.types.find((one) => one.type === chosen.value) ?? dry?.types[0];
  return (
    <Sheet title={say("dryness.title")} house={house.name}>
      <p>{say("dryness.lead")}</p>
      {!house.has_climate && (
        <Notice>
          <p>{say("dryness.unplaced")}</p>
          <a class="button" href={addressOf(house.id, house.has_form ? "draw" : "plan")}>
            {say("dryness.placeIt")}
          </a>
        </Notice>
      )}
      <DryForm
        key={asked === null ? "" : (done?.id ?? "")}
        house={house}
        asked={asked ?? {}}
        busy={standing?.open != null}
        open={standing !== null && done === null}
      />
      <ResultLine standing={standing} none={say("dryness.none")} />
      {done !== null && held.error !== null && <Failure error={held.error} />}
      {done !== null && dry === null && held.error === null && <Waiting />}
      {done !== null && dry !== null && (
        <>
          <p>
            {climateWords(dry)}{" "}
            {dry.generated && <Framed word={say("dryness.generated")} kind="attention" />}
          </p>
          {gathered.value !== null && current && <MadeFrom from={gathered.value.made_from} />}
          <Notice>{dry.proposal_only}</Notice>
          <Glance types={dry.types} />
          <Types dry={dry} />
          {dry.types.length > 0 && type !== undefined && (
            <>
              <div class="fields top">
                <ChoiceField
                  name={say("dryness.show")}
                  value={type.type}
                  choices={dry.types.map((one) => [one.type, one.title] as const)}
                  onValue={(value) => {
                    chosen.value = value;
                  }}
                />
              </div>
              <DryType house={house.id} one={type} />
            </>
          )}
          <p>
            <a class="button" href={addressOf(house.id, "model", null, { by: "margin" })}>
              {say("dryness.onModel")}
            </a>
          </p>
          <Joints house={house.id} dry={dry} />
          <LeftOut dry={dry} />
          <h2>{say("days.files")}</h2>
          <Files job={done} />
          <Limits dry={dry} />
        </>
      )}
    </Sheet>
  );
}

const climateWords = (of: { weather: string; rooms: string; years: number }): string =>
  `${say("dryness.climate", { weather: of.weather, rooms: of.rooms })} ${count("dryness.yearOne", "dryness.yearN", of.years)}`;

/** Which runs the result is put together from, where there were several. */
function MadeFrom({ from }: { from: Schemas["DrynessGathered"]["made_from"] }): JSX.Element | null {
  if (from.length < 2) return null;
  return (
    <details class="ask">
      <summary>{say("dryness.from", { n: from.length })}</summary>
      <ul>
        {from.map((one) => (
          <li key={one.job}>
            {showMoment(one.ended_at, language.value)}:{" "}
            {count("dryness.fromOne", "dryness.fromN", one.types)}. {climateWords(one)}
          </li>
        ))}
      </ul>
    </details>
  );
}

function Types({ dry }: { dry: Dry }): JSX.Element {
  const rows = dry.types.flatMap((one) => one.heights.map((height) => ({ one, height })));
  return (
    <Table
      title={say("dryness.types")}
      rows={rows}
      keyOf={(row) => `${row.one.type} ${row.height.height}`}
      file="dryness"
      columns={[
        { key: "type", head: say("dryness.type"), exported: "type", value: (row) => row.one.title },
        {
          key: "height",
          head: say("dryness.height"),
          exported: "height",
          value: (row) => term("height", row.height.height),
        },
        {
          key: "face",
          head: say("dryness.proposed"),
          exported: "proposed_face",
          value: (row) => row.height.proposed_face ?? "",
          cell: (row) =>
            row.height.proposed_face === null ? (
              <Framed word={say("dryness.noFace")} kind="stop" />
            ) : (
              term("face", row.height.proposed_face)
            ),
        },
        {
          key: "leak",
          head: say("dryness.tolerable"),
          exported: "tolerable_leak_m3_h_m",
          number: true,
          value: (row) => bestOf(row.height)?.tolerable_leak_m3_h_m ?? null,
          cell: (row) => leakWords(bestOf(row.height)?.tolerable_leak_m3_h_m ?? null),
        },
        {
          key: "usual",
          head: say("dryness.usual"),
          exported: "usual_leak_m3_h_m",
          number: true,
          value: (row) => bestOf(row.height)?.usual_leak_m3_h_m ?? null,
          cell: (row) => leakWords(bestOf(row.height)?.usual_leak_m3_h_m ?? null),
        },
        {
          key: "length",
          head: say("joints.length"),
          exported: "length_m",
          number: true,
          value: (row) => row.one.length_m,
          cell: (row) => showLength(row.one.length_m, units.value),
        },
        {
          key: "n",
          head: say("joints.count"),
          exported: "joints",
          number: true,
          value: (row) => row.one.joints.length,
        },
      ]}
    />
  );
}

function bestOf(height: Schemas["HeightOut"]): Schemas["FaceOptionOut"] | undefined {
  return height.options.find((one) => one.face === height.proposed_face) ?? height.options[0];
}

function Joints({ house, dry }: { house: string; dry: Dry }): JSX.Element {
  const titles = new Map(dry.types.map((one) => [one.type, one.title]));
  return (
    <Table
      title={say("dryness.joints")}
      rows={dry.joints}
      keyOf={(row) => row.id}
      file="dryness-joints"
      selectable
      first={{ key: "margin", down: false }}
      columns={[
        {
          key: "id",
          head: say("joints.id"),
          exported: "joint",
          id: true,
          value: (row) => row.id,
          cell: (row) => <a href={addressOf(house, "joint", row.id)}>{row.id}</a>,
        },
        {
          key: "type",
          head: say("dryness.type"),
          exported: "type",
          value: (row) => titles.get(row.type) ?? row.type,
        },
        {
          key: "margin",
          head: say("dryness.margin"),
          exported: "margin",
          number: true,
          value: (row) => row.margin,
          cell: (row) => (row.margin === null ? "–" : marginWords(row.margin)),
        },
        {
          key: "leak",
          head: say("dryness.tolerable"),
          exported: "tolerable_leak_m3_h_m",
          number: true,
          value: (row) => row.tolerable_leak_m3_h_m,
          cell: (row) => leakWords(row.tolerable_leak_m3_h_m),
        },
      ]}
    />
  );
}

function LeftOut({ dry }: { dry: Dry }): JSX.Element | null {
  if (dry.left_out.length === 0) return null;
  return (
    <>
      <h2>{say("dryness.leftOut")}</h2>
      <ul>
        {dry.left_out.map((one) => (
          <li key={one.type}>
            <strong>{one.title}</strong>: {one.why}
          </li>
        ))}
      </ul>
    </>
  );
}

function Limits({ dry }: { dry: Dry }): JSX.Element {
  return (
    <details class="ask">
      <summary>{say("dryness.limits")}</summary>
      <ul>
        {[...dry.assumed, ...dry.limits_of_the_model].map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
    </details>
  );
}
