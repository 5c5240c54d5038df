/** What the plan of days is to go by: first day, people, days lost, weather, how long to search. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { FileField, WordsField } from "../parts/fields_more";
import { say, term, type WordKey } from "../state/say";
import { ask, type Wishes } from "../state/work";

interface Props {
  readonly house: string;
  readonly asked: Partial<Wishes>;
  readonly busy: boolean;
  readonly open: boolean;
}

const SKILLS = ["setting", "sealing", "roofing", "finishing+trades", "managing+testing"] as const;

export function DaysForm({ house, asked, busy, open }: Props): JSX.Element {
  const start = useSignal(asked.start ?? "");
  const people = useSignal(readCrews(asked.crews ?? ""));
  const rain = useSignal(asked.rain ?? []);
  const crane = useSignal(asked.no_crane ?? []);
  const limit = useSignal(String(asked.limit_s ?? 30));
  const weather = useSignal<{ name: string; text: string } | null>(
    asked.weather == null
      ? null
      : { name: asked.weather_name ?? "weather.csv", text: asked.weather },
  );
  const send = (event: Event): void => {
    event.preventDefault();
    const crews = SKILLS.filter((skill) => Number(people.value[skill]) > 0).map(
      (skill) => `${skill}=${people.value[skill]}`,
    );
    const seconds = Number(limit.value);
    void ask(house, "days", {
      ...(start.value === "" ? {} : { start: start.value }),
      ...(crews.length === 0 ? {} : { crews: crews.join(",") }),
      ...(rain.value.length === 0 ? {} : { rain: [...rain.value] }),
      ...(crane.value.length === 0 ? {} : { no_crane: [...crane.value] }),
      ...(weather.value === null
        ? {}
        : { weather: weather.value.text, weather_name: weather.value.name }),
      limit_s: Number.isFinite(seconds) ? Math.min(600, Math.max(1, seconds)) : 30,
    });
  };
  return (
    <details class="ask" open={open}>
      <summary>{say("days.goesBy")}</summary>
      <form onSubmit={send}>
        <div class="fields">
          <WordsField
            type="date"
            name={say("days.first")}
            value={start.value}
            help={say("days.firstHelp")}
            onValue={(value) => {
              start.value = value;
            }}
          />
          <WordsField
            type="number"
            name={say("days.limit")}
            value={limit.value}
            help={say("days.limitHelp")}
            onValue={(value) => {
              limit.value = value;
            }}
          />
        </div>
        <fieldset>
          <legend>{say("days.people")}</legend>
          <p class="soft">{say("days.peopleHelp")}</p>
          <div class="fields">
            {SKILLS.map((skill) => (
              <WordsField
                key={skill}
                type="number"
                name={term("skill", skill)}
                value={people.value[skill] ?? ""}
                onValue={(value) => {
                  people.value = { ...people.value, [skill]: value };
                }}
              />
            ))}
          </div>
        </fieldset>
        <DayList
          name="days.rain"
          days={rain.value}
          onDays={(days) => {
            rain.value = days;
          }}
        />
        <DayList
          name="days.noCrane"
          days={crane.value}
          onDays={(days) => {
            crane.value = days;
          }}
        />
        <FileField
          name={say("days.weather")}
          help={say("days.weatherHelp")}
          accept=".csv,.json"
          file={weather.value}
          onFile={(file) => {
            weather.value = file;
          }}
        />
        <button type="submit" class="main" disabled={busy}>
          {say(busy ? "work.underWay" : "days.go")}
        </button>
      </form>
    </details>
  );
}

/** People by skill, from words such as `setting=4,sealing=2`. */
export function readCrews(words: string): Readonly<Record<string, string>> {
  return Object.fromEntries(
    words
      .split(",")
      .filter((part) => part.includes("="))
      .map((part) => part.split("=") as [string, string]),
  );
}

interface DayListProps {
  readonly name: "days.rain" | "days.noCrane";
  readonly days: readonly string[];
  readonly onDays: (days: string[]) => void;
}

function DayList({ name, days, onDays }: DayListProps): JSX.Element {
  const next = useSignal("");
  return (
    <fieldset>
      <legend>{say(name)}</legend>
      <div class="row">
        {days.map((day) => (
          <button
            type="button"
            key={day}
            aria-label={say("days.takeOut", { day })}
            onClick={() => onDays(days.filter((one) => one !== day))}
          >
            {day} ×
          </button>
        ))}
        <input
          type="date"
          class="short"
          aria-label={say(`${name}Day` as WordKey)}
          value={next.value}
          onInput={(event) => {
            next.value = event.currentTarget.value;
          }}
        />
        <button
          type="button"
          disabled={next.value === ""}
          onClick={() => {
            onDays([...new Set([...days, next.value])].sort());
            next.value = "";
          }}
        >
          {say("days.addDay")}
        </button>
      </div>
    </fieldset>
  );
}
