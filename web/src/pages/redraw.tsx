/** Redrawing a house that was drawn: kept as a draft while it changes, as a revision when it is done. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { useEffect } from "preact/hooks";
import { read, remove, type Schemas } from "../api/client";
import type { HousePage } from "../desk";
import type { HouseForm } from "../draft/form";
import { begin, type History } from "../draft/history";
import { WordsField } from "../parts/fields";
import { Failure, Notice, Waiting } from "../parts/notices";
import { Sheet } from "../parts/sheet";
import { useDraft } from "../state/draft";
import { changed } from "../state/held";
import { revise } from "../state/revise";
import { addressOf, goTo } from "../state/route";
import { say } from "../state/say";
import { language, person } from "../state/ways";
import { showMoment } from "../units/moment";
import { Drawing } from "./draw";

export function Page({ house }: HousePage): JSX.Element {
  const start = useSignal<{ form: HouseForm | null; drafted: boolean } | null>(null);
  const failure = useSignal<unknown>(null);
  const path = { house: house.id };
  useEffect(() => {
    Promise.all([
      read("/api/v1/houses/{house}/plan", { path }),
      read("/api/v1/houses/{house}/draft", { path }),
    ]).then(
      ([plan, draft]) => {
        const drafted =
          draft.source?.kind === "form" && draft.base === house.head ? draft.source.form : null;
        start.value = { form: drafted ?? plan.form, drafted: drafted !== null };
      },
      (error: unknown) => {
        failure.value = error;
      },
    );
  }, [house.id, house.head]);
  return (
    <Sheet title={say("redraw.title")} house={house.name}>
      {failure.value !== null && <Failure error={failure.value} />}
      {start.value === null && failure.value === null && <Waiting />}
      {start.value?.form === null && <Notice>{say("redraw.noForm")}</Notice>}
      {start.value?.form && (
        <Redraw
          key={house.head}
          house={house}
          first={start.value.form}
          drafted={start.value.drafted}
        />
      )}
    </Sheet>
  );
}

interface Props {
  readonly house: Schemas["HouseOut"];
  readonly first: HouseForm;
  readonly drafted: boolean;
}

function Redraw({ house, first, drafted }: Props): JSX.Element {
  const history = useSignal<History<HouseForm>>(begin(first));
  const verdict = useSignal<Schemas["Validated"] | null>(null);
  const saved = useSignal<string | null>(null);
  const note = useSignal("");
  const failure = useSignal<unknown>(null);
  const form = history.value.now;
  const path = { house: house.id };
  const source = { kind: "form" as const, form };
  useDraft(house.id, house.head, form === first ? null : source, (at) => {
    saved.value = at;
  });
  const keep = (): void => {
    failure.value = null;
    revise(house, source, note.value)
      .then((done) => {
        if (done) goTo(addressOf(house.id, "model"));
      })
      .catch((error: unknown) => {
        failure.value = error;
      });
  };
  const forget = (): void => {
    remove("/api/v1/houses/{house}/draft", { path }).then(
      () => {
        changed();
        goTo(addressOf(house.id, "house"));
      },
      (error: unknown) => {
        failure.value = error;
      },
    );
  };
  return (
    <>
      {drafted && <Notice>{say("redraw.drafted")}</Notice>}
      <Drawing
        history={history}
        onVerdict={(answer) => {
          verdict.value = answer;
        }}
      >
        <div class="part">
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
            onValue={(text) => {
              note.value = text;
            }}
          />
          {failure.value !== null && <Failure error={failure.value} />}
          <div class="row">
            <button
              type="button"
              class="main"
              disabled={verdict.value?.usable !== true}
              onClick={keep}
            >
              {say("redraw.keep", { n: house.head + 1 })}
            </button>
            <button type="button" onClick={forget}>
              {say("redraw.forget")}
            </button>
          </div>
          <p class="soft" role="status">
            {saved.value === null
              ? say("redraw.auto")
              : say("redraw.saved", { when: showMoment(saved.value, language.value) })}
          </p>
        </div>
      </Drawing>
    </>
  );
}
