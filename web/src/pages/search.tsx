/** The search for leaks: where to look next, what was seen, whether to go on. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { Plot } from "../charts/plot";
import type { HousePage } from "../desk";
import { Failure, Framed, Notice, Waiting } from "../parts/notices";
import { Sheet } from "../parts/sheet";
import { Table } from "../parts/table";
import { Files, ResultLine, useStanding } from "../parts/work_result";
import { useRead } from "../state/held";
import { addressOf } from "../state/route";
import { say, term, type WordKey } from "../state/say";
import { units } from "../state/ways";
import { flowIn, flowUnit, showChance, showHourly, showShare, showSmallFlow } from "../units/flow";
import { showLength, showTime } from "../units/show";
import { PlaceLink } from "./air_forecast_tables";
import { type Entry, keepDiary, useDiary } from "./search_diary";
import { SearchForm } from "./search_form";
import { Seen } from "./search_seen";

type Hunt = Schemas["HuntOut"];
type Choice = Hunt["next"][number];

export function Page({ house }: HousePage): JSX.Element {
  const standing = useStanding("hunt");
  const done = standing?.done ?? null;
  const held = useRead(done === null ? null : "/api/v1/jobs/{job}/hunt", {
    path: { job: done?.id ?? "" },
  });
  const hunt = done === null ? null : held.value;
  const diary = useDiary(house.id);
  const note = (entry: Entry): void =>
    keepDiary(house.id, diary, { ...diary.value, log: [...diary.value.log, entry] });
  return (
    <Sheet title={say("search.title")} house={house.name}>
      <p>{say("search.lead")}</p>
      <Notice>{say("search.caution")}</Notice>
      <SearchForm
        house={house.id}
        diary={diary}
        places={hunt?.places ?? []}
        busy={standing?.open != null}
        hasResult={done !== null}
      />
      <ResultLine standing={standing} none={say("search.none")} />
      {done !== null && held.error !== null && <Failure error={held.error} />}
      {done !== null && hunt === null && held.error === null && <Waiting />}
      {done !== null && hunt !== null && (
        <>
          <Advice hunt={hunt} />
          <Next house={house.id} hunt={hunt} onNote={note} />
          <Worth hunt={hunt} />
          <p>
            <a class="button" href={addressOf(house.id, "model", null, { by: "leak" })}>
              {say("search.onModel")}
            </a>
          </p>
          <Places house={house.id} hunt={hunt} />
          <Files job={done} />
          {hunt.notes.length > 0 && (
            <Notice>
              <ul>
                {hunt.notes.map((one) => (
                  <li key={one}>{one}</li>
                ))}
              </ul>
            </Notice>
          )}
        </>
      )}
    </Sheet>
  );
}

function Advice({ hunt }: { hunt: Hunt }): JSX.Element {
  const on = hunt.advice.word === "go_on";
  const told = {
    value: showHourly(hunt.total.leak_m3_h, units.value),
    low: showHourly(hunt.total.leak_low_m3_h, units.value),
    high: showHourly(hunt.total.leak_high_m3_h, units.value),
  };
  return (
    <>
      <p class="answer">
        <Framed word={say(on ? "search.goOn" : "search.stop")} kind={on ? "attention" : "done"} />{" "}
        {say("search.total", told)}
      </p>
      <p>
        {say(on ? "search.goOnWhy" : "search.stopWhy", {
          gain: showSmallFlow(hunt.advice.gain_m3_h_per_h, units.value),
          n: hunt.advice.first_count,
          share: showShare(hunt.advice.first_share),
        })}
      </p>
    </>
  );
}

const FIRST = 6;

/** The next places, each as a slip to be written on. */
function Next({
  house,
  hunt,
  onNote,
}: {
  house: string;
  hunt: Hunt;
  onNote: (entry: Entry) => void;
}): JSX.Element {
  const many = useSignal(FIRST);
  const places = new Map(hunt.places.map((one) => [one.id, one]));
  return (
    <section aria-labelledby="search-next">
      <h2 id="search-next">{say("search.next")}</h2>
      <ol class="slips">
        {hunt.next.slice(0, many.value).map((choice, k) => (
          <li key={choice.id}>
            <span class="turn">{k + 1}</span>
            <div>
              <h3>
                <PlaceLink
                  house={house}
                  id={choice.id}
                  sort={places.get(choice.id)?.sort ?? "penetration"}
                />{" "}
                <span class="soft">{term("kind", choice.kind)}</span>
              </h3>
              <p>{why(choice, places.get(choice.id))}</p>
              <Seen place={choice.id} method={hunt.method} onNote={onNote} />
            </div>
          </li>
        ))}
      </ol>
      {hunt.next.length > many.value && (
        <button
          type="button"
          onClick={() => {
            many.value += 2 * FIRST;
          }}
        >
          {say("search.more", { n: hunt.next.length - many.value })}
        </button>
      )}
      {hunt.while_there.length > 0 && (
        <p>{say("search.whileThere", { ids: hunt.while_there.join(", ") })}</p>
      )}
    </section>
  );
}

function why(choice: Choice, place: Hunt["places"][number] | undefined): string {
  const told = say("search.why", {
    gain: showSmallFlow(choice.gain_m3_h, units.value),
    time: showTime(choice.time_min * 60),
  });
  return place === undefined
    ? told
    : `${told} ${say("search.whyPlace", { defect: showChance(place.defect), share: showShare(place.share), height: showLength(place.height_m, units.value) })}`;
}

/** What an hour of looking saves, summed in the order of the list. */
function Worth({ hunt }: { hunt: Hunt }): JSX.Element | null {
  if (hunt.next.length < 3) return null;
  const system = units.value;
  let [time, gain] = [0, 0];
  const steps = hunt.next.map((one) => {
    time += one.time_min / 60;
    gain += one.gain_m3_h;
    return [time, flowIn(gain, system)] as const;
  });
  return (
    <Plot
      title={say("search.plot")}
      xName={say("search.plotX")}
      yName={say("search.plotY", { unit: flowUnit(system) })}
      xs={[0, ...steps.map(([x]) => x)]}
      curves={[
        {
          name: say("search.plotLine"),
          color: "#b34a00",
          width: 3,
          values: [0, ...steps.map(([, y]) => y)],
        },
      ]}
    >
      {say("search.plotHelp", { n: hunt.next.length })}
    </Plot>
  );
}

function Places({ house, hunt }: { house: string; hunt: Hunt }): JSX.Element {
  const words = (row: Hunt["places"][number]): string =>
    row.mended
      ? say("search.mended")
      : row.looks > 0
        ? say("search.looked", { n: row.looks })
        : say(row.reachable ? "search.notYet" : "search.outOfReach");
  return (
    <Table
      title={say("search.places")}
      rows={hunt.places}
      keyOf={(row) => row.id}
      file="search-places"
      selectable
      first={{ key: "leak", down: true }}
      columns={[
        {
          key: "id",
          head: say("search.place"),
          exported: "place",
          id: true,
          value: (row) => row.id,
          cell: (row) => <PlaceLink house={house} id={row.id} sort={row.sort} />,
        },
        {
          key: "kind",
          head: say("joints.kind"),
          exported: "kind",
          value: (row) => term("kind", row.kind),
        },
        {
          key: "leak",
          head: say("forecast.leak"),
          exported: "leak_m3_h",
          number: true,
          value: (row) => row.leak_m3_h,
          cell: (row) => showSmallFlow(row.leak_m3_h, units.value),
        },
        {
          key: "low",
          head: say("forecast.low"),
          exported: "leak_low_m3_h",
          number: true,
          value: (row) => row.leak_low_m3_h,
          cell: (row) => showSmallFlow(row.leak_low_m3_h, units.value),
        },
        {
          key: "high",
          head: say("forecast.high"),
          exported: "leak_high_m3_h",
          number: true,
          value: (row) => row.leak_high_m3_h,
          cell: (row) => showSmallFlow(row.leak_high_m3_h, units.value),
        },
        {
          key: "defect",
          head: say("search.defect"),
          exported: "defect",
          number: true,
          value: (row) => row.defect,
          cell: (row) => showChance(row.defect),
        },
        {
          key: "gain",
          head: say("search.gain"),
          exported: "gain_m3_h",
          number: true,
          value: (row) => row.gain_m3_h,
          cell: (row) => showSmallFlow(row.gain_m3_h, units.value),
        },
        {
          key: "height",
          head: say("search.height"),
          exported: "height_m",
          number: true,
          value: (row) => row.height_m,
          cell: (row) => showLength(row.height_m, units.value),
        },
        { key: "so", head: say("search.soFar"), exported: "so_far", value: words },
      ]}
    />
  );
}

export type { WordKey };
