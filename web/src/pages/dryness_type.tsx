/** One type of joint: each face beside the others, and how its margin falls as it leaks more. */

import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { Plot } from "../charts/plot";
import { Framed } from "../parts/notices";
import { Table } from "../parts/table";
import { addressOf } from "../state/route";
import { say, term } from "../state/say";
import { units } from "../state/ways";
import { flowIn } from "../units/flow";
import { evenly } from "./air_fan";

type Type = Schemas["DryTypeOut"];
type Height = Schemas["HeightOut"];
type Face = "inner" | "outer" | "both";

const FOOT = 0.3048;
const LOOKS: Readonly<Record<Face, { color: string; dash: readonly number[] }>> = {
  inner: { color: "#005a8f", dash: [] },
  outer: { color: "#b34a00", dash: [12, 4] },
  both: { color: "#101010", dash: [3, 4] },
};

/** A leakage of a joint told in m³/(h·m), in the reader's unit. */
const leakIn = (value: number): number =>
  units.value === "us" ? flowIn(value, "us") * FOOT : value;
const leakUnit = (): string => (units.value === "us" ? "CFM50/ft" : "m³/(h·m)");

export const leakWords = (value: number | null): string =>
  value === null
    ? "–"
    : value === 0
      ? say("dryness.tight")
      : `${Number(leakIn(value).toPrecision(2))} ${leakUnit()}`;

export const marginWords = (margin: number): string =>
  `${margin > 0 ? "+" : ""}${(100 * margin).toFixed(0)} %`;

export function DryType({ house, one }: { house: string; one: Type }): JSX.Element {
  return (
    <>
      {one.heights.map((height) => (
        <section
          key={height.height}
          class="dry-height"
          aria-label={`${one.title}, ${term("height", height.height)}`}
        >
          <h2>
            {one.title}, {term("height", height.height)}
          </h2>
          {height.proposal.length > 0 && (
            <ul>
              {height.proposal.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          )}
          <Falling height={height} />
          <Options height={height} />
          <Advice height={height} />
        </section>
      ))}
      <p>
        {say("dryness.drawn")} <a href={addressOf(house, "joint", one.drawn)}>{one.drawn}</a>
      </p>
    </>
  );
}

/** The margin over the leakage: where a line crosses nought, the wood stays too wet. */
function Falling({ height }: { height: Height }): JSX.Element | null {
  const runs = height.runs.filter((run) => run.converged && run.margin !== null);
  const xs = [...new Set(runs.map((run) => leakIn(run.leak_m3_h_m)))].sort((a, b) => a - b);
  if (xs.length < 2) return null;
  const faces = (["inner", "outer", "both"] as const).filter((face) =>
    runs.some((run) => run.face === face),
  );
  const curves = faces.map((face) => {
    const at = new Map(
      runs
        .filter((run) => run.face === face)
        .map((run) => [leakIn(run.leak_m3_h_m), 100 * (run.margin ?? 0)]),
    );
    return {
      name: say("dryness.sealed", { face: term("face", face) }),
      ...LOOKS[face],
      values: xs.map((x) => at.get(x) ?? null),
    };
  });
  return (
    <Plot
      title={say("dryness.plot")}
      xName={say("dryness.plotX", { unit: leakUnit() })}
      yName={say("dryness.plotY")}
      xs={xs}
      curves={curves}
      log="x"
      showX={evenly}
      limits={[{ axis: "y", at: 0, name: say("dryness.plotLimit") }]}
    >
      {say("dryness.plotHelp")}
    </Plot>
  );
}

function Options({ height }: { height: Height }): JSX.Element {
  const rows = height.options.flatMap((option) =>
    option.places.map((place) => ({ option, place })),
  );
  return (
    <Table
      title={say("dryness.places")}
      rows={rows}
      keyOf={(row) => `${row.option.face} ${row.place.place}`}
      columns={[
        { key: "face", head: say("sides.face"), value: (row) => term("face", row.option.face) },
        { key: "place", head: say("dryness.place"), value: (row) => row.place.place },
        {
          key: "within",
          head: say("dryness.within"),
          value: (row) => say(row.place.within ? "dryness.dry" : "dryness.wet"),
          cell: (row) => (
            <Framed
              word={say(row.place.within ? "dryness.dry" : "dryness.wet")}
              kind={row.place.within ? "done" : "stop"}
            />
          ),
        },
        {
          key: "margin",
          head: say("dryness.margin"),
          number: true,
          value: (row) => row.place.margin,
          cell: (row) => marginWords(row.place.margin),
        },
        {
          key: "binding",
          head: say("dryness.binding"),
          value: (row) => term("criterion", row.place.binding),
        },
        {
          key: "trend",
          head: say("dryness.trend"),
          value: (row) => term("trend", row.place.trend),
        },
        {
          key: "leak",
          head: say("dryness.tolerable"),
          number: true,
          value: (row) => row.option.tolerable_leak_m3_h_m,
          cell: (row) => leakWords(row.option.tolerable_leak_m3_h_m),
        },
      ]}
    />
  );
}

function Advice({ height }: { height: Height }): JSX.Element | null {
  if (height.published_advice.length === 0) return null;
  return (
    <details class="ask">
      <summary>{say("dryness.advice")}</summary>
      <ul>
        {height.published_advice.map((one) => (
          <li key={one.holder}>
            <strong>{one.holder}</strong>: {one.says} <span class="soft">{one.source}</span>{" "}
            {one.agrees !== null && (
              <Framed
                word={say(one.agrees ? "dryness.agrees" : "dryness.differs")}
                kind={one.agrees ? "done" : "attention"}
              />
            )}
          </li>
        ))}
      </ul>
    </details>
  );
}
