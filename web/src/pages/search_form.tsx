/** How the search goes, and its diary: tests, looks, mends in the order they happened. */

import { type Signal, useSignal } from "@preact/signals";
import type { JSX } from "preact";
import type { Schemas } from "../api/client";
import { ChoiceField, WordsField } from "../parts/fields_more";
import { Table } from "../parts/table";
import { readHeld } from "../state/held";
import { say } from "../state/say";
import { units } from "../state/ways";
import { ask, workFailure } from "../state/work";
import { today } from "../units/moment";
import {
  type Diary,
  type Entry,
  isLook,
  isMend,
  keepDiary,
  type Method,
  recordsText,
} from "./search_diary";
import { diaryWords, FanToDiary, SiteFile } from "./search_file";
import { Seen } from "./search_seen";

interface Props {
  readonly house: string;
  readonly diary: Signal<Diary>;
  readonly places: Schemas["HuntOut"]["places"];
  readonly busy: boolean;
  readonly hasResult: boolean;
}

const METHODS: readonly Method[] = ["smoke", "infrared", "hand"];
const AIMS = ["leak", "consequence", "defects"] as const;
/** Places listed: what a long day of searching can reach. Our own choice. */
const TOP = 60;

export function SearchForm({ house, diary, places, busy, hasResult }: Props): JSX.Element {
  const by = useSignal<Method>("smoke");
  const aim = useSignal<(typeof AIMS)[number]>("leak");
  const worked = useSignal(diary.value.log.length);
  const keep = (next: Diary): void => keepDiary(house, diary, next);
  const send = async (event: Event): Promise<void> => {
    event.preventDefault();
    try {
      const { joints } = await readHeld("/api/v1/houses/{house}/joints", { path: { house } });
      worked.value = diary.value.log.length;
      await ask(house, "hunt", {
        by: by.value,
        aim: aim.value,
        top: TOP,
        records: recordsText(diary.value, joints),
      });
    } catch (error) {
      workFailure.value = error;
    }
  };
  const news = diary.value.log.length - worked.value;
  return (
    <form onSubmit={(event) => void send(event)}>
      <div class="fields top">
        <ChoiceField
          name={say("search.by")}
          value={by.value}
          choices={METHODS.map((one) => [one, say(`search.by.${one}`)] as const)}
          onValue={(value) => {
            by.value = value;
          }}
        />
        <ChoiceField
          name={say("search.aim")}
          value={aim.value}
          choices={AIMS.map((one) => [one, say(`search.aim.${one}`)] as const)}
          onValue={(value) => {
            aim.value = value;
          }}
        />
        <WordsField
          name={say("search.target")}
          value={diary.value.target ?? ""}
          help={say("search.targetHelp")}
          onValue={(target) => keep({ ...diary.value, target })}
        />
      </div>
      <FanToDiary house={house} diary={diary} />
      <div class="row">
        <button type="submit" class="main" disabled={busy}>
          {say(busy ? "work.underWay" : hasResult ? "search.again" : "search.go")}
        </button>
        {news > 0 && <span role="status">{say("search.news", { n: news })}</span>}
      </div>
      <details class="ask" open={diary.value.log.length > 0}>
        <summary>{diaryWords(diary.value.log.length)}</summary>
        <DiaryTable log={diary.value.log} onLog={(log) => keep({ ...diary.value, log })} />
        <TestEntry diary={diary.value} onKeep={keep} />
        <LookEntry
          by={by.value}
          places={places}
          onNote={(entry) => keep({ ...diary.value, log: [...diary.value.log, entry] })}
        />
        <SiteFile house={house} diary={diary} />
      </details>
    </form>
  );
}

export function entryWords(entry: Entry): string {
  if (isLook(entry))
    return entry.saw === "nothing"
      ? say("diary.clean", { by: say(`search.by.${entry.by}`) })
      : say("diary.found", { by: say(`search.by.${entry.by}`), n: entry.saw });
  if (isMend(entry)) return say("diary.mended");
  return entry.low !== undefined && entry.high !== undefined
    ? say("diary.testedBetween", { flow: entry.flow, low: entry.low, high: entry.high })
    : say("diary.tested", { flow: entry.flow });
}

const placeOf = (entry: Entry): string =>
  isLook(entry) ? entry.look : isMend(entry) ? entry.mend : entry.test;

function DiaryTable({
  log,
  onLog,
}: {
  log: readonly Entry[];
  onLog: (log: Entry[]) => void;
}): JSX.Element {
  const rows = log.map((entry, k) => ({ entry, k }));
  return (
    <Table
      title=""
      rows={rows}
      keyOf={(row) => String(row.k)}
      empty={say("diary.empty")}
      columns={[
        { key: "n", head: say("diary.turn"), number: true, value: (row) => row.k + 1 },
        { key: "day", head: say("record.day"), value: (row) => row.entry.day ?? "" },
        { key: "where", head: say("diary.where"), id: true, value: (row) => placeOf(row.entry) },
        { key: "what", head: say("diary.what"), value: (row) => entryWords(row.entry) },
        {
          key: "out",
          head: say("diary.out"),
          value: () => "",
          cell: (row) => (
            <button
              type="button"
              aria-label={say("diary.outOf", { n: row.k + 1 })}
              onClick={() => onLog(log.filter((_, k) => k !== row.k))}
            >
              ×
            </button>
          ),
        },
      ]}
    />
  );
}

function TestEntry({
  diary,
  onKeep,
}: {
  diary: Diary;
  onKeep: (diary: Diary) => void;
}): JSX.Element {
  const flow = useSignal("");
  const unit = units.value === "us" ? "cfm" : "m3/h";
  const add = (): void => {
    const tests = diary.log.filter((entry) => "test" in entry).length;
    const text = /[a-z]/i.test(flow.value) ? flow.value.trim() : `${flow.value.trim()} ${unit}`;
    onKeep({ ...diary, log: [...diary.log, { test: `T${tests + 1}`, flow: text, day: today() }] });
    flow.value = "";
  };
  return (
    <div class="row low">
      <WordsField
        name={say("diary.testFlow", { unit })}
        value={flow.value}
        onValue={(value) => {
          flow.value = value;
        }}
      />
      <button type="button" disabled={flow.value.trim() === ""} onClick={add}>
        {say("diary.addTest")}
      </button>
    </div>
  );
}

interface LookProps {
  readonly by: Method;
  readonly places: Schemas["HuntOut"]["places"];
  readonly onNote: (entry: Entry) => void;
}

function LookEntry({ by, places, onNote }: LookProps): JSX.Element {
  const place = useSignal("");
  const known = places.length === 0 || places.some((one) => one.id === place.value);
  return (
    <div class="row low">
      <WordsField
        name={say("diary.place")}
        value={place.value}
        list={places.map((one) => one.id)}
        onValue={(value) => {
          place.value = value.trim();
        }}
      />
      {place.value !== "" && known && <Seen place={place.value} method={by} onNote={onNote} />}
    </div>
  );
}
