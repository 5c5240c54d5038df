/** The forecast: how tight the house will be, how sure that is, and what it hangs on. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { chanceCurve } from "../charts/chance";
import { Plot } from "../charts/plot";
import { ChoiceField, FileField, WordsField } from "../parts/fields_more";
import { Failure, Notice, Waiting } from "../parts/notices";
import { ResultLine, useStanding } from "../parts/work_result";
import { useRead } from "../state/held";
import { say, type WordKey } from "../state/say";
import { units } from "../state/ways";
import { ask, useWishes, type Wishes } from "../state/work";
import { flowIn, flowUnit, showChance, showHourly } from "../units/flow";
import { ForecastTables } from "./air_forecast_tables";

type Outcome = Schemas["OutcomeOut"];
type Result = Schemas["ForecastOut"];
type Way = Outcome["workmanship"];

const WAYS: readonly Way[] = ["careful", "ordinary", "careless"];

export function Forecast({ house }: { house: string }): JSX.Element {
  const standing = useStanding("forecast");
  const done = standing?.done ?? null;
  const asked = useWishes(done);
  const held = useRead(done === null ? null : "/api/v1/jobs/{job}/forecast", {
    path: { job: done?.id ?? "" },
  });
  const result = done === null ? null : held.value;
  return (
    <>
      <h2>{say("forecast.title")}</h2>
      <Form
        key={asked === null ? "" : (done?.id ?? "")}
        house={house}
        asked={asked ?? {}}
        busy={standing?.open != null}
        open={standing !== null && done === null}
      />
      <ResultLine standing={standing} none={say("forecast.none")} />
      {done !== null && held.error !== null && <Failure error={held.error} />}
      {done !== null && result === null && held.error === null && <Waiting />}
      {result !== null && (
        <>
          <Answer result={result} />
          <Chances result={result} />
          <ForecastTables house={house} result={result} />
        </>
      )}
    </>
  );
}

interface FormProps {
  readonly house: string;
  readonly asked: Partial<Wishes>;
  readonly busy: boolean;
  readonly open: boolean;
}

function Form({ house, asked, busy, open }: FormProps): JSX.Element {
  const way = useSignal<Way>(asked.workmanship ?? "ordinary");
  const target = useSignal(asked.target ?? "");
  const weather = useSignal(
    asked.weather == null
      ? null
      : { name: asked.weather_name ?? "weather.csv", text: asked.weather },
  );
  const send = (event: Event): void => {
    event.preventDefault();
    void ask(house, "forecast", {
      workmanship: way.value,
      ...(target.value.trim() === "" ? {} : { target: target.value.trim() }),
      ...(weather.value === null
        ? {}
        : { weather: weather.value.text, weather_name: weather.value.name }),
    });
  };
  return (
    <details class="ask" open={open}>
      <summary>{say("forecast.goesBy")}</summary>
      <form onSubmit={send}>
        <div class="fields top">
          <ChoiceField
            name={say("forecast.way")}
            value={way.value}
            choices={WAYS.map((one) => [one, say(`way.${one}`)] as const)}
            onValue={(value) => {
              way.value = value;
            }}
          />
          <WordsField
            name={say("forecast.target")}
            value={target.value}
            help={say("forecast.targetHelp")}
            onValue={(value) => {
              target.value = value;
            }}
          />
        </div>
        <FileField
          name={say("forecast.weather")}
          help={say("forecast.weatherHelp")}
          accept=".csv,.epw"
          file={weather.value}
          onFile={(file) => {
            weather.value = file;
          }}
        />
        <button type="submit" class="main" disabled={busy}>
          {say(busy ? "work.underWay" : "forecast.go")}
        </button>
      </form>
    </details>
  );
}

function Answer({ result }: { result: Result }): JSX.Element {
  const flow = result.flow_50_m3_h;
  const told = {
    flow: showHourly(flow.p50, units.value),
    low: showHourly(flow.p05, units.value),
    high: showHourly(flow.p95, units.value),
  };
  return (
    <>
      <p class="answer">
        {say("forecast.answer", told)}
        {result.ach50_1_h !== null &&
          ` ${say("forecast.ach", { n: result.ach50_1_h.p50.toFixed(2) })}`}
      </p>
      {result.target !== null && result.chance !== null && (
        <p class="answer">
          {say("forecast.chance", {
            chance: showChance(result.chance),
            flow: showHourly(result.target_flow_50_m3_h ?? 0, units.value),
            source: result.target.source,
          })}
        </p>
      )}
      {result.target === null && <Notice>{say("forecast.noTarget")}</Notice>}
      {result.warnings.map((one) => (
        <div class="notice bad" key={one}>
          <p>{one}</p>
        </div>
      ))}
    </>
  );
}

const LINES: Readonly<Record<Way, { color: string; dash: readonly number[] }>> = {
  careful: { color: "#00694c", dash: [14, 4] },
  ordinary: { color: "#101010", dash: [] },
  careless: { color: "#b34a00", dash: [4, 4] },
};
/** How likely the house tests at or below a flow, for each way of working. */
export function Chances({ result }: { result: Result }): JSX.Element {
  const system = units.value;
  const outcomes = WAYS.map((way) =>
    result.alternatives.find((one) => one.workmanship === way),
  ).filter((one): one is Outcome => one !== undefined);
  const at = (one: Outcome): readonly (readonly [number, number])[] =>
    chanceCurve(one.flow_50_m3_h).map(([flow, part]) => [flowIn(flow, system), part] as const);
  const xs = [...new Set(outcomes.flatMap((one) => at(one).map(([x]) => x)))].sort((a, b) => a - b);
  const curves = outcomes.map((one) => {
    const known = new Map(at(one));
    return {
      name: say(`way.${one.workmanship}` as WordKey),
      ...LINES[one.workmanship],
      values: xs.map((x) => known.get(x) ?? null),
    };
  });
  const limit = result.target_flow_50_m3_h;
  return (
    <Plot
      title={say("forecast.plot")}
      xName={say("forecast.plotX", { unit: flowUnit(system) })}
      yName={say("forecast.plotY")}
      xs={xs}
      curves={curves}
      limits={
        limit === null
          ? []
          : [
              {
                axis: "x",
                at: flowIn(limit, system),
                name: say("forecast.limit", { flow: showHourly(limit, system) }),
              },
            ]
      }
      yRange={[0, 100]}
    >
      {say("forecast.plotHelp")}
    </Plot>
  );
}
