/** A fan test: readings in, the figure with its limits out, every rule of the standard checked. */

import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { Plot } from "../charts/plot";
import { Failure, Framed, Notice, Waiting } from "../parts/notices";
import { Table } from "../parts/table";
import { Files, ResultLine, useStanding } from "../parts/work_result";
import { useRead } from "../state/held";
import { addressOf } from "../state/route";
import { say, term, type WordKey } from "../state/say";
import { units } from "../state/ways";
import { flowIn, flowUnit, showHourly } from "../units/flow";
import { smallArea } from "./air_forecast_tables";
import { ReadingsForm } from "./air_readings";

type Fan = Schemas["FanOut"];

export function FanTest({ house, name }: { house: string; name: string }): JSX.Element {
  const standing = useStanding("fan");
  const done = standing?.done ?? null;
  const held = useRead(done === null ? null : "/api/v1/jobs/{job}/fan", {
    path: { job: done?.id ?? "" },
  });
  const result = done === null ? null : held.value;
  return (
    <>
      <h2>{say("fan.title")}</h2>
      <Notice>{say("fan.caution")}</Notice>
      <ReadingsForm
        house={house}
        name={name}
        busy={standing?.open != null}
        open={standing !== null && done === null}
      />
      <ResultLine standing={standing} none={say("fan.none")} />
      {done !== null && held.error !== null && <Failure error={held.error} />}
      {done !== null && result === null && held.error === null && <Waiting />}
      {done !== null && result !== null && (
        <>
          <Answer fan={result} />
          <p>
            <a class="button" href={addressOf(house, "search")}>
              {say("fan.toSearch")}
            </a>
          </p>
          <Lines fan={result} />
          <Figures fan={result} />
          <Checks fan={result} />
          <Files job={done} />
          {result.notes.length > 0 && (
            <Notice>
              <ul>
                {result.notes.map((note) => (
                  <li key={note}>{note}</li>
                ))}
              </ul>
            </Notice>
          )}
        </>
      )}
    </>
  );
}

function Answer({ fan }: { fan: Fan }): JSX.Element {
  const told = {
    value: showHourly(fan.flow_50.value_m3_h, units.value),
    low: showHourly(fan.flow_50.low_m3_h, units.value),
    high: showHourly(fan.flow_50.high_m3_h, units.value),
  };
  const word = fan.outcome === null ? null : fan.outcome.replaceAll(" ", "_");
  return (
    <>
      <p class="answer">
        {word !== null && (
          <Framed
            word={say(`fan.outcome.${word}` as WordKey)}
            kind={word === "passes" ? "done" : word === "fails" ? "stop" : "attention"}
          />
        )}{" "}
        {say("fan.answer", told)}
        {fan.ach50 !== null &&
          ` ${say("fan.ach", { n: fan.ach50.value_per_h.toFixed(2), low: fan.ach50.low_per_h.toFixed(2), high: fan.ach50.high_per_h.toFixed(2) })}`}
      </p>
      {fan.target !== null && (
        <p>{say("fan.against", { limit: limitWords(fan.target), source: fan.target.source })}</p>
      )}
    </>
  );
}

function limitWords(target: Schemas["TargetOut"]): string {
  if (target.measure === "flow_50") return showHourly(target.limit_m3_h ?? 0, units.value);
  if (target.measure === "q50") return `${target.limit_m3_h_m2 ?? 0} m³/(h·m²)`;
  return `${target.limit_per_h ?? target.limit_1_h ?? 0} ACH50`;
}

const LOOKS = [
  { color: "#005a8f", dash: [], mark: "disc" as const },
  { color: "#b34a00", dash: [10, 5], mark: "ring" as const },
];

/** Readings and the lines through them; both axes in ratios, so that a power law is straight. */
function Lines({ fan }: { fan: Fan }): JSX.Element {
  const system = units.value;
  const all = fan.series.flatMap((one) => one.pressures_pa);
  const [low, high] = [Math.min(...all, 4), Math.max(...all, 60)];
  const grid = Array.from({ length: 25 }, (_, k) => low * (high / low) ** (k / 24));
  const xs = [...new Set([...grid, ...all])].sort((a, b) => a - b);
  const curves = fan.series.flatMap((one, k) => {
    const look = LOOKS[k % 2] ?? { color: "#101010", dash: [], mark: "disc" as const };
    const name = say(`fan.direction.${one.id}` as WordKey);
    const at = new Map(one.pressures_pa.map((pressure, n) => [pressure, one.flows_m3_h[n] ?? 0]));
    const line = xs.map((x) =>
      flowIn(one.coefficient.value_m3_h_pa_n * x ** one.exponent.value_of_pressure, system),
    );
    return [
      {
        name: say("fan.line", { name, n: one.exponent.value_of_pressure.toFixed(2) }),
        color: look.color,
        dash: look.dash,
        values: line,
      },
      {
        name: say("fan.readingsOf", { name }),
        color: look.color,
        mark: look.mark,
        values: xs.map((x) => (at.has(x) ? flowIn(at.get(x) ?? 0, system) : null)),
      },
    ];
  });
  return (
    <Plot
      title={say("fan.plot")}
      xName={say("fan.plotX")}
      yName={say("fan.plotY", { unit: flowUnit(system) })}
      xs={xs}
      curves={curves}
      log="both"
      showX={evenly}
      showY={evenly}
      limits={[{ axis: "x", at: 50, name: say("fan.at50") }]}
    >
      {say("fan.plotHelp")}
    </Plot>
  );
}

/** Marks at 1, 2 and 5 of each power of ten, so that they do not crowd. */
export function evenly(value: number): string {
  const first = Number(value.toExponential(0).charAt(0));
  return first === 1 || first === 2 || first === 5 ? String(Number(value.toPrecision(3))) : "";
}

interface Figure {
  readonly name: WordKey;
  readonly value: string;
  readonly low: string;
  readonly high: string;
}

function Figures({ fan }: { fan: Fan }): JSX.Element {
  const rows: Figure[] = [
    {
      name: "fan.q50flow",
      value: showHourly(fan.flow_50.value_m3_h, units.value),
      low: showHourly(fan.flow_50.low_m3_h, units.value),
      high: showHourly(fan.flow_50.high_m3_h, units.value),
    },
  ];
  if (fan.ach50 !== null)
    rows.push({
      name: "fan.ach50",
      value: fan.ach50.value_per_h.toFixed(2),
      low: fan.ach50.low_per_h.toFixed(2),
      high: fan.ach50.high_per_h.toFixed(2),
    });
  if (fan.q50 !== null)
    rows.push({
      name: "fan.q50",
      value: perArea(fan.q50.value_m3_h_m2),
      low: perArea(fan.q50.low_m3_h_m2),
      high: perArea(fan.q50.high_m3_h_m2),
    });
  rows.push({
    name: "fan.ela",
    value: smallArea(fan.ela_4.value_m2),
    low: smallArea(fan.ela_4.low_m2),
    high: smallArea(fan.ela_4.high_m2),
  });
  rows.push({
    name: "fan.eqla",
    value: smallArea(fan.eqla_10.value_m2),
    low: smallArea(fan.eqla_10.low_m2),
    high: smallArea(fan.eqla_10.high_m2),
  });
  return (
    <Table
      title={say("fan.figures")}
      rows={rows}
      keyOf={(row) => row.name}
      columns={[
        { key: "name", head: say("fan.figure"), value: (row) => say(row.name) },
        { key: "value", head: say("fan.value"), number: true, value: (row) => row.value },
        { key: "low", head: say("fan.from"), number: true, value: (row) => row.low },
        { key: "high", head: say("fan.to"), number: true, value: (row) => row.high },
      ]}
    />
  );
}

const perArea = (flow: number): string =>
  units.value === "us" ? `${(flow / 18.288).toFixed(3)} CFM/ft²` : `${flow.toFixed(2)} m³/(h·m²)`;

function Checks({ fan }: { fan: Fan }): JSX.Element {
  const rows = [
    ...fan.checks.map((check) => ({ check, of: say("fan.whole") })),
    ...fan.series.flatMap((one) =>
      one.checks.map((check) => ({ check, of: say(`fan.direction.${one.id}` as WordKey) })),
    ),
  ];
  return (
    <Table
      title={say("fan.rules")}
      rows={rows}
      keyOf={(row) => `${row.of} ${row.check.rule}`}
      file="fan-rules"
      columns={[
        { key: "of", head: say("fan.of"), exported: "of", value: (row) => row.of },
        {
          key: "rule",
          head: say("fan.rule"),
          exported: "rule",
          value: (row) => term("rule", row.check.rule),
        },
        {
          key: "measured",
          head: say("fan.measured"),
          exported: "measured",
          number: true,
          value: (row) => row.check.measured,
        },
        {
          key: "limit",
          head: say("fan.limit"),
          exported: "limit",
          number: true,
          value: (row) => row.check.limit,
        },
        {
          key: "holds",
          head: say("fan.holds"),
          exported: "holds",
          value: (row) =>
            say(row.check.holds ? "fan.yes" : row.check.required ? "fan.no" : "fan.advice"),
          cell: (row) =>
            row.check.holds ? (
              say("fan.yes")
            ) : (
              <Framed
                word={say(row.check.required ? "fan.no" : "fan.advice")}
                kind={row.check.required ? "stop" : "soft"}
              />
            ),
        },
        {
          key: "source",
          head: say("joint.source"),
          exported: "source",
          value: (row) => row.check.source,
          cell: (row) => <span class="soft">{row.check.source}</span>,
        },
      ]}
    />
  );
}
