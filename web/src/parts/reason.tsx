/** The question why, when a change takes back what somebody signed. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { question } from "../state/reason";
import { say } from "../state/say";
import { Dialog } from "./dialog";
import { WordsField } from "./fields";

export function ReasonQuestion(): JSX.Element | null {
  const now = question.value;
  const reason = useSignal("");
  if (now === null) return null;
  const answer = (told: string | null): void => {
    reason.value = "";
    now.answer(told);
  };
  return (
    <Dialog
      title={say("reason.title")}
      onClose={() => answer(null)}
      actions={
        <div class="row">
          <button
            type="button"
            class="main"
            disabled={reason.value.trim().length < 3}
            onClick={() => answer(reason.value.trim())}
          >
            {say("reason.go")}
          </button>
          <button type="button" onClick={() => answer(null)}>
            {say("reason.stay")}
          </button>
        </div>
      }
    >
      <ul>
        {now.problems.map((problem) => (
          <li key={problem.sentence}>{problem.sentence}.</li>
        ))}
      </ul>
      <WordsField
        name={say("reason.name")}
        value={reason.value}
        required
        onValue={(text) => {
          reason.value = text;
        }}
      />
    </Dialog>
  );
}
