/** What somebody saw at a place: one touch writes it into the diary. */

import { useSignal } from "@preact/signals";
import type { JSX } from "preact";
import { say } from "../state/say";
import { today } from "../units/moment";
import type { Entry, Method, Sight } from "./search_diary";

interface Props {
  readonly place: string;
  readonly method: Method;
  readonly onNote: (entry: Entry) => void;
}

const STRENGTHS: readonly Sight[] = [1, 2, 3, 4, 5];

export function Seen({ place, method, onNote }: Props): JSX.Element {
  const told = useSignal("");
  const look = (saw: Sight): void => {
    onNote({ look: place, by: method, saw, day: today() });
    told.value = saw === "nothing" ? say("seen.wroteNothing") : say("seen.wrote", { n: saw });
  };
  return (
    <>
      <div class="row" role="group" aria-label={say("seen.name", { place })}>
        <button type="button" onClick={() => look("nothing")}>
          {say("seen.nothing")}
        </button>
        <span class="strengths">
          <span class="soft ends">
            <span>{say("seen.whisper")}</span>
            <span>{say("seen.gale")}</span>
          </span>
          {STRENGTHS.map((one) => (
            <button
              type="button"
              key={one}
              aria-label={say("seen.strength", { n: one })}
              onClick={() => look(one)}
            >
              {one}
            </button>
          ))}
        </span>
        <button
          type="button"
          onClick={() => {
            onNote({ mend: place, day: today() });
            told.value = say("seen.wroteMend");
          }}
        >
          {say("seen.mended")}
        </button>
      </div>
      <p role="status" class="soft">
        {told.value}
      </p>
    </>
  );
}
