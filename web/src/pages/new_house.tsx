/** A new house, drawn. What is drawn stays in this browser until it is kept. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { useEffect } from "preact/hooks";
import { post, type Schemas } from "../api/client";
import { firstForm, type HouseForm } from "../draft/form";
import { begin, step } from "../draft/history";
import { WordsField } from "../parts/fields";
import { Failure } from "../parts/notices";
import { Sheet } from "../parts/sheet";
import { changed } from "../state/held";
import { addressOf, goTo } from "../state/route";
import { say } from "../state/say";
import { person, units } from "../state/ways";
import { Drawing } from "./draw";

const KEPT = "seamwright.drawing";

export function NewHouse(): JSX.Element {
  const history = useSignal(begin(kept() ?? firstForm(units.value, say("draw.firstName"))));
  const verdict = useSignal<Schemas["Validated"] | null>(null);
  const failure = useSignal<unknown>(null);
  const busy = useSignal(false);
  const form = history.value.now;
  useEffect(() => {
    try {
      localStorage.setItem(KEPT, JSON.stringify(form));
    } catch {
      // A browser that keeps nothing still sends what is drawn.
    }
  }, [form]);
  const keep = async (): Promise<void> => {
    busy.value = true;
    failure.value = null;
    try {
      const source = { kind: "form" as const, form: { ...form, units: units.value } };
      const house = await post("/api/v1/houses", {
        body: { source, author: person.value, note: "" },
      });
      localStorage.removeItem(KEPT);
      changed();
      goTo(addressOf(house.id, "model"));
    } catch (error) {
      failure.value = error;
    } finally {
      busy.value = false;
    }
  };
  return (
    <Sheet title={say("draw.title")}>
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
          {failure.value !== null && <Failure error={failure.value} />}
          <div class="row">
            <button
              type="button"
              class="main"
              disabled={busy.value || verdict.value?.usable !== true}
              onClick={keep}
            >
              {say("draw.keep")}
            </button>
            <button
              type="button"
              onClick={() => {
                history.value = step(history.value, firstForm(units.value, say("draw.firstName")));
              }}
            >
              {say("draw.afresh")}
            </button>
          </div>
          <p class="soft">{say("draw.kept")}</p>
        </div>
      </Drawing>
    </Sheet>
  );
}

function kept(): HouseForm | null {
  try {
    const text = localStorage.getItem(KEPT);
    return text === null ? null : (JSON.parse(text) as HouseForm);
  } catch {
    return null;
  }
}
