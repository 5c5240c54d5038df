/** What was done on site: sealed, checked, reopened. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { post } from "../api/client";
import { Dialog } from "../parts/dialog";
import { WordsField } from "../parts/fields";
import { Failure } from "../parts/notices";
import { changed } from "../state/held";
import { say, term } from "../state/say";
import { person } from "../state/ways";
import { today } from "../units/moment";

const WHAT = ["sealed", "checked", "reopened"] as const;
type What = (typeof WHAT)[number];

interface Props {
  readonly house: string;
  readonly joints: readonly string[];
}

/** Record one thing at all chosen joints, joint by joint. */
export function RecordMany({ house, joints }: Props): JSX.Element {
  const asked = useSignal<What | null>(null);
  return (
    <>
      {WHAT.map((what) => (
        <button
          type="button"
          key={what}
          disabled={joints.length === 0}
          onClick={() => {
            asked.value = what;
          }}
        >
          {say("record.mark", { what: term("done", what) })}
        </button>
      ))}
      {asked.value !== null && (
        <Ask
          house={house}
          joints={joints}
          what={asked.value}
          onClose={() => {
            asked.value = null;
          }}
        />
      )}
    </>
  );
}

interface AskProps extends Props {
  readonly what: What;
  readonly onClose: () => void;
}

function Ask({ house, joints, what, onClose }: AskProps): JSX.Element {
  const note = useSignal("");
  const day = useSignal(today());
  const failure = useSignal<unknown>(null);
  const done = useSignal(0);
  const busy = useSignal(false);
  const send = async (): Promise<void> => {
    busy.value = true;
    failure.value = null;
    try {
      for (const joint of joints.slice(done.value)) {
        const key = crypto.randomUUID();
        const body = {
          key,
          joint,
          what,
          person: person.value.trim(),
          note: note.value,
          done_at: day.value,
        };
        await post("/api/v1/houses/{house}/records", { path: { house }, body });
        done.value += 1;
      }
      changed();
      onClose();
    } catch (error) {
      failure.value = error;
      busy.value = false;
      changed();
    }
  };
  return (
    <Dialog
      title={say("record.title", { what: term("done", what), n: joints.length })}
      onClose={onClose}
      actions={
        <>
          {failure.value !== null && <Failure error={failure.value} />}
          {busy.value && (
            <progress value={done.value} max={joints.length} aria-label={say("record.progress")} />
          )}
          <div class="row">
            <button
              type="button"
              class="main"
              disabled={busy.value || person.value.trim() === ""}
              onClick={send}
            >
              {say("record.go")}
            </button>
            <button type="button" onClick={onClose}>
              {say("record.stay")}
            </button>
          </div>
        </>
      }
    >
      <WordsField
        name={say("record.by")}
        value={person.value}
        required
        onValue={(text) => {
          person.value = text;
        }}
      />
      <WordsField
        name={say("record.day")}
        type="date"
        value={day.value}
        onValue={(text) => {
          day.value = text;
        }}
      />
      <WordsField
        name={say("record.note")}
        value={note.value}
        onValue={(text) => {
          note.value = text;
        }}
      />
    </Dialog>
  );
}
