/** The plan as text, with the server's sentences beside it. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { useEffect, useId, useRef } from "preact/hooks";
import { read, type Schemas } from "../api/client";
import type { HousePage } from "../desk";
import { WordsField } from "../parts/fields";
import { Failure, Notice, Waiting } from "../parts/notices";
import { Sheet } from "../parts/sheet";
import { useDraft } from "../state/draft";
import { revise } from "../state/revise";
import { addressOf, goTo } from "../state/route";
import { say } from "../state/say";
import { language, person } from "../state/ways";
import { showMoment } from "../units/moment";
import { Verdict } from "./draw_verdict";

export function Page({ house }: HousePage): JSX.Element {
  const start = useSignal<{ text: string; draft: string | null } | null>(null);
  const failure = useSignal<unknown>(null);
  const path = { house: house.id };
  useEffect(() => {
    Promise.all([
      read("/api/v1/houses/{house}/plan", { path }),
      read("/api/v1/houses/{house}/draft", { path }),
    ]).then(
      ([plan, draft]) => {
        const text =
          draft.source?.kind === "yaml" && draft.base === house.head ? draft.source.text : null;
        start.value = { text: plan.text, draft: text };
      },
      (error: unknown) => {
        failure.value = error;
      },
    );
  }, [house.id, house.head]);
  return (
    <Sheet title={say("plan.title")} house={house.name}>
      {failure.value !== null && <Failure error={failure.value} />}
      {start.value === null && failure.value === null && <Waiting />}
      {start.value !== null && (
        <Editor key={house.head} house={house} kept={start.value.text} draft={start.value.draft} />
      )}
    </Sheet>
  );
}

interface Props {
  readonly house: Schemas["HouseOut"];
  readonly kept: string;
  readonly draft: string | null;
}

function Editor({ house, kept, draft }: Props): JSX.Element {
  const id = useId();
  const area = useRef<HTMLTextAreaElement>(null);
  const text = useSignal(draft ?? kept);
  const note = useSignal("");
  const usable = useSignal(false);
  const saved = useSignal<string | null>(null);
  const failure = useSignal<unknown>(null);
  const source = { kind: "yaml" as const, text: text.value, name: "plan.yaml" };
  useDraft(house.id, house.head, text.value === kept ? null : source, (at) => {
    saved.value = at;
  });
  const keep = (): void => {
    failure.value = null;
    revise(house, source, note.value)
      .then((done) => {
        if (done) goTo(addressOf(house.id, "house"));
      })
      .catch((error: unknown) => {
        failure.value = error;
      });
  };
  return (
    <>
      <p>{say("plan.lead")}</p>
      {draft !== null && <Notice>{say("redraw.drafted")}</Notice>}
      <div class="beside">
        <div>
          <label for={id}>{say("plan.text")}</label>
          <textarea
            id={id}
            ref={area}
            class="plan-text"
            spellcheck={false}
            rows={32}
            value={text.value}
            onInput={(event) => {
              text.value = event.currentTarget.value;
            }}
          />
        </div>
        <div>
          <Verdict
            source={source}
            onVerdict={(answer) => {
              usable.value = answer?.usable === true;
            }}
            onLine={(line) => toLine(area.current, line)}
          />
          <WordsField
            name={say("draw.by")}
            value={person.value}
            onValue={(name) => {
              person.value = name;
            }}
          />
          <WordsField
            name={say("redraw.note")}
            value={note.value}
            onValue={(words) => {
              note.value = words;
            }}
          />
          {failure.value !== null && <Failure error={failure.value} />}
          <button
            type="button"
            class="main"
            disabled={!usable.value || text.value === kept}
            onClick={keep}
          >
            {say("redraw.keep", { n: house.head + 1 })}
          </button>
          <p class="soft" role="status">
            {saved.value === null
              ? say("redraw.auto")
              : say("redraw.saved", { when: showMoment(saved.value, language.value) })}
          </p>
          <p>
            <a href={addressOf(house.id, "house")}>{say("compare.back")}</a>
          </p>
        </div>
      </div>
    </>
  );
}

/** Put the caret at the start of a line and show it. */
function toLine(area: HTMLTextAreaElement | null, line: number): void {
  if (area === null) return;
  const lines = area.value.split("\n");
  const start = lines.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0);
  area.focus();
  area.setSelectionRange(start, start + (lines[line - 1]?.length ?? 0));
  area.scrollTop = (area.scrollHeight / lines.length) * Math.max(line - 6, 0);
}
