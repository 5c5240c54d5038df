/** Readings of a fan test: typed line by line, or taken from a file. What is typed stays after a reload. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { useEffect } from "preact/hooks";
import { ChoiceField, FileField, type TextFile, WordsField } from "../parts/fields_more";
import { say, type WordKey } from "../state/say";
import { units } from "../state/ways";
import { ask, type Wishes } from "../state/work";
import {
  type Facts,
  firstReadings,
  keepReadings,
  keptReadings,
  PHASES,
  type Phase,
  type Reading,
  type Readings,
  readingsText,
} from "./air_readings_text";

interface Props {
  readonly house: string;
  readonly name: string;
  readonly busy: boolean;
  readonly open: boolean;
}

const STANDARDS = ["iso-9972", "astm-e779", "astm-e1827"] as const;

export function ReadingsForm({ house, name, busy, open }: Props): JSX.Element {
  const held = useSignal<Readings>(keptReadings(house) ?? firstReadings(name, units.value));
  const file = useSignal<TextFile | null>(null);
  const standard = useSignal<(typeof STANDARDS)[number]>("iso-9972");
  const target = useSignal("");
  useEffect(() => keepReadings(house, held.value), [held.value]);
  const filled =
    file.value !== null ||
    held.value.rows.filter(
      (row) => row.phase === "reading" && row.pressure !== "" && row.flow !== "",
    ).length >= 2;
  const send = (event: Event): void => {
    event.preventDefault();
    const wishes: Partial<Wishes> = {
      readings: file.value?.text ?? readingsText(held.value),
      standard: standard.value,
      ...(target.value.trim() === "" ? {} : { target: target.value.trim() }),
    };
    void ask(house, "fan", wishes);
  };
  return (
    <details class="ask" open={open}>
      <summary>{say("fan.readings")}</summary>
      <form onSubmit={send}>
        <FileField
          name={say("fan.file")}
          help={say("fan.fileHelp")}
          accept=".csv,.txt"
          file={file.value}
          onFile={(taken) => {
            file.value = taken;
          }}
        />
        {file.value === null && (
          <Typed
            held={held.value}
            onHeld={(next) => {
              held.value = next;
            }}
          />
        )}
        <div class="fields top">
          <ChoiceField
            name={say("fan.standard")}
            value={standard.value}
            choices={STANDARDS.map((one) => [one, say(`fan.${one}`)] as const)}
            onValue={(value) => {
              standard.value = value;
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
        <button type="submit" class="main" disabled={busy || !filled}>
          {say(busy ? "work.underWay" : "fan.go")}
        </button>
      </form>
    </details>
  );
}

interface TypedProps {
  readonly held: Readings;
  readonly onHeld: (next: Readings) => void;
}

const FACTS: readonly (readonly [keyof Facts, WordKey])[] = [
  ["date", "fan.date"],
  ["tester", "fan.tester"],
  ["stage", "fan.stage"],
  ["indoor", "fan.indoor"],
  ["outdoor", "fan.outdoor"],
  ["wind", "fan.wind"],
  ["elevation", "fan.elevation"],
];

function Typed({ held, onHeld }: TypedProps): JSX.Element {
  const fact = (key: keyof Facts, value: string): void =>
    onHeld({ ...held, facts: { ...held.facts, [key]: value } });
  const us = held.system === "us";
  const unit = { temperature: us ? "°F" : "°C", wind: us ? "mph" : "m/s", height: us ? "ft" : "m" };
  return (
    <>
      <div class="fields top">
        {FACTS.map(([key, word]) => (
          <WordsField
            key={key}
            type={key === "date" ? "date" : "text"}
            name={say(word, unit)}
            value={held.facts[key]}
            onValue={(value) => fact(key, value)}
          />
        ))}
      </div>
      <Rows held={held} onHeld={onHeld} />
    </>
  );
}

function Rows({ held, onHeld }: TypedProps): JSX.Element {
  const change = (k: number, more: Partial<Reading>): void =>
    onHeld({ ...held, rows: held.rows.map((row, n) => (n === k ? { ...row, ...more } : row)) });
  const flow = held.system === "us" ? "CFM" : "m³/h";
  return (
    <div class="table-frame low" role="region" aria-label={say("fan.readings")} tabIndex={0}>
      <table class="entries">
        <caption>{say("fan.rowsHelp")}</caption>
        <thead>
          <tr>
            <th scope="col">{say("fan.phase")}</th>
            <th scope="col">{say("fan.pressure")}</th>
            <th scope="col">{say("fan.flow", { unit: flow })}</th>
            <th scope="col">
              <span class="hidden-words">{say("fan.takeRow")}</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {held.rows.map((row, k) => (
            <tr key={k}>
              <td>
                <select
                  aria-label={say("fan.phaseOf", { n: k + 1 })}
                  value={row.phase}
                  onChange={(event) => change(k, { phase: event.currentTarget.value as Phase })}
                >
                  {PHASES.map((phase) => (
                    <option key={phase} value={phase} selected={phase === row.phase}>
                      {say(`fan.phase.${phase}` as WordKey)}
                    </option>
                  ))}
                </select>
              </td>
              <td>
                <input
                  inputMode="decimal"
                  aria-label={say("fan.pressureOf", { n: k + 1 })}
                  value={row.pressure}
                  onInput={(event) => change(k, { pressure: event.currentTarget.value })}
                />
              </td>
              <td>
                {row.phase === "reading" && (
                  <input
                    inputMode="decimal"
                    aria-label={say("fan.flowOf", { n: k + 1, unit: flow })}
                    value={row.flow}
                    onInput={(event) => change(k, { flow: event.currentTarget.value })}
                  />
                )}
              </td>
              <td>
                <button
                  type="button"
                  aria-label={say("fan.takeRowOf", { n: k + 1 })}
                  onClick={() => onHeld({ ...held, rows: held.rows.filter((_, n) => n !== k) })}
                >
                  ×
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <div class="row more">
        <button
          type="button"
          onClick={() =>
            onHeld({ ...held, rows: [...held.rows, { phase: "reading", pressure: "", flow: "" }] })
          }
        >
          {say("fan.addRow")}
        </button>
      </div>
    </div>
  );
}
